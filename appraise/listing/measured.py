"""What a size in a text is of: the plate, the opening, the case, the mount, or nothing of a piece.

A label with a colon before the size says it ("Case: 9.4 x 8.1 cm"), else one directly after it
("9.4 x 8.1 cm case"), else the nearest word of its sentence, else what fits. A size in brackets
behind another one is the same in another unit.
"""

import re
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import replace
from itertools import islice, takewhile

from appraise.base.dataclass import dataclass
from appraise.knowledge.records import Knowledge
from appraise.listing.flags import made
from appraise.listing.nature import Nature, usual_kind
from appraise.listing.passage import Passage
from appraise.listing.records import Claim, Flag
from appraise.listing.sizes import (
    FARTHEST,
    SizeSaid,
    measure_of,
    measured_as,
    nearer,
    offset_of,
    strays,
)
from appraise.listing.vocabulary import Hit
from appraise.records.piece import MEASURED

IMAGE, SHEET, PICTURE, FRAME = "image", "sheet", "picture", "frame"
OPENED, MAT, BARE_IMAGE = "open-case", "mat", "bare-image"
LABELS = (*MEASURED, IMAGE, SHEET, PICTURE, FRAME, OPENED, MAT)
"""What a label can say: the parts of a piece, and what is one on some kinds only or on none."""
PAPER = ("card", "print", "postcard", "cyanotype", "lantern-slide")
UNHOUSED = ("loose-plate", *PAPER)
LABELLED = 0.95
"""The score of a size that is labelled as the plate; others have less."""
_BEFORE, _AFTER = 7, 3  # words around a size that say what was measured
_LABEL = 8  # words of a label before its colon
_BESIDE = 2  # words between a size and the label that stands directly after it
_WALLS = frozenset((":", ",", "=", "\n", "(", ")"))
_BRACKET = re.compile(r"[ \u00a0,;]{0,3}[(\[=][ ]{0,2}$")
_SAME = 0.06  # share by which two sizes differ that are one in two units


@dataclass(frozen=True, slots=True)
class _Labels:
    """The words of a text that say what was measured: their places, first to last, and values."""

    hits: Sequence[Hit]

    def within(self, low: int, high: int) -> str:
        """The first label of a stretch; an image that is the whole sheet is the sheet."""
        at = bisect_left(self.hits, low, key=lambda hit: hit.first)
        inside = takewhile(lambda hit: hit.last <= high, islice(self.hits, at, at + _LABEL))
        found = [hit.term.value for hit in inside]
        return SHEET if found[:2] == [IMAGE, SHEET] else next(iter(found), "")

    def at(self, place: int) -> str:
        """The label to which a word belongs, or ''."""
        at = bisect_left(self.hits, place + 1, key=lambda hit: hit.first) - 1
        known = at >= 0 and self.hits[at].last > place
        return self.hits[at].term.value if known else ""


def size_claims(passage: Passage, found: Sequence[SizeSaid], nature: Nature) -> list[Claim]:
    """Sizes with what was measured; in a sleeve a plate is measured as a bare one."""
    if nature.material == "sleeve" and nature.kind == "cased":
        nature = replace(nature, kind="loose-plate")
    names = {hit.last - 1 for hit in passage.things if hit.term.field == "format"}
    hits = [hit for hit in passage.hits("measured") if hit.first not in names]
    labels = _Labels(hits)  # the plate of "sixth plate" was not measured
    places = [passage.places(size.start, size.end) for size in found]
    claims: list[Claim] = []
    what, score = "", LABELLED
    plates = any(_is_label(passage, hit) for hit in hits if hit.term.value == "plate")
    for at, size in enumerate(found):
        if not (at and _again(passage, found[at - 1], size)):
            low = places[at - 1].stop if at else 0
            last = _last_of(passage, found, at)
            stop = places[last + 1].start if last + 1 < len(found) else len(passage.words)
            told = _told(passage, labels, low, places[at], range(places[last].stop, stop))
            if told.what == IMAGE and plates and nature.kind == "loose-plate":
                told = _Told(BARE_IMAGE)
            what = _part(told, size, nature, passage.knowledge)
            score = LABELLED if told.beside and told.what == "plate" else 0.9
        if any(passage.scope.muted[places[at].start : places[at].stop]):
            continue
        text = passage.text[size.start : size.end]
        value = f"{what} {size.measure}"
        if not any(_alike(value, one.value) for one in claims):
            claims.append(Claim("measured", value, text, size.start, size.end, score))
    return claims


def _alike(one: str, two: str) -> bool:
    """Whether the same part is measured alike: '4x5', '4 x 5 inches'."""
    if one.split(" ", 1)[0] != two.split(" ", 1)[0]:
        return False
    first, second = (sorted(measure_of(said.split(" ", 1)[1]).lengths) for said in (one, two))
    return first == second


def _is_label(passage: Passage, hit: Hit) -> bool:
    """Whether a word for what is measured stands before a colon: 'Plate: 7 x 8 cm'."""
    return hit.last < len(passage.words) and passage.words[hit.last].norm == ":"


def comparable(claims: Sequence[Claim]) -> list[Claim]:
    """Claims without the sizes that are of no part of a piece."""
    return [one for one in claims if one.field != "measured" or _part_of(one) in MEASURED]


def plate_flags(claims: Sequence[Claim], nature: Nature, passage: Passage) -> list[Flag]:
    """The flag of a size that is said to be of the plate and is not the named format's plate."""
    phrase = passage.vocabulary.phrases.get("size-disagrees")
    form = passage.knowledge.formats.get(nature.format)
    if phrase is None or form is None or nature.kind not in ("", "cased", "loose-plate"):
        return []
    offset = offset_of(passage.knowledge, "plate", nature.material)
    for claim in claims:
        if claim.field != "measured" or _part_of(claim) != "plate" or claim.score < LABELLED:
            continue
        measure = measure_of(claim.value.split(" ", 1)[1])
        if len(measure.sides) > 1 and strays(form, measure, offset) > FARTHEST:
            return [made(phrase, claim.start, claim.end, form.name, claim.text)]
    return []


def _part_of(claim: Claim) -> str:
    return claim.value.partition(" ")[0]


def _again(passage: Passage, first: SizeSaid, second: SizeSaid) -> bool:
    """Whether a size in brackets tells the one before it in another unit."""
    if not _BRACKET.search(passage.text[first.end : second.start]):
        return False
    one, two = (sorted(map(float, size.measure.lengths)) for size in (first, second))
    return len(one) == len(two) and all(
        abs(a - b) <= _SAME * max(a, b) + 1 for a, b in zip(one, two, strict=True)
    )


def _last_of(passage: Passage, found: Sequence[SizeSaid], at: int) -> int:
    """The last size that tells the one at `at` in another unit, or itself."""
    while at + 1 < len(found) and _again(passage, found[at], found[at + 1]):
        at += 1
    return at


@dataclass(frozen=True, slots=True)
class _Told:
    """What the words say was measured, whether a comma stands between, or they stand beside it."""

    what: str = ""
    apart: bool = False
    beside: bool = False


def _told(passage: Passage, labels: _Labels, low: int, size: range, after: range) -> _Told:
    """The label of a size: with a colon before it, directly after it, near before or after it.

    Args:
        passage: The text.
        labels: Its words for what is measured.
        low: The first word that may belong to this size and not to the one before.
        size: The words of the size.
        after: The words behind it up to the next size.
    """
    return (
        _with_colon(passage, labels, low, size.start)
        or _directly_after(passage, labels, after)
        or _near_before(passage, labels, low, size.start)
        or _near_after(passage, labels, after)
        or _Told()
    )


def _with_colon(passage: Passage, labels: _Labels, low: int, start: int) -> _Told | None:
    """'Image:', 'Image/Sheet:', 'Case (open):' right before a size."""
    words = passage.words
    if start <= low or words[start - 1].norm not in (":", "="):
        return None
    first = start - 1
    if first > low and words[first - 1].norm == ")":  # 'Mat (with that of 1979):'
        opens = (at for at in range(first - 1, low - 1, -1) if words[at].norm == "(")
        first = next(opens, first)
    while first > max(low, start - 2 * _LABEL) and not _ends_label(passage, first - 1):
        first -= 1
    what = labels.within(first, start - 1)
    return _Told(what, beside=True) if what else None


def _ends_label(passage: Passage, place: int) -> bool:
    """Whether a word stands before the label: the end of a sentence, another figure or colon."""
    word = passage.words[place]
    return passage.ends[place] or word.is_number or word.norm in _WALLS


def _directly_after(passage: Passage, labels: _Labels, after: range) -> _Told | None:
    """'7 x 8 cm case', '7 x 8 cm (case)', '7 x 8 cm, Image'; no label of the next size."""
    words = passage.words
    comma = False
    for at in after[: _BESIDE + 2]:
        word = words[at]
        if passage.ends[at]:
            return None
        what = labels.at(at)
        if what:
            end = at + 1
            while end < after.stop and labels.at(end):
                end += 1
            ends = end >= len(words) or passage.ends[end] or words[end].norm in (",", ")", "(")
            leads = (end < len(words) and words[end].norm in (":", "=")) or (
                end >= after.stop and end < len(words)
            )
            return None if leads or (comma and not ends) else _Told(what, beside=True)
        if not word.is_mark or word.norm in (":", "="):
            return None
        comma = comma or word.norm == ","
    return None


def _near_before(passage: Passage, labels: _Labels, low: int, start: int) -> _Told | None:
    """The nearest word before a size, within its sentence and behind every other number."""
    words, apart = passage.words, False
    for at in range(start - 1, max(low - 1, start - 1 - _BEFORE), -1):
        if passage.ends[at] or words[at].is_number:
            return None
        what = labels.at(at)
        if what in (MAT, OPENED) and at < start - 1:
            return None
        if what:
            return _Told(what, apart, beside=at == start - 1)
        apart = apart or words[at].norm == ","
    return None


def _near_after(passage: Passage, labels: _Labels, after: range) -> _Told | None:
    """A word soon after a size, no comma and no other size between."""
    for at in after[:_AFTER]:
        if passage.ends[at] or passage.words[at].norm in (",", ":"):
            return None
        what = labels.at(at)
        if what in (MAT, OPENED):
            return None
        if what:
            leads = at + 1 < len(passage.words) and passage.words[at + 1].norm in (":", "=")
            return None if leads or at + 1 >= after.stop < len(passage.words) else _Told(what)
    return None


def _part(told: _Told, size: SizeSaid, nature: Nature, knowledge: Knowledge) -> str:
    """The part of the piece, or the label itself where it is no part of such a piece."""
    what = _of_kind(told, size, nature, knowledge)
    if what:
        return what
    kind = nature.kind or "loose-plate"
    return measured_as(size.measure, kind, nature.format, nature.material, knowledge)


def _of_kind(told: _Told, size: SizeSaid, nature: Nature, knowledge: Knowledge) -> str:
    """What a label means on such a piece, '' where it says nothing."""
    what, kind = told.what, nature.kind or usual_kind(nature.process, knowledge)
    if what in (OPENED, MAT, BARE_IMAGE, ""):
        return what
    if size.measure.round and what in (IMAGE, PICTURE, SHEET):
        return ""
    if what == FRAME and kind not in UNHOUSED:
        return "case"
    if kind in PAPER:
        return _on_paper(what, kind, told.apart)
    if what in (IMAGE, SHEET):
        if what == SHEET or kind == "loose-plate":
            return "plate"
        unsaid = not nature.kind and nature.format
        return nearer(size.measure, nature.format, knowledge) if unsaid else "opening"
    if what in (PICTURE, "mount"):
        return "plate"
    return "" if what in ("case", FRAME) and nature.kind == "loose-plate" else what


def _on_paper(what: str, kind: str, apart: bool) -> str:
    """A label on a card, a print, a postcard, a cyanotype or a slide.

    The image is smaller than its mount, and neither mount nor slide. A mount that stands apart
    only tells what the piece is.
    """
    if what == FRAME and kind == "lantern-slide":
        return "plate"  # a slide is as large as its wooden frame
    if what == FRAME or (what in (IMAGE, "opening") and kind != "cyanotype"):
        return what.replace("opening", IMAGE)
    if what == SHEET:
        return "" if apart else IMAGE
    if kind in ("card", "postcard") or (what == "mount" and kind == "print"):
        return "mount"
    if what == "mount" and kind != "lantern-slide":
        return "plate" if apart else "mount"
    return "" if what in ("case", "mount") else "plate"
