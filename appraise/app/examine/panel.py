"""The verdict panel: a fixed geometry in which numbers change in place."""

from __future__ import annotations

from collections.abc import Sequence

from appraise.app.examine.purse import money_lines
from appraise.app.examine.shown import Shown
from appraise.app.examine.timeline import between, timeline
from appraise.app.examine.warned import warning_lines
from appraise.app.lines import EMPTY, Line, clip, length, line
from appraise.app.marks import Marks
from appraise.base.percents import percent
from appraise.documents import words
from appraise.knowledge.statewords import STATES
from appraise.reading.formats import FormatReading
from appraise.reading.matter import judged
from appraise.reading.reading import Reading
from appraise.reading.spans import Span
from appraise.verdict import Verdict
from appraise.verdict.naming import LIKELY

TALL = 30  # lines from which the panel says more
EMPTY_CASE = "empty-case"
STATE, CHANCE, SIDE = 14, 8, 9  # cells of a state, of its chance, of a side's name
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
"""What image and case are called, by kind."""

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
    top = warning_lines(verdict, shown.marks, width, height, tall)
    if not judged(reading.piece):
        return [*top, *[EMPTY] * max(0, height - len(top))][:height]
    name, years = _identity(reading, shown, width, tall), _years(reading, width, tall)
    belongs = [*_belonging(reading, shown.marks, width), *(_before(reading) if tall else ())]
    state = _condition(reading, shown.marks, width)
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
    """How the piece came together: together, a married piece, or a part of it modern.

    A piece of one part, such as a card or an empty case, is of its time or modern.
    """
    if reading.piece.kind == EMPTY_CASE or not reading.joint.frame.cased:
        return {STATES["period"]: 1 - reading.modern, STATES["modern"]: reading.modern}
    return {
        STATES["together"]: reading.states[0],
        STATES["married"]: reading.married,
        STATES["modern"]: reading.modern,
    }


def _identity(reading: Reading, shown: Shown, width: int, tall: bool) -> list[Line]:
    """The likeliest processes, or materials of an empty case, and the format where measured."""
    named = reading.housings if reading.piece.kind == EMPTY_CASE else reading.families
    ordered = [
        (shown.names.get(word, word), chance)
        for word, chance in sorted(named.items(), key=lambda item: -item[1])
    ]
    out = [_choices(ordered[: 3 if tall else 2], width)]
    if tall:
        out.append(_format(reading.formats, shown, width))
    return out


def _format(formats: FormatReading, shown: Shown, width: int) -> Line:
    """The likeliest formats; that the measures fit none, and which is the nearest."""

    def name(word: str) -> str:
        return shown.names.get(word, word)

    if formats.nearest:
        return line(
            (clip(f"fits no size, nearest: {name(formats.nearest)}", width, shown.marks), "")
        )
    if not formats.measured:
        return line(("format: not measured", "quiet"))
    best = sorted(formats.probabilities.items(), key=lambda item: -item[1])
    called = f"called {name(formats.called)}" if formats.called not in ("", formats.best) else ""
    told = [(name(word), chance) for word, chance in best[: 1 if called else 2]]
    out = _choices(told, width)
    return out if not called else line(*out, (f"  {called}", "quiet"))


def _choices(chances: Sequence[tuple[str, float]], width: int) -> Line:
    parts: list[str | tuple[str, str]] = []
    room = width
    for place, (word, chance) in enumerate(chances):
        told = f"{word} {percent(chance)}"
        gap = "  " if place else ""
        if place and (chance < 0.015 or len(gap) + len(told) > room):
            break
        share = percent(chance)
        told = told if len(told) <= room else f"{clip(word, room - len(share) - 1)} {share}"
        parts += [gap, (told, "" if place else "strong")]
        room -= len(gap) + len(told)
    return line(*parts)


def _years(reading: Reading, width: int, tall: bool) -> list[Line]:
    """The years of image and case alone; of the package too where there is room."""
    image, holder = SIDES[reading.piece.kind]
    first: list[str | tuple[str, str]] = [*_span(image, reading.image)] if image else []
    if holder:
        first += [*(["  "] if first else []), *_span(holder, reading.housing)]
    row = line(*first)
    row = row if length(row) <= width else _short_years(reading)
    if not tall:
        return [row]
    package = _span("package", reading.package) if reading.piece.kind == "cased" else ()
    return [row, line(*package)]


def _short_years(reading: Reading) -> Line:
    """The years of image and case where their names leave no room."""
    image, holder = (f"{name[:4]}." for name in SIDES[reading.piece.kind])
    return line(*_span(image, reading.image), "  ", *_span(holder, reading.housing))


def _span(name: str, span: Span | None) -> tuple[tuple[str, str], str]:
    return ((f"{name} ", "quiet"), between(span) if span else "not dated")


def _belonging(reading: Reading, marks: Marks, width: int) -> list[Line]:
    """A bar for each state, its chance before it."""
    chances = states_of(reading)
    room = width - STATE - CHANCE - 1
    out = []
    for name, chance in chances.items():
        doubt = name != next(iter(chances)) and chance >= LIKELY
        drawn = bar(chance, room, marks)
        told = (f"{percent(chance):>{CHANCE}} ", "strong")
        out.append(line(f"{name:<{STATE}}", told, (drawn, "warn" if doubt else "bar")))
    return [*out, *[EMPTY] * (CASED - len(out))]


def bar(share: float, room: int, marks: Marks) -> str:
    """A bar of a share of the room, to half a cell where a half can be drawn."""
    halves = round(2 * share * max(0, room))
    if not marks.half:
        return marks.bar * ((halves + 1) // 2)
    return marks.bar * (halves // 2) + marks.half * (halves % 2)


def _before(reading: Reading) -> list[Line]:
    typical = words.typical(reading)
    return [line((f"typical: {typical} married" if typical else "", "quiet"))]


def _condition(reading: Reading, marks: Marks, width: int) -> list[Line]:
    """A line each for image, package and case; never one for all."""
    out = []
    for side, found in reading.condition.sides.items():
        if not found.of:
            continue
        grave = found.grade in ("Poor", "Unacceptable")
        done = f" ({found.done}/{found.of})" if found.done else ""
        room = width - SIDE - len(done)
        says = f"{clip(found.says, room, marks)}{done}"
        name = words.side_name(reading.piece.kind, side)
        out.append(line((f"{name:<{SIDE}}", "quiet"), (says, "warn" if grave else "")))
    return [*out, *[EMPTY] * (len(reading.condition.sides) - len(out))]
