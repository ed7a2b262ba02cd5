"""A whole listing, read: claims, flags, gaps, questions, and the piece that it describes."""

import re
from bisect import bisect_right
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from appraise.knowledge.records import UNJUDGED, Knowledge
from appraise.listing.amounts import Amount
from appraise.listing.as_piece import as_piece
from appraise.listing.clashes import claim_flags
from appraise.listing.damage import DamageSaid, DamageSubject, damage
from appraise.listing.entities import unescaped
from appraise.listing.figures import figures
from appraise.listing.flags import (
    gap_flags,
    in_order,
    made,
    phrase_flags,
    saying_flags,
    sitter_flags,
    tape_flags,
)
from appraise.listing.gaps import gaps_of, questions_of
from appraise.listing.gate import is_file, standing
from appraise.listing.kinds import (
    IMAGELESS,
    as_kind,
    as_modern,
    fitting,
    kind_of,
    mixed,
    whole_kind,
)
from appraise.listing.lots import in_one_case, parts_of, pieces_of, spares_of
from appraise.listing.measured import comparable, plate_flags, size_claims
from appraise.listing.names import name_flags
from appraise.listing.nature import Nature, family, nature_of, usual_kind
from appraise.listing.offered import alike, beside, lot_piece, of_all
from appraise.listing.origins import origin_claims
from appraise.listing.passage import Passage
from appraise.listing.prices import price_claims
from appraise.listing.records import Claim, Flag, Listing
from appraise.listing.sayings import first_of_each, implied_claims, saying_claims
from appraise.listing.sitters import shown_claims, sitter_hits, sitters_in, subject_claims
from appraise.listing.sizes import SizeSaid, sizes
from appraise.listing.things import (
    check_claims,
    claim_of,
    damage_claims,
    housing_claims,
    subject_of,
    thing_claims,
)
from appraise.listing.tongues import foreign
from appraise.listing.writing import maker_claims, writing_claims
from appraise.listing.years import date_claims
from appraise.records.piece import SIDES, Image, Piece

MOST_PARTS = 60  # pieces of a lot that are read one by one; a longer list is read as a whole
NEAR_HITS = 12  # things named before a word among which its process is looked for
_TAG = re.compile(r"(?<![\w&])#[^\W\d_]\w{1,40}")  # words for the search, as #tintype
_OF_LOT = re.compile(r"\b(?:lot|set|album|group|box|collection|bundle) of $", re.IGNORECASE)
BASES = {"metal": "tintype", "glass": "ambrotype"}  # of a photograph whose process is not named
NATURE = ("process", "format", "case.material", "kind")
MONEY = ("asking", "postage")
COPY = "reproduction-words"
AKIN = "akin"  # words for what has to do with photographs and is none


def read(text: str, knowledge: Knowledge, currency: str = "USD") -> Listing:
    """Read the text of a listing.

    Args:
        text: The listing as pasted, of any length; line breaks may be lost or added.
        knowledge: The trade's knowledge.
        currency: ISO 4217 code of amounts that name none.

    Returns:
        What it claims, every span inside the text; what should make one stop; what it does not
        tell. Nothing is raised on any text.
    """
    plain = unescaped(text)
    return plain.back(_read(plain.text, knowledge, currency))


def _read(text: str, knowledge: Knowledge, currency: str) -> Listing:
    """Read a text without entities and tags."""
    told = figures(text, knowledge, currency)
    found = told.sizes
    tags = [match.span() for match in _TAG.finditer(text)] if "#" in text else []
    passage = Passage(text, knowledge, masks=[*told.masks, *tags])
    money = _money(passage, told.amounts, currency)
    stands = standing(passage)
    if stands == "none":
        return _unrelated(passage, money)
    spares = spares_of(passage)
    if spares:
        masks = [*told.masks, *tags, *((one.start, one.end) for one in spares)]
        passage = Passage(text, knowledge, masks=masks)
    parts = parts_of(passage)
    pieces = 1 if is_file(passage) else pieces_of(passage, parts)
    two = pieces == len(SIDES) and not parts and in_one_case(passage)
    pieces = 1 if two else pieces
    parts = parts if len(parts) <= MOST_PARTS else []
    claims, nature = claims_of(passage, found, pieces > 1, parts)
    whole = as_piece(text, claims, knowledge, money, _usual(claims, pieces, knowledge))
    if two and whole.kind == "cased":
        whole = replace(whole, images=tuple(map(Image, SIDES)))
    each = _pieces(passage, parts, pieces, whole, (claims, nature))
    claims, nature = as_modern(claims, nature) if pieces == 1 else (claims, nature)
    flags = _flags(passage, claims, nature, pieces, stands)
    gaps = gaps_of([*claims, *money], flags, nature, passage)
    return Listing(
        text,
        _sorted([*whole_kind(claims, pieces), *money]),
        flags,
        tuple(gap.id for gap in gaps),
        questions_of(gaps, flags),
        pieces + sum(one.count for one in spares),
        whole,
        (*each, *beside(spares)) if pieces > 1 or spares else (),
    )


def _money(passage: Passage, priced: Sequence[Amount], currency: str) -> list[Claim]:
    """What is asked and the shipping; a count of a lot ('set of 12') is no price."""
    money = price_claims(passage, priced, currency)
    asked = next((one for one in money if one.field == "asking"), None)
    if asked is not None and asked.text.isdecimal() and _OF_LOT.search(passage.text[: asked.start]):
        return [one for one in money if one is not asked]
    return money


def _pieces(
    passage: Passage,
    parts: Sequence[tuple[int, int]],
    count: int,
    whole: Piece,
    told: tuple[Sequence[Claim], Nature],
) -> Iterator[Piece]:
    """Each piece of a lot: as it is listed, else as all of them are said to be."""
    knowledge = passage.knowledge
    if count == 1:
        yield lot_piece(whole)
        return
    if parts:
        for low, high in parts:
            yield _part(passage.text[low:high], knowledge)
        return
    same = of_all(told[0], told[1], passage.text)
    kind = whole.kind if whole.kind not in UNJUDGED else "cased"
    one = alike(as_piece(passage.text, same, knowledge, (), kind), same, count, knowledge)
    for _ in range(count):
        yield one


def _unrelated(passage: Passage, money: Sequence[Claim]) -> Listing:
    """A text about something else: what it asks, and a warning."""
    copies = [flag for flag in phrase_flags(passage) if flag.id == COPY]
    flags = in_order([*_of_phrase(passage, "no-photograph")])
    piece = as_piece(passage.text, (), passage.knowledge, money, "other")
    akin = next((h for h in passage.hits("about") if h.term.value == AKIN), None)
    if akin is None:
        return Listing(passage.text, _sorted(money), flags, (), (), 0, piece)
    kind = as_kind(claim_of(passage, akin, "kind", "other"), "other")
    flags = in_order([*flags, *copies])
    return Listing(passage.text, _sorted([kind, *money]), flags, (), (), 1, piece)


def _of_phrase(
    passage: Passage, name: str, start: int | None = None, end: int | None = None, a: str = ""
) -> Iterator[Flag]:
    """The flag of a phrase that is worked out and not matched, if the knowledge has it."""
    phrase = passage.vocabulary.phrases.get(name)
    if phrase is not None:
        yield made(phrase, start, end, a)


def _usual(claims: Sequence[Claim], pieces: int, knowledge: Knowledge) -> str:
    """The kind of piece where no words tell it: that in which its process is met most."""
    if pieces > 1 and mixed(claims, knowledge):
        return "lot"
    process = next((claim.value for claim in claims if claim.field == "process"), "")
    return usual_kind(family(process, knowledge), knowledge) if process else "cased"


def _sorted(claims: Sequence[Claim]) -> tuple[Claim, ...]:
    return tuple(sorted(claims, key=lambda claim: (claim.start, claim.end)))


def claims_of(
    passage: Passage,
    found: Sequence[SizeSaid],
    several: bool,
    parts: Sequence[tuple[int, int]] = (),
) -> tuple[list[Claim], Nature]:
    """Every claim but the money, and what the piece is by them.

    Args:
        passage: The text.
        found: Its sizes.
        several: Whether it is a lot.
        parts: Where each piece of a lot is described, if that is told.
    """
    named = thing_claims(passage, NATURE)
    kind = kind_of(passage, named, several)
    claims = fitting([claim for claim in named if claim.field != "kind"], kind, passage.knowledge)
    claims += [kind] if kind else []
    claims += housing_claims(passage, claims)
    nature = nature_of(claims, passage.knowledge)
    if several:
        nature = _of_several(claims, nature)
    if nature.kind not in IMAGELESS[:2]:  # what an empty case is pressed with is no sitter
        many = several or nature.kind == "album"
        leading = subject_claims(passage, passage.once(sitters_in), many, parts)
        claims += leading
        claims += shown_claims(passage, leading, many)
    written = writing_claims(passage)
    claims += origin_claims(passage, written)
    claims += size_claims(passage, found, nature)
    claims += date_claims(passage)
    claims += _condition(passage, nature, _nature_at(passage, nature, parts, several))
    claims += written
    claims += maker_claims(passage)
    return claims, nature


def _condition(passage: Passage, nature: Nature, nature_at: Callable[[int], Nature]) -> list[Claim]:
    """Damage, and answers to checks: what is seen, what is said, what follows from damage."""
    base = _base_of(passage)

    def subject_at(place: int) -> DamageSubject:
        subject = subject_of(nature_at(place), passage.knowledge)
        return subject if subject.family or not base else replace(subject, family=base)

    damaged = _gravest(passage, damage(passage, subject_at))
    answers = first_of_each(
        check_claims(passage, nature),
        saying_claims(passage, subject_at),
        implied_claims(passage, damaged, subject_at),
    )
    return [*damage_claims(passage, damaged), *answers]


def _gravest(passage: Passage, damaged: Sequence[DamageSaid]) -> list[DamageSaid]:
    """Damage without what its sentence tells in a graver form: a hinge in two is split as well."""
    told = {(one.check, passage.sentence[one.first]) for one in damaged if one.step != "0"}

    def outdone(one: DamageSaid) -> bool:
        defect = passage.knowledge.checks[one.check].defect
        graver = defect.graver if defect else ()
        return any((check, passage.sentence[one.first]) in told for check in graver)

    return [one for one in damaged if not outdone(one)]


def _base_of(passage: Passage) -> str:
    """The family by what an image without a name lies on: 'photo on metal' rusts as a tintype."""
    bases = {hit.term.value for hit in passage.hits("about")} & set(BASES)
    return BASES[bases.pop()] if len(bases) == 1 else ""


def _nature_at(
    passage: Passage, nature: Nature, parts: Sequence[tuple[int, int]], several: bool
) -> Callable[[int], Nature]:
    """What the piece is of which a word is said: of the whole text, or of its own lines."""
    if not parts:
        return (
            (lambda place: _named_before(passage, place, nature)) if several else lambda _: nature
        )
    starts = [start for start, _ in parts]
    natures = []
    for low, high in parts:
        own = Passage(passage.text[low:high], passage.knowledge)
        named = thing_claims(own, NATURE)
        kind = kind_of(own, named)
        natures.append(nature_of([*named, *([kind] if kind else [])], passage.knowledge))

    def at(place: int) -> Nature:
        part = bisect_right(starts, passage.words[place].start) - 1
        return natures[part] if part >= 0 else nature

    return at


def _named_before(passage: Passage, place: int, nature: Nature) -> Nature:
    """In a lot of several processes, the one that is named before a word in its sentence."""
    if nature.process:
        return nature
    last = bisect_right(passage.things, place, key=lambda hit: hit.first)
    for hit in reversed(passage.things[max(0, last - NEAR_HITS) : last]):
        if passage.sentence[hit.first] != passage.sentence[place]:
            break
        if hit.term.field == "process":
            own = family(hit.term.value, passage.knowledge)
            return replace(nature, process=own, kind=usual_kind(own, passage.knowledge))
    return nature


def _of_several(claims: Sequence[Claim], nature: Nature) -> Nature:
    """What all pieces of a lot are: fields in which they differ say nothing."""

    def only(field: str, value: str) -> str:
        said = [one for one in claims if one.field == field]
        plural = field != "case.material" or any(one.text.lower().endswith("s") for one in said)
        return value if plural and len({one.value for one in said}) == 1 else ""

    return Nature(
        nature.kind,
        only("process", nature.process),
        only("format", nature.format),
        only("case.material", nature.material),
    )


def _flags(
    passage: Passage, claims: Sequence[Claim], nature: Nature, pieces: int, stands: str
) -> tuple[Flag, ...]:
    flags = [*phrase_flags(passage), *saying_flags(claims, passage)]
    flags += name_flags(passage)
    flags += sitter_flags(passage, sitter_hits(passage, passage.once(sitters_in)))
    flags += gap_flags(nature_of(claims, passage.knowledge), claims, passage)
    flags += tape_flags(claims, nature, passage)
    if nature.kind == "lantern-slide":
        flags = [flag for flag in flags if flag.id != "tape-words"]  # slides are bound with it
    if pieces == 1 and nature.kind != "album":
        flags += claim_flags(comparable(claims), nature, passage)
        flags += plate_flags(claims, nature, passage)
    if stands == "weak":
        flags += _of_phrase(passage, "no-photograph")
    elif nature.kind in IMAGELESS:
        flags += _of_phrase(passage, "no-photograph" if nature.kind == "other" else "no-image")
    tongue = foreign(passage)
    if tongue is not None:
        name = "foreign-condition" if tongue.condition else "foreign"
        span = passage.span(tongue.first, tongue.last)
        flags += _of_phrase(passage, name, *span, tongue.tongue)
    return in_order(flags)


def _part(text: str, knowledge: Knowledge) -> Piece:
    """One piece of a lot, from its own lines."""
    found = list(sizes(text))
    passage = Passage(text, knowledge, masks=[(one.start, one.end) for one in found])
    claims, _ = claims_of(passage, found, several=False)
    return as_piece(text, claims, knowledge)
