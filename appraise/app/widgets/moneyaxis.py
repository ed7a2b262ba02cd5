"""Money on an axis: similar sales as dots, the range as a line, amounts to compare as marks."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from math import floor, log10

from appraise.app.lines import EMPTY, Line, line
from appraise.app.marks import Marks
from appraise.base.dataclass import dataclass

LEAST = 16  # cells from which an axis is drawn
BEYOND = 1.5  # times the greatest amount that matters: dots above it stand at the end
STEPS = (1, 2, 5, 10)
ROWS = 4

Place = tuple[int, int, str, str]
"""The cell where words begin, the one after them, the words, and their role."""


@dataclass(frozen=True, slots=True)
class Mark:
    """An amount marked on the axis, with its words, the amount alone, and a role."""

    told: str
    brief: str
    value: float
    role: str


@dataclass(frozen=True, slots=True)
class MoneyScale:
    """A line of cells from one amount to another."""

    low: float
    high: float
    cells: int

    def cell(self, value: float) -> int:
        """The cell of an amount, kept on the line."""
        share = (value - self.low) / (self.high - self.low)
        return max(0, min(self.cells - 1, round(share * (self.cells - 1))))


def money_axis(
    dots: Sequence[float],
    span: tuple[float, float, float],
    noted: Sequence[Mark],
    width: int,
    marks: Marks,
) -> list[Line]:
    """Amounts of the axis, dots, the range and the marks below it: always four lines or none.

    Args:
        dots: What similar things cost.
        span: The low end, the middle and the high end of the estimate.
        noted: Amounts to compare, such as a limit and what is asked.
        width: Cells in all.
        marks: The signs to draw with.
    """
    if width < LEAST:
        return []
    most = BEYOND * max([span[2], *(one.value for one in noted)])
    scale = scale_of([*(min(dot, most) for dot in dots), *span, *(m.value for m in noted)], width)
    return [
        line((_ticks(scale), "quiet")),
        line((_dots(dots, scale, marks), "bar")),
        _range(span, scale, marks),
        _noted(noted, scale, marks),
    ]


def scale_of(values: Sequence[float], cells: int) -> MoneyScale:
    """A scale from one round amount to another that holds all values."""
    low, high = min(values), max(values)
    step = step_of(max(high - low, high / 10, 1e-9) / 4)
    first = floor(low / step) * step
    last = -floor(-high / step) * step
    return MoneyScale(first, last if last > first else first + step, cells)


def step_of(least: float) -> float:
    """The smallest round step that is no smaller: 1, 2 or 5 times a power of ten."""
    power = 10.0 ** floor(log10(least))
    return next(one * power for one in STEPS if one * power >= least * (1 - 1e-9))


def _ticks(scale: MoneyScale) -> str:
    """Round amounts over their cells, as many as stand apart."""
    step = step_of((scale.high - scale.low) / 8)
    longest = len(f"{scale.high:,.0f}")
    while step * scale.cells / (scale.high - scale.low) < longest + 3:
        step = step_of(step * 1.5)
    out = " " * scale.cells
    value = -floor(-scale.low / step) * step
    while value <= scale.high:
        told = f"{value:,.0f}" if step >= 1 else f"{value:.2f}"
        start = max(0, min(scale.cells - len(told), scale.cell(value) - len(told) // 2))
        out = f"{out[:start]}{told}{out[start + len(told) :]}"
        value += step
    return out


def _dots(dots: Sequence[float], scale: MoneyScale, marks: Marks) -> str:
    out = [" "] * scale.cells
    for dot in dots:
        cell = scale.cell(dot)
        out[cell] = marks.dot if out[cell] == " " else marks.dots
        if dot > scale.high:
            out[cell] = ">"
    return "".join(out)


def _range(span: tuple[float, float, float], scale: MoneyScale, marks: Marks) -> Line:
    low, middle, high = map(scale.cell, span)
    left, body, centre, right = tuple(marks.span)
    before = f"{'':<{low}}{left}{body * (middle - low - 1)}" if middle > low else f"{'':<{low}}"
    after = f"{body * (high - middle - 1)}{right}" if high > middle else ""
    return line((before, "quiet"), (centre, "strong"), (after, "quiet"))


def _noted(noted: Sequence[Mark], scale: MoneyScale, marks: Marks) -> Line:
    """Each mark with its words, or its amount, on a side where there is room; else all on one side.

    They are left out where no room is for them: they stand elsewhere too.
    """
    ordered = sorted(noted, key=lambda one: one.value)
    if not ordered:
        return EMPTY
    cells = _cells(ordered, scale)
    for brief in (False, True):
        for sides in sorted(product("lr", repeat=len(ordered)), key=_unlike):
            told = [one.brief if brief else one.told for one in ordered]
            each = zip(ordered, told, cells, sides, strict=True)
            places = [_place(*one, marks) for one in each]
            if _apart(places, sides, scale.cells):
                return _set(places)
    return _set(_together(ordered, cells, scale, marks))


def _set(places: Sequence[Place]) -> Line:
    parts: list[tuple[str, str]] = []
    at = 0
    for start, end, told, role in places:
        parts += [(" " * (start - at), ""), (told, role)]
        at = end
    return line(*parts)


def _together(
    ordered: Sequence[Mark], cells: Sequence[int], scale: MoneyScale, marks: Marks
) -> list[Place]:
    """The bare marks, and all words after the last one or before the first, if they have room."""
    signs = [
        (cell, cell + 1, marks.pointer, one.role) for one, cell in zip(ordered, cells, strict=True)
    ]
    many = sum(len(one.told) + 1 for one in ordered)
    start = cells[-1] + 2 if cells[-1] + 1 + many <= scale.cells else cells[0] - many
    if start < 0:
        return signs
    words = []
    for one in ordered:
        words.append((start, start + len(one.told), one.told, one.role))
        start += len(one.told) + 1
    return sorted([*signs, *words])


def _cells(ordered: Sequence[Mark], scale: MoneyScale) -> list[int]:
    """A cell for each mark, no two in one."""
    out: list[int] = []
    for one in ordered:
        out.append(max(scale.cell(one.value), out[-1] + 1 if out else 0))
    over = max(0, out[-1] - scale.cells + 1)
    return [cell - over for cell in out]


def _unlike(sides: Sequence[str]) -> int:
    """How unlike some sides are to the best: the last words at the right, others at the left."""
    return sum(side != "l" for side in sides[:-1]) + (sides[-1] != "r")


def _place(one: Mark, words: str, cell: int, side: str, marks: Marks) -> Place:
    """Where a mark with its words on that side begins and ends, what it says, and its role."""
    told = f"{marks.pointer} {words}" if side == "r" else f"{words} {marks.pointer}"
    start = cell - len(told) + 1 if side == "l" else cell
    return start, start + len(told), told, one.role


def _apart(places: Sequence[Place], sides: Sequence[str], cells: int) -> bool:
    """Whether the marks have room beside one another, a blank between words and what is next."""
    end, before = 0, "l"
    for (start, after, _, _), side in zip(places, sides, strict=True):
        if start < end + (end > 0 and (before, side) != ("l", "r")):
            return False
        end, before = after, side
    return end <= cells and places[0][0] >= 0
