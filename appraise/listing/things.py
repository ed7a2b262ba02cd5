"""Claims about what the piece is: process, format, material, kind and condition."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from appraise.knowledge.records import Knowledge
from appraise.listing.damage import Subject, asked_of, damage
from appraise.listing.passage import Passage
from appraise.listing.records import Claim
from appraise.listing.vocabulary import Hit

PLATES = ("daguerreotype", "ambrotype", "ambrotype-ruby", "ambrotype-sealed", "tintype")
FRAMES = ("frame", "locket")  # housings of plates that have no case
HOUSES = ("case", "lid", "pad", "clasp", "hinge", "preserver")  # parts that only cased pieces have
HOUSED = ("hinge.detached",)


@dataclass(frozen=True, slots=True)
class Nature:
    """What the piece is said to be: the first claim of each, '' where nothing is said."""

    kind: str = ""
    process: str = ""
    format: str = ""
    material: str = ""


def family(process: str, knowledge: Knowledge) -> str:
    """The family of a process, or the word itself where it is one."""
    known = knowledge.processes.get(process)
    return known.family if known else process


def thing_claims(passage: Passage, fields: Sequence[str]) -> list[Claim]:
    """Claims of some fields, one for each value, where it first stands."""
    found: dict[tuple[str, str], Claim] = {}
    for hit in passage.claimed(passage.things, *fields):
        key = hit.term.field, hit.term.value
        if key not in found:
            found[key] = claim_of(passage, hit)
        if hit.term.field == "format":
            for value in (v for k, v in hit.term.also.items() if k == "claim.process"):
                found.setdefault(("process", value), claim_of(passage, hit, "process", value))
    return list(found.values())


def claim_of(passage: Passage, hit: Hit, field: str = "", value: str = "") -> Claim:
    """A hit as a claim."""
    start, end = passage.span(hit.first, hit.last)
    return Claim(
        field or hit.term.field,
        value or hit.term.value,
        passage.text[start:end],
        start,
        end,
        hit.score,
    )


def kind_of(passage: Passage, claims: Sequence[Claim], several: bool = False) -> Claim | None:
    """The kind of piece that the words tell, as a claim on the words that tell it.

    A case, frame or locket makes a cased piece, a card format a card; a sleeve tells nothing.
    Of a lot of several kinds nothing is told.
    """
    if several and _mixed(claims, passage.knowledge):
        return None
    known = passage.knowledge
    said = [claim for claim in claims if claim.field == "kind"]
    loose = next((claim for claim in said if claim.value == "loose-plate"), None)
    framed = any(c.field == "case.material" and c.value in FRAMES for c in claims)
    if loose is not None and not framed:
        return loose
    said = [claim for claim in said if claim is not loose]
    for claim in claims:
        kinds = known.formats[claim.value].kinds if claim.value in known.formats else ()
        if claim.field == "format" and len(kinds) == 1 and kinds != ("loose-plate",):
            return _as_kind(claim, kinds[0])
        if claim.field == "process" and claim.value in ("lantern-slide", "cyanotype"):
            return _as_kind(claim, claim.value)
    if said:
        return said[0]
    mount = next((hit for hit in passage.things if hit.term.value == "mount"), None)
    paper = next((family(c.value, known) for c in claims if c.field == "process"), "")
    if mount is not None and paper and usual_kind(paper, known) in ("card", "print"):
        return _as_kind(claim_of(passage, mount), "card")
    housed = next((c for c in claims if c.field == "case.material" and c.value != "sleeve"), None)
    if housed is not None:
        return _as_kind(housed, "cased")
    parts = (
        hit
        for hit in passage.things
        if (hit.term.value in HOUSES or hit.term.value.partition(" ")[0] in HOUSED)
        and not passage.scope.muted[hit.first]
    )
    part = next(parts, None)
    return _as_kind(claim_of(passage, part), "cased") if part else None


def _mixed(claims: Sequence[Claim], knowledge: Knowledge) -> bool:
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


def usual_kind(process: str, knowledge: Knowledge) -> str:
    """The kind in which a process family is met most; plates are looked at as cased ones."""
    shares: dict[str, float] = {}
    for one in knowledge.processes.values():
        if one.family == process:
            for kind, share in one.shares.items():
                shares[kind] = shares.get(kind, 0.0) + share
    best = max(shares, key=lambda kind: shares[kind], default="cased")
    return "cased" if best == "loose-plate" else best


def _as_kind(claim: Claim, kind: str) -> Claim:
    return Claim("kind", kind, claim.text, claim.start, claim.end, claim.score)


def nature_of(claims: Sequence[Claim], knowledge: Knowledge) -> Nature:
    """What the claims say the piece is."""
    first: dict[str, str] = {}
    for claim in claims:
        first.setdefault(claim.field, claim.value)
    process = first.get("process", "")
    return Nature(
        kind=first.get("kind", ""),
        process=family(process, knowledge) if process else "",
        format=first.get("format", ""),
        material=first.get("case.material", ""),
    )


def damage_claims(passage: Passage, nature_at: Callable[[int], Nature]) -> list[Claim]:
    """What is said of the condition; damage is told against the seller's own interest.

    Args:
        passage: The text.
        nature_at: What the piece is of which the word at a place is said.
    """

    def subject_at(place: int) -> Subject:
        nature = nature_at(place)
        kind = nature.kind or usual_kind(nature.process, passage.knowledge)
        return Subject(kind, nature.material, nature.process)

    found: dict[tuple[str, bool], Claim] = {}
    for one in damage(passage, subject_at):
        start, end = passage.span(one.first, one.last)
        bad = one.step != "0"
        claim = Claim(
            "defect",
            f"{one.check} {one.step}",
            passage.text[start:end],
            start,
            end,
            one.score,
            bad,
        )
        kept = found.get((one.check, bad))
        if kept is None or kept.value < claim.value:
            found[one.check, bad] = claim
    return [claim for (check, bad), claim in found.items() if bad or (check, True) not in found]


def check_claims(passage: Passage, nature: Nature) -> list[Claim]:
    """Answers to checks that are no damage: a magnet that pulls, an octagonal mat."""
    kind = nature.kind or usual_kind(nature.process, passage.knowledge)
    subject = Subject(kind, nature.material, nature.process)
    found: dict[str, Claim] = {}
    for hit in passage.claimed(passage.things, "check"):
        check = passage.knowledge.checks.get(hit.term.value.split()[0])
        if check is not None and asked_of(check, subject, passage):
            found.setdefault(check.id, claim_of(passage, hit))
    return list(found.values())
