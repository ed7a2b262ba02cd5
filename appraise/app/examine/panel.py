"""The verdict panel: a fixed geometry in which numbers change in place."""

from __future__ import annotations

from collections.abc import Sequence

from appraise.app.examine.purse import money_lines
from appraise.app.examine.shown import Shown
from appraise.app.examine.timeline import LABEL, between, timeline
from appraise.app.examine.top import top_lines
from appraise.app.lines import EMPTY, Line, clip, length, line
from appraise.app.marks import Marks
from appraise.knowledge.records import UNJUDGED
from appraise.reading.formats import FormatReading
from appraise.reading.reading import Reading
from appraise.reading.spans import Span
from appraise.verdict import Verdict

TALL = 30  # lines from which the panel says more
EMPTY_CASE = "empty-case"
CASED = 3  # states of a cased piece, and so the lines kept for them
SIDES = {
    "cased": ("image", "case"),
    "loose-plate": ("plate", ""),
    "card": ("print", "mount"),
    "lantern-slide": ("image", "mount"),
    "cyanotype": ("print", "mount"),
    "print": ("print", ""),
    "postcard": ("print", ""),
    "empty-case": ("", "case"),
    "part": ("part", ""),
    "album": ("album", ""),
    "lot": ("lot", ""),
    "other": ("piece", ""),
}
"""What picture and housing are called, by kind."""

AXIS = 2  # lines of the timeline that are no parts
BLOCKS = ("about", "dates", "belongs", "state", "money")
WISHES = ("", "", "", "", "state", "", "belongs", "money", "dates", "", "", "", "", "")
"""What each further line of room is for: a timeline row, or a blank line before a block."""


def panel(verdict: Verdict | None, shown: Shown, width: int, height: int) -> list[Line]:
    """The panel in `height` lines of `width` cells; its lines stay where they are.

    Where a low panel is short of lines the process goes first, then the timeline, then the
    condition: the money always stands whole.
    """
    if verdict is None:
        return [line(("reading ...", "quiet"))]
    reading = verdict.reading
    tall = height >= TALL
    top = top_lines(verdict, shown, width, height, tall)
    if reading.piece.kind in UNJUDGED:
        return [*top, *[EMPTY] * max(0, height - len(top))][:height]
    name, years = _identity(reading, width, tall), _years(reading, width, tall)
    belongs = [*_belonging(reading, shown.marks, width), *(_before(reading, width) if tall else ())]
    state = _condition(reading, shown.marks, width, tall)
    money = money_lines(verdict, shown, width, tall)
    spare = height - sum(map(len, (top, name, years, belongs, state, money))) - AXIS
    if not tall and spare < 0:  # the headline names the process and the combined date
        name, spare = [], spare + len(name)
    rows, gaps = spent(spare)
    drawn = timeline(reading, shown.parts, width, rows)
    if not tall and spare < 0:
        drawn, spare = [], spare + AXIS
    if not tall and spare < 0:
        state = []
    blocks = ([*top, *name, *years], drawn, belongs, state, money)
    out: list[Line] = []
    for word, block in zip(BLOCKS, blocks, strict=True):
        out += [EMPTY, *block] if word in gaps else block
    return [*out, *[EMPTY] * (height - len(out))][:height]


def spent(spare: int) -> tuple[int, set[str]]:
    """What spare lines are spent on: rows of the timeline, and blank lines before which blocks."""
    rows, gaps = 0, set[str]()
    for wish in WISHES[: max(0, spare)]:
        if wish:
            gaps.add(wish)
        else:
            rows += 1
    return rows, gaps


def states_of(reading: Reading) -> dict[str, float]:
    """How the piece came together, in the words of the panel: together, married and modern.

    A piece of one part, such as a card or an empty case, is of its period or modern.
    """
    if reading.piece.kind == EMPTY_CASE:
        return {"period": 1 - reading.modern, "modern": reading.modern}
    first, chance = next(iter(reading.belonging.items()))
    told = {first: chance, "married": reading.married, "modern": reading.modern}
    return told if reading.joint.frame.cased else {first: chance, "modern": reading.modern}


def best_of(reading: Reading) -> dict[str, float]:
    """The likeliest process with its chance; of an empty case the likeliest material."""
    if reading.piece.kind == EMPTY_CASE:
        return {reading.material: reading.housings[reading.material]}
    return {reading.family: reading.families[reading.family]}


def hundred(chance: float) -> int:
    """A chance in whole parts of a hundred, never 0 or 100 for what is not certain."""
    return min(99, max(1, round(100 * chance)))


def _identity(reading: Reading, width: int, tall: bool) -> list[Line]:
    """The likeliest processes, or materials of an empty case, and the format where measured."""
    named = reading.housings if reading.piece.kind == EMPTY_CASE else reading.families
    ordered = sorted(named.items(), key=lambda item: -item[1])
    out = [_choices(ordered[: 3 if tall else 2], width)]
    if tall:
        out.append(_format(reading.formats, width))
    return out


def _format(formats: FormatReading, width: int) -> Line:
    """The likeliest formats; that the measures fit none, and which is the nearest."""
    if formats.nearest:
        return line((f"fits no size, nearest: {formats.nearest}"[:width], ""))
    if not formats.measured:
        return line(("format: not measured", "quiet"))
    best = sorted(formats.probabilities.items(), key=lambda item: -item[1])
    called = f"called {formats.called}" if formats.called not in ("", formats.best) else ""
    told = [(f"{word} format", chance) for word, chance in best[: 1 if called else 2]]
    out = _choices(told, width)
    return out if not called else line(*out, (f"  {called}", "quiet"))


def _choices(chances: Sequence[tuple[str, float]], width: int) -> Line:
    parts: list[str | tuple[str, str]] = []
    room = width
    for place, (word, chance) in enumerate(chances):
        told = f"{word} {hundred(chance)}"
        gap = "  " if place else ""
        if place and (chance < 0.015 or len(gap) + len(told) > room):
            break
        parts += [gap, (told, "" if place else "strong")]
        room -= len(gap) + len(told)
    return line(*parts)


def _years(reading: Reading, width: int, tall: bool) -> list[Line]:
    """The years of picture and housing alone; of the package too where there is room."""
    image, holder = SIDES[reading.piece.kind]
    first: list[str | tuple[str, str]] = [*_span(image, reading.image)] if image else []
    if holder:
        first += [*(["  "] if first else []), *_span(holder, reading.housing)]
    if not tall:
        rows = [line(*first)]
        return rows if length(rows[0]) <= width else [_short_years(reading)]
    package = _span("package", reading.package) if reading.piece.kind == "cased" else ()
    last = line((f"{'combined':<{LABEL}}", "quiet"), (reading.together.edtf, "strong"))
    return [line(*first), line(*package), last]


def _short_years(reading: Reading) -> Line:
    """The years of image and housing where their names leave no room."""
    image, holder = (f"{name[:4]}." for name in SIDES[reading.piece.kind])
    return line(*_span(image, reading.image), "  ", *_span(holder, reading.housing))


def _span(name: str, span: Span | None) -> tuple[tuple[str, str], str]:
    return ((f"{name} ", "quiet"), between(span) if span else "not seen")


def _belonging(reading: Reading, marks: Marks, width: int) -> list[Line]:
    """A bar for each state, in whole per cents that add to a hundred."""
    chances = states_of(reading)
    shares = whole_hundreds(list(chances.values()))
    room = width - 13
    out = []
    for name, share in zip(chances, shares, strict=True):
        doubt = name != next(iter(chances)) and share >= 50
        drawn = bar(share / 100, room, marks)
        out.append(
            line(f"{name:<9}", (f"{share:>3} ", "strong"), (drawn, "warn" if doubt else "bar"))
        )
    return [*out, *[EMPTY] * (CASED - len(out))]


def whole_hundreds(chances: Sequence[float]) -> list[int]:
    """Whole parts of a hundred that add to it, none below 1; the largest takes the rest."""
    whole = sum(chances) or 1.0
    shares = [hundred(chance / whole) for chance in chances]
    shares[shares.index(max(shares))] += 100 - sum(shares)
    return shares


def bar(share: float, room: int, marks: Marks) -> str:
    """A bar of a share of the room, to half a cell where a half can be drawn."""
    halves = round(2 * share * max(0, room))
    if not marks.half:
        return marks.bar * ((halves + 1) // 2)
    return marks.bar * (halves // 2) + marks.half * (halves % 2)


def _before(reading: Reading, width: int) -> list[Line]:
    if reading.piece.kind != "cased":
        return [EMPTY]
    low, high = (round(100 * end) for end in reading.before)
    whole = f"married piece: {low} to {high}% before looking"
    told = whole if len(whole) <= width else f"before looking: {low} to {high}%"
    return [line((told, "quiet"))]


def _condition(reading: Reading, marks: Marks, width: int, tall: bool) -> list[Line]:
    """A line each for image, package and housing; never one for all."""
    out = []
    for name, side in reading.condition.sides.items():
        if not side.of:
            continue
        grave = side.grade in ("Poor", "Unacceptable")
        says = side.says if side.done else "damage not looked for"
        if tall and side.worst is not None:
            says = f"{says} ({side.done}/{side.of})"
        out.append(
            line((f"{name:<8} ", "quiet"), (clip(says, width - 9, marks), "warn" if grave else ""))
        )
    return [*out, *[EMPTY] * (len(reading.condition.sides) - len(out))]
