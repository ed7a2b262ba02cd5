"""Prices over time as dots: years below, amounts at the side, the entry one is at marked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from appraise.app.lines import EMPTY, Line, line
from appraise.app.marks import Marks
from appraise.app.widgets.moneyaxis import step_of

SIDE = 9  # cells of an amount and the axis beside it
LEAST = 3  # prices that make a picture
LINES = 4  # amounts at the side at least


@dataclass(frozen=True, slots=True)
class Dot:
    """A price in time: a year with its part, the amount, and whether one is at it."""

    year: float
    amount: float
    here: bool = False


def price_chart(dots: Sequence[Dot], width: int, height: int, marks: Marks) -> list[Line]:
    """The picture in so many cells and lines; nothing where there is no room or too little."""
    across, rows = width - SIDE, height - 2
    if len(dots) < LEAST or across < 12 or rows < 3:
        return []
    step = step_of(max(one.amount for one in dots) / LINES)
    top = step * max(1, -int(-max(one.amount for one in dots) // step))
    first, last = min(one.year for one in dots), max(one.year for one in dots)
    wide = max(last - first, 1.0)
    cells: dict[tuple[int, int], list[Dot]] = {}
    for one in dots:
        x = min(across - 1, int((one.year - first) / wide * across))
        y = min(rows - 1, int((1 - one.amount / top) * rows))
        cells.setdefault((y, x), []).append(one)
    out = [_row(y, rows, top, step, across, cells, marks) for y in range(rows)]
    return [*out, _axis(across, marks), _years(first, wide, across)]


def _row(
    y: int,
    rows: int,
    top: float,
    step: float,
    across: int,
    cells: dict[tuple[int, int], list[Dot]],
    marks: Marks,
) -> Line:
    """One line of the picture, with its amount where a step falls into it."""
    high, low = top * (1 - y / rows), top * (1 - (y + 1) / rows)
    tick = next((n * step for n in range(int(top / step) + 1) if low < n * step <= high), None)
    says = f"{tick:,.0f}" if tick else ""
    bits: list[tuple[str, str]] = [(f"{says:>{SIDE - 2}} {marks.wall}", "quiet")]
    for x in range(across):
        found = cells.get((y, x), [])
        here = any(one.here for one in found)
        sign = marks.dots if here or len(found) > 1 else marks.dot if found else " "
        bits.append((sign, "key" if here else "good" if found else ""))
    return tuple(bits)


def _axis(across: int, marks: Marks) -> Line:
    return line((" " * (SIDE - 1) + marks.corners[2] + marks.rule * across, "quiet"))


def _years(first: float, wide: float, across: int) -> Line:
    """The years below, as many as have room."""
    years = range(int(first), int(first + wide) + 1)
    each = max(1, -(-len(years) * 6 // across))
    text = [" "] * (SIDE + across + 4)
    for year in years[::each]:
        x = SIDE + max(0, int((year - first) / wide * across))
        text[x : x + 4] = str(year)
    return line(("".join(text)[: SIDE + across], "quiet")) if years else EMPTY
