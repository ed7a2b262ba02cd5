"""What is for sale: a cased image or a loose one, an empty case, a part, a print, an album."""

from collections.abc import Sequence
from dataclasses import replace

from appraise.knowledge.records import Knowledge
from appraise.listing.nature import Nature, family, usual_kind
from appraise.listing.passage import Passage
from appraise.listing.records import Claim
from appraise.listing.scope import ASIDE, COMPARE, GENERAL, HEARSAY
from appraise.listing.things import MANY
from appraise.listing.vocabulary import Hit

PLATES = ("daguerreotype", "ambrotype", "ambrotype-ruby", "ambrotype-sealed", "tintype")
FRAMES = ("frame", "locket")  # housings of plates that have no case
HOUSES = ("case", "lid", "pad", "clasp", "hinge", "preserver")  # parts that only cased pieces have
PRINTED = frozenset(("print", "prints", "photograph", "photographs", "stampa", "abzug", "tirage"))
LOOSE_PARTS = frozenset(("mat", "glass", "pad", "velvet", "preserver", "lid", "hinge", "clasp"))
BESIDE = 2  # words between a part and 'loose'
HALVES = frozenset(("half", "bottom", "back", "top", "lid", "tray"))
PACKAGED = ("mat", "preserver", "glass")  # parts that are sold by themselves
LEADS = 3  # words before one that a text begins with
HOUSED = ("hinge.detached", "hinge.split", "clasp.", "pad.")  # damage that only cased pieces have
HOUSED_NOW = "housed-now"  # of an idle ware: in a case by now, whatever it had before
LOT = "lot"
IMAGELESS = ("empty-case", "part", "other")
SHEETS = ("print", "postcard")
MENTIONED = (*SHEETS, "album")
MODERN = 0.9  # chance of modern work from which a process says by itself in what kind it is met
MODERN_WORK = "claim.age modern"
_UNMEANT = frozenset((COMPARE, GENERAL, ASIDE, HEARSAY))


def kind_of(passage: Passage, claims: Sequence[Claim], several: bool = False) -> Claim | None:
    """The kind of piece that the words tell, as a claim on the words that tell it.

    Words for what is no image in its housing come first: an empty case, a part, a print. A case,
    frame, locket or sleeve makes a cased piece, a card format a card. Of a lot of
    several kinds nothing is told.
    """
    ware = _ware(passage, claims, several)
    if ware is not None and ware.value != LOT:
        return ware
    many = several or ware is not None
    if many and mixed(claims, passage.knowledge):
        return ware
    return _usual(passage, claims) or ware


def _usual(passage: Passage, claims: Sequence[Claim]) -> Claim | None:
    """The kind of images that words tell: loose ones, cards, cased ones."""
    known = passage.knowledge
    said = [c for c in claims if c.field == "kind" and not _part_is_loose(passage, c)]
    loose = next((claim for claim in said if claim.value == "loose-plate"), None)
    framed = any(c.field == "case.material" and c.value in FRAMES for c in claims)
    paper = _paper(claims, known)
    if loose is not None and not framed and not paper and not _housed_now(passage):
        return loose
    said = [claim for claim in said if claim.value != "loose-plate"]
    if not paper:
        said = [as_kind(one, "card") if one.value == "print" else one for one in said]
    told = _by_name(claims, known) or (said[0] if said else _by_parts(passage, claims))
    told = told or (_as_print(claims) if paper else None)
    return told or (_bare_gem(passage, claims) if loose is None else None)


def _part_is_loose(passage: Passage, claim: Claim) -> bool:
    """Whether only a part lies loose: 'mat is loose, no seal'."""
    at = passage.at(claim.start)
    before = [word.norm for word in passage.words[max(0, at - BESIDE) : at]]
    told = len(before) == BESIDE and before[0] in LOOSE_PARTS and before[1] == "is"
    return claim.value == "loose-plate" and told


def _paper(claims: Sequence[Claim], known: Knowledge) -> bool:
    """Whether the process named is one of prints on paper."""
    named = next((family(c.value, known) for c in claims if c.field == "process"), "")
    return bool(named) and usual_kind(named, known) in ("card", "print")


def _as_print(claims: Sequence[Claim]) -> Claim | None:
    """A print that is called one: 'platinum print, portrait of a lady'."""
    named = (c for c in claims if c.field == "process")
    called = next((c for c in named if PRINTED & set(c.text.lower().split())), None)
    return as_kind(called, "print") if called is not None else None


def _housed_now(passage: Passage) -> bool:
    """Whether a piece that had no case is said to have one now."""
    return any(hit.term.value == HOUSED_NOW for hit in passage.hits("ware"))


def _bare_gem(passage: Passage, claims: Sequence[Claim]) -> Claim | None:
    """A gem of which no housing is named is a loose plate."""
    gem = next((c for c in claims if c.field == "format" and c.value == "gem"), None)
    housed = any(c.field == "case.material" for c in claims) or any(
        hit.term.value in ("mount", "case", "frame") for hit in passage.things
    )
    return as_kind(gem, "loose-plate") if gem is not None and not housed else None


def _by_name(claims: Sequence[Claim], known: Knowledge) -> Claim | None:
    """The kind that a format or a process alone tells."""
    for claim in claims:
        kinds = known.formats[claim.value].kinds if claim.value in known.formats else ()
        if claim.field == "format" and len(kinds) == 1 and kinds != ("loose-plate",):
            return as_kind(claim, kinds[0])
        if claim.field == "process" and claim.value in ("lantern-slide", "cyanotype"):
            return as_kind(claim, claim.value)
        process = known.processes.get(claim.value) if claim.field == "process" else None
        if process is not None and process.modern_image > MODERN:
            return as_kind(claim, max(process.shares, key=lambda kind: process.shares[kind]))
    return None


def _by_parts(passage: Passage, claims: Sequence[Claim]) -> Claim | None:
    """The kind that mount, housing or parts tell."""
    known = passage.knowledge
    mount = next((hit for hit in passage.things if hit.term.value == "mount"), None)
    paper = next((family(c.value, known) for c in claims if c.field == "process"), "")
    if mount is not None and _paper(claims, known):
        printed = any(c.field == "process" and "print" in c.text.lower() for c in claims)
        if printed or usual_kind(paper, known) == "card":
            return as_kind(_claim(passage, mount), "print" if printed else "card")
    housed = next((c for c in claims if c.field == "case.material"), None)
    if housed is not None and not (housed.value == "sleeve" and _paper(claims, known)):
        return as_kind(housed, "cased")
    parts = (
        hit
        for hit in passage.things
        if (hit.term.value in HOUSES or hit.term.value.startswith(HOUSED))
        and not passage.scope.muted[hit.first]
    )
    part = next(parts, None)
    return as_kind(_claim(passage, part), "cased") if part else None


def _ware(passage: Passage, claims: Sequence[Claim], several: bool) -> Claim | None:
    """What words for the ware itself say; of several pieces only that they are an album or lot.

    An empty case that is told by its missing image alone needs a case, and nobody shown. A print,
    a postcard or an album that is named after a plate is only mentioned with it.
    """
    cased = any(claim.field == "case.material" for claim in claims) or any(
        hit.term.value == "case" for hit in passage.things
    )
    shown = (hit.term.value for hit in passage.hits("sitter") if hit.term.field == "subject")
    people = any(value not in ("object", "outdoor", "animal") for value in shown)
    cased = cased and not people
    plates = [claim.start for claim in claims if claim.field == "process" and claim.value in PLATES]
    for hit in passage.hits("ware"):
        unmeant = passage.scope.denied[hit.first] or passage.scope.muted[hit.first] in _UNMEANT
        if hit.term.field != "ware" or unmeant or (hit.term.tight and not cased):
            continue
        if several and hit.term.value not in (*MANY, *(() if plates else ("part",))):
            continue
        if plates and people and (hit.term.value == "part" or _half(passage, hit)):
            continue  # 'ambrotype of a lady, bottom half only'
        later = plates and min(plates) < passage.words[hit.first].start
        if hit.term.value in MENTIONED and later:
            continue
        if hit.term.value == "print" and any(_card(claim, passage.knowledge) for claim in claims):
            continue
        return as_kind(_claim(passage, hit), hit.term.value)
    return None if plates or cased or several else _lone_part(passage, claims)


def _half(passage: Passage, hit: Hit) -> bool:
    """Whether a case by itself is half a case: 'only the bottom half of the leather case'."""
    said = {word.norm for word in passage.words[hit.first : hit.last]}
    return hit.term.value == "empty-case" and bool(said & HALVES)


def _lone_part(passage: Passage, claims: Sequence[Claim]) -> Claim | None:
    """A part of a package by which a text begins, where no image and nobody is told of."""
    if any(claim.field in ("process", "case.material") for claim in claims):
        return None
    if any(hit.term.field == "subject" for hit in passage.hits("sitter")):
        return None
    parts = (hit for hit in passage.things if hit.term.field == "part")
    first = next((hit for hit in parts if hit.term.value != "plate"), None)
    imageless = any(hit.term.value == "empty-case" for hit in passage.hits("ware"))
    leads = first is not None and (first.first <= LEADS or imageless)
    if first is None or not leads or first.term.value not in PACKAGED:
        return None
    return as_kind(_claim(passage, first), "part")


def fitting(claims: Sequence[Claim], kind: Claim | None, knowledge: Knowledge) -> list[Claim]:
    """Claims without a process that no piece of that kind is made by.

    The daguerreotype of "a case for a daguerreotype" or "a print from a daguerreotype" is not
    the one for sale.
    """
    if kind is not None and kind.value == "lantern-slide":
        return [claim for claim in claims if claim.field != "case.material"]
    if kind is None or kind.value not in (*IMAGELESS, *SHEETS):
        return list(claims)
    if kind.value == "other":
        return [claim for claim in claims if claim.field not in ("process", "format")]
    return [
        claim
        for claim in claims
        if claim.field != "process" or _met(claim.value, kind.value, knowledge)
    ]


def _met(process: str, kind: str, knowledge: Knowledge) -> bool:
    return any(
        one.shares.get(kind)
        for one in knowledge.processes.values()
        if process in (one.id, one.family)
    )


def whole_kind(claims: Sequence[Claim], pieces: int) -> list[Claim]:
    """Claims where several pieces are for sale: together they are a lot, if no album."""
    told = [claim for claim in claims if claim.field == "kind"]
    if pieces < 2 or any(claim.value in (*MANY, "part") for claim in told):
        return list(claims)
    first = next(iter([*told, *claims]), None)
    others = [claim for claim in claims if claim.field != "kind"]
    return [*others, as_kind(first, LOT)] if first is not None else others


def as_modern(claims: list[Claim], nature: Nature) -> tuple[list[Claim], Nature]:
    """Modern work without a case is no old photograph of any kind: a new tintype, a reprint."""
    modern = next((c for c in claims if c.field == "check" and c.value == MODERN_WORK), None)
    if modern is None or nature.kind in (*IMAGELESS, *MANY, "cased", "postcard"):
        return claims, nature
    sheet = not nature.kind and not nature.process  # a reprint is measured as its sheet
    others = [
        replace(c, value=c.value.replace("plate ", "mount "))
        if sheet and c.field == "measured"
        else c
        for c in claims
        if c.field != "kind"
    ]
    return [*others, as_kind(modern, "other")], replace(nature, kind="other")


def mixed(claims: Sequence[Claim], knowledge: Knowledge) -> bool:
    """Whether claims of a lot are of pieces of more than one kind."""
    said = {claim.value for claim in claims}
    sorts = [
        bool(said & set(PLATES)),
        any(_card(claim, knowledge) for claim in claims),
        "lantern-slide" in said,
        "cyanotype" in said,
    ]
    housed = any(c.field == "case.material" and c.value != "sleeve" for c in claims)
    return sum(sorts) > 1 or (housed and "loose-plate" in said)


def _card(claim: Claim, knowledge: Knowledge) -> bool:
    """Whether a claim is of a format that only cards come in."""
    form = knowledge.formats.get(claim.value)
    return claim.field == "format" and form is not None and form.kinds == ("card",)


def as_kind(claim: Claim, kind: str) -> Claim:
    """A claim on the same words, of a kind."""
    return Claim("kind", kind, claim.text, claim.start, claim.end, claim.score)


def _claim(passage: Passage, hit: Hit) -> Claim:
    start, end = passage.span(hit.first, hit.last)
    value = hit.term.value
    return Claim(hit.term.field, value, passage.text[start:end], start, end, hit.score)
