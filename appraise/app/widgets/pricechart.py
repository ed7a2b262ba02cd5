"""Prices over time as dots: years below, amounts at the side, the entry one is at marked."""

from __future__ import annotations

from collections.abc import Sequence
from math import floor, log, log10

from appraise.app.lines import EMPTY, Line, line
from appraise.app.marks import Marks
from appraise.base.dataclass import dataclass

SIDE = 9  # cells of an amount and the axis beside it
LEAST = 3  # prices that make a picture


@dataclass(frozen=True, slots=True)
class Dot:
    """A price in time: a year with its part, the amount, and whether one is at it."""

    year: float
    amount: float
    here: bool = False


def price_chart(dots: Sequence[Dot], width: int, height: int, marks: Marks) -> list[Line]:
    """The picture in so many cells and lines; nothing where there is no room or too little.

    Amounts stand on a scale of ratios: from 20 to 40 is as far as from 200 to 400.
    """
    across, rows = width - SIDE, height - 2
    known = [one for one in dots if one.amount > 0]
    if len(known) < LEAST or across < 12 or rows < 3:
        return []
    first, last = min(one.year for one in known), max(one.year for one in known)
    low, high = min(one.amount for one in known), max(one.amount for one in known)
    wide, tall = max(last - first, 1.0), max(log(high / low), log(2))
    cells: dict[tuple[int, int], list[Dot]] = {}
    for one in known:
        x = min(across - 1, int((one.year - first) / wide * across))
        cells.setdefault((_line_of(one.amount, high, tall, rows), x), []).append(one)
    ticks = {_line_of(tick, high, tall, rows): tick for tick in _round(low, high)}
    out = [_row(y, ticks.get(y), across, cells, marks) for y in range(rows)]
    return [*out, _axis(across, marks), _years(first, wide, across)]


def _line_of(amount: float, high: float, tall: float, rows: int) -> int:
    """The line on which an amount stands, the highest on top."""
    return max(0, min(rows - 1, round(log(high / amount) / tall * (rows - 1))))


def _round(low: float, high: float) -> list[float]:
    """Round amounts within a range: 1, 2 and 5 times the powers of ten."""
    powers = range(floor(log10(low)), floor(log10(high)) + 1)
    every = [step * 10.0**power for power in powers for step in (1, 2, 5)]
    return [one for one in every if low <= one <= high]


def _row(
    y: int,
    tick: float | None,
    across: int,
    cells: dict[tuple[int, int], list[Dot]],
    marks: Marks,
) -> Line:
    """One line of the picture, with its amount where a round one falls into it."""
    says = "" if tick is None else f"{tick:,.0f}" if tick >= 1 else f"{tick:g}"
    says = says if len(says) <= SIDE - 2 else ""
    bits: list[tuple[str, str]] = [(f"{says:>{SIDE - 2}} {marks.wall}", "quiet")]
    for x in range(across):
        found = cells.get((y, x), [])
        here = any(one.here for one in found)
        sign = marks.dots if here or len(found) > 1 else marks.dot if found else " "
        bits.append((sign, "key" if here else "good" if found else ""))
    return tuple(bits)


def _axis(across: int, marks: Marks) -> Line:
    return line((" " * (SIDE - 1) + marks.corner + marks.rule * across, "quiet"))


def _years(first: float, wide: float, across: int) -> Line:
    """The years below, as many as have room."""
    years = range(int(first), int(first + wide) + 1)
    each = max(1, -(-len(years) * 6 // across))
    text = [" "] * (SIDE + across + 4)
    for year in years[::each]:
        x = SIDE + max(0, int((year - first) / wide * across))
        text[x : x + 4] = str(year)
    return line(("".join(text)[: SIDE + across], "quiet")) if years else EMPTY
