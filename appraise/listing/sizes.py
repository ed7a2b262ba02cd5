"""Sizes in running text: every way of writing them, and what was probably measured."""

import re
from bisect import bisect_right
from collections.abc import Iterator
from functools import lru_cache
from math import hypot

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.measures import Measure
from appraise.base.regex import late
from appraise.knowledge.records import Format, Knowledge, Offset
from appraise.listing.spoken import UNITS
from appraise.listing.words import lowered
from appraise.reading.fits import density

_AND = r"(?:[ \-]{1,2}|[ ](?:and(?: an?)?|&)[ ])"
_FRACTION = rf"(?:\d{{1,3}}{_AND})?\d{{1,2}}[/⁄]\d{{1,2}}|(?:\d{{1,3}}[ \-]?)?[¼-¾⅐-⅞]"
_COUNT = rf"(?:\d{{1,2}}|{'|'.join(UNITS[:12])})"
_PART = r"(?:an?|one|three)[ -](?:half|quarters?|eighths?)"
_SPOKEN = rf"{_COUNT}[ ]and[ ]{_PART}|(?!\d){_COUNT}\b"  # counts only where a unit is told
_LENGTH = rf"(?:{_SPOKEN}|{_FRACTION}|\d{{1,3}}(?:[.,]\d{{1,3}})?)"
_WORD = r"(?:millimet(?:er|re)s?|centimet(?:er|re)s?|inch(?:es)?|ins?|mms?|cms?)"
_UNIT = rf"(?:{_WORD}|\"|''|[”″])"
_GAP = r"[ \u00a0]{0,2}"
_WRAP = r"(?:[ \u00a0]{0,2}|[ ]?\n[ ]{0,8})"  # a line may end within a size
_TIMES = rf"{_WRAP}(?:[x×✕✖*]|\bby\b){_WRAP}"
_SIDE = r"(?:wide|high|tall|deep|thick|in[ ](?:height|width)|w|h|d|l)"
_ASIDE = rf"(?:{_GAP}\(?{_SIDE}\b\)?)?"
_NAME = r"(?:height|width|ht|wd|h|w)"
_THEN = r"[ \u00a0]?[,;]?[ \u00a0](?:and[ ]|by[ ]|[x×][ ])?"
_ONE = (
    rf"{_LENGTH}(?:(?:{_GAP}{_UNIT}|[ ]?\n[ ]{{0,8}}{_WORD})(?![a-z])(?:\.(?={_TIMES}))?)?{_ASIDE}"
)
_OR_SO = r"(?:,[ \n](?:near enough|or so|about|roughly))?"
_DEEP = (
    rf"{_OR_SO},?[ \n](?:and[ \n])?(?P<third>{_LENGTH}{_GAP}{_WORD}){_GAP}"
    r"(?:thick|deep|in depth)\b"
)
_SIZE = late(
    rf"(?<![\w.,/$£€])(?:(?P<unit>[cm]m)\.?[ ])?"
    rf"(?P<size>{_ONE}(?:{_TIMES}{_ONE}){{1,2}})(?!\w)(?:{_DEEP})?",
    re.IGNORECASE,
)
_ROUND = late(
    rf"(?<![\w.,/$£€])(?P<n>{_LENGTH}){_GAP}(?P<u>{_UNIT}){_GAP}"
    r"(?:in )?(?:diameter|diam|dia|round|across)\b",
    re.IGNORECASE,
)
_SQUARE = late(
    rf"(?<![\w.,/$£€])(?P<n>{_LENGTH}){_GAP}(?P<u>{_UNIT})\.?{_GAP}(?:sq\b|squared?\b)",
    re.IGNORECASE,
)
_UNITS_OF = rf"{_GAP}(?:{_UNIT})(?![a-z])\.?"
_SIDES = late(  # '8 cm high and 7 cm wide', 'H 8 cm W 7 cm'
    rf"(?<![\w.,/$£€])(?:(?P<a>{_LENGTH})(?P<ua>{_UNITS_OF})?{_GAP}\(?{_SIDE}\b\)?{_THEN}"
    rf"(?P<b>{_LENGTH})(?P<ub>{_UNITS_OF})?{_GAP}\(?{_SIDE}\b\)?"
    rf"|(?:{_NAME})[.:]?{_GAP}(?P<c>{_LENGTH})(?P<uc>{_UNITS_OF})?{_THEN}"
    rf"(?:{_NAME})[.:]?{_GAP}(?P<d>{_LENGTH})(?P<ud>{_GAP}(?:{_UNIT})(?![a-z])))",
    re.IGNORECASE,
)
_OF_ONE_LENGTH = (
    (("dia", "round", "across"), _ROUND, "{0} dia"),
    (("sq",), _SQUARE, "{0} x {0}"),
)
# What stands in every size of two lengths, looked for first in the text in lower case.
_HAS_TIMES = re.compile(rf"[x×✕✖*y][ \u00a0\n]{{0,12}}(?:[¼-¾⅐-⅞]|{_COUNT})")
_HAS_SIDE = re.compile(
    r"(?:(?<![a-z])|(?<=half)|(?<=quarter)|(?<=eighth)|(?<=quarters)|(?<=eighths))"
    r"(?:wide|high|tall|deep|thick|in (?:height|width)|height|width|ht|wd|[whdl])"
    rf"(?:(?![a-z])|(?={_COUNT}))"
)
_FRACTION_OF = late(r"(?<=\d) (?:and(?: an?)?|&) (?=\d)", re.IGNORECASE)
_FIGURES = {word: str(value) for value, word in enumerate(UNITS[:12], 1)} | {
    f"{article}{gap}{part}{plural}": f"{count}/{of}"
    for article, count in (("a", 1), ("an", 1), ("one", 1), ("three", 3))
    for part, of in (("half", 2), ("quarter", 4), ("eighth", 8))
    for plural in ("", "s")
    for gap in " -"
}
_WORDS = late(rf"\b(?:{'|'.join(sorted(_FIGURES, key=len, reverse=True))})\b", re.IGNORECASE)
_ASIDES = late(rf"\(?\b{_SIDE}\b\)?", re.IGNORECASE)
_HAS_UNIT = late(rf"[\d¼-¾⅐-⅞]{_GAP}{_UNIT}", re.IGNORECASE)
LARGEST_BARE_INCH = 24.0  # without a unit, larger numbers are millimetres
USUAL_SIDE = 82.6  # mm, the longer side of a sixth plate, 3 1/4 in
FARTHEST = 4.5  # standard deviations beyond which a measure does not fit a format
LEAST = 1e-6  # density per mm^2 under which a reading does not fit at all


@dataclass(frozen=True, slots=True)
class SizeSaid:
    """A size as it stands in a text.

    Attributes:
        measure: What it says.
        start: Where it starts in the text.
        end: Where it ends, not included.
        assumed: The unit that was assumed, or an empty string.
    """

    measure: Measure
    start: int
    end: int
    assumed: str = ""


def sizes(text: str) -> Iterator[SizeSaid]:
    """Sizes of two or three lengths, and round or square ones, from the left."""
    plain = lowered(text)
    found = []
    if _HAS_TIMES.search(plain):
        found = [made for match in _SIZE.finditer(text) if (made := _read(match))]
    if _HAS_SIDE.search(plain):
        found += [
            made
            for match in _SIDES.finditer(text)
            if (made := _read_sides(match)) and not _overlaps(made, found)
        ]
    whole = sorted(found, key=lambda size: size.start)
    for cues, pattern, form in _OF_ONE_LENGTH:
        for match in pattern.finditer(text) if any(cue in plain for cue in cues) else ():
            across = _measured(form.format(f"{_plain(match['n'])} {match['u']}"))
            at = bisect_right(whole, match.start(), key=lambda one: one.start) - 1
            if across and not (at >= 0 and match.start() < whole[at].end):
                found.append(SizeSaid(across, match.start(), match.end()))
    yield from sorted(found, key=lambda size: size.start)


def _overlaps(size: SizeSaid, others: list[SizeSaid]) -> bool:
    """Whether a size shares a character with others, which are in the order of the text."""
    at = bisect_right(others, size.start, key=lambda one: one.start) - 1
    after = others[at + 1 : at + 2]
    return (at >= 0 and size.start < others[at].end) or any(o.start < size.end for o in after)


def _read_sides(match: re.Match[str]) -> SizeSaid | None:
    """Height and width, each by its name; one unit does for both."""
    names = ("a", "b", "ua", "ub") if match["a"] else ("c", "d", "uc", "ud")
    one, two, unit, other = (match[name] for name in names)
    if not (unit or other):
        return None
    units = [(each or unit or other).strip(" .\u00a0") for each in (unit, other)]
    made = _measured(f"{_plain(one)} {units[0]} x {_plain(two)} {units[1]}")
    return SizeSaid(made, match.start(), match.end()) if made else None


def _read(match: re.Match[str]) -> SizeSaid | None:
    written = " ".join(_ASIDES.sub(" ", _plain(match["size"])).split())
    if match["third"]:
        written = f"{written} x {_plain(match['third'])}"
    if match["unit"] and not _HAS_UNIT.search(written):
        written = f"{written} {match['unit']}"
    if _HAS_UNIT.search(written):
        made, assumed = _measured(written), ""
    elif _WORDS.search(match["size"]):
        return None
    else:
        lengths = [float(one.replace(",", ".")) for one in re.findall(r"\d+(?:[.,]\d+)?", written)]
        assumed = "mm" if max(lengths, default=0) > LARGEST_BARE_INCH else "in"
        made = _measured(f"{written} {assumed}")
    return SizeSaid(made, match.start(), match.end(), assumed) if made else None


def _plain(written: str) -> str:
    """'3 and a 1/4' and 'three and a quarter' as '3 1/4', and a line break as a blank."""
    counted = _WORDS.sub(lambda one: _FIGURES[one.group().lower()], written.replace("\n", " "))
    return _FRACTION_OF.sub(" ", re.sub(r"(?<=\d) and an? (?=\d/)", " ", counted))


@lru_cache(maxsize=4_096)
def _measured(written: str) -> Measure | None:
    try:
        return Measure.parse(written.replace("\u00a0", " "))
    except InputError:
        return None


@lru_cache(maxsize=1_024)
def measure_of(written: str) -> Measure:
    """A measure as a claim tells it; errors as in `Measure.parse`."""
    return Measure.parse(written)


def measured_as(
    measure: Measure, kind: str, named: str, material: str, knowledge: Knowledge
) -> str:
    """What a size is of, going by what fits: 'plate', 'case', 'opening', 'mount'.

    Three lengths are of a case, round things are plates, a frame fits anything. A named format
    decides between the others; else the reading of which some format explains the size best.
    """
    if kind in ("card", "print", "postcard"):
        return "mount"
    if kind != "cased":
        return "plate"
    if measure.round:
        return "plate"
    if measure.depth is not None or material == "locket":
        return "case"
    forms = [f for f in knowledge.formats.values() if kind in f.kinds and f.share > 0]
    wanted = [f for f in forms if f.id == named] or forms
    fits: dict[str, float] = {}
    for what in ("plate", "opening") if material == "frame" else ("plate", "case", "opening"):
        offset = offset_of(knowledge, what, material)
        fits[what] = max(f.share * density(f, measure, offset) for f in wanted)
    fits["plate"] *= 4  # what is usually meant
    best = max(fits, key=lambda what: fits[what])
    return best if fits[best] > LEAST else "plate"


def nearer(measure: Measure, named: str, knowledge: Knowledge) -> str:
    """Whether a size is nearer to the plate of a named format or to its opening."""
    form = knowledge.formats.get(named)
    whats = ("opening", "plate")
    if form is None or len(measure.sides) < 2:
        return whats[0]
    return min(whats, key=lambda what: strays(form, measure, offset_of(knowledge, what, "")))


@lru_cache(maxsize=256)
def offset_of(knowledge: Knowledge, what: str, material: str) -> Offset | None:
    """What measuring the plate, case or opening adds, in the material where that is known."""
    rows = [one for one in knowledge.offsets.values() if one.what == what]
    exact = [one for one in rows if one.material == material]
    return next((one for one in (*exact, *rows) if one.material in ("", material)), None)


def strays(form: Format, measure: Measure, offset: Offset | None) -> float:
    """How far a measured face lies from the nearest of a format's sizes, in standard deviations.

    The spreads are those of a sixth plate; they grow with the longer side of larger ones.
    """
    add, spread = (offset.add, offset.spread) if offset else ((0.0, 0.0), 2.0)
    short, long = (float(side) for side in measure.sides)
    return min(
        hypot(short - low - add[0], long - high - add[1])
        / hypot(form.tolerance, spread * max(1.0, high / USUAL_SIDE))
        for low, high in form.sizes
    )
