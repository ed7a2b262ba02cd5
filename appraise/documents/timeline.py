"""A timeline drawn in cells: an axis of years, and a row of signs for each dated part."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from appraise.base.dataclass import dataclass
from appraise.knowledge.records import Years

if TYPE_CHECKING:
    from appraise.reading.reading import Reading

USUAL = (1840, 1880)
DECADE = 10


@dataclass(frozen=True, slots=True)
class Axis:
    """Years on a line of cells: `step` years in each, from `first` on."""

    first: int
    step: int
    cells: int

    def years(self, cell: int) -> range:
        """The years in a cell."""
        start = self.first + cell * self.step
        return range(start, start + self.step)

    def cell(self, year: int) -> int:
        """The cell of a year, kept on the line."""
        return max(0, min(self.cells - 1, (year - self.first) // self.step))


def axis_for(years: Iterable[int], cells: int) -> Axis:
    """An axis that holds the usual years and these, at the finest step that fits."""
    found = list(years)
    low = min([USUAL[0], *found]) // DECADE * DECADE
    high = -(-max([USUAL[1], *found]) // DECADE) * DECADE
    step = max(1, -(-(high - low) // max(1, cells)))
    return Axis(low, step, cells)


def weight_of(parts: Sequence[Years], year: int) -> float:
    """How far the findings of one part agree on a year, 0 to 1."""
    return min(one.weight(year) for one in parts)


def row_of(parts: Sequence[Years], axis: Axis) -> str:
    """The drawn years of one part: `|` common, `:` and `.` on the flanks."""
    drawn = [max(weight_of(parts, year) for year in axis.years(c)) for c in range(axis.cells)]
    if not any(drawn):
        # The findings of this part contradict each other: all their years, faintly.
        drawn = [
            0.4 * max(one.weight(y) > 0 for one in parts for y in axis.years(c))
            for c in range(axis.cells)
        ]
    return "".join(_sign(weight) for weight in drawn)


def _sign(weight: float) -> str:
    if weight <= 0:
        return " "
    if weight < 0.5:
        return "."
    return ":" if weight < 1 else "|"


def labels(axis: Axis) -> str:
    """The decades, as many as stand apart from one another."""
    every = DECADE
    while every / axis.step < 5:
        every += DECADE
    out = [" "] * axis.cells
    last = axis.first + axis.step * axis.cells
    for year in range(-(-axis.first // DECADE) * DECADE, last, every):
        cell = axis.cell(year)
        if cell + 4 <= axis.cells:
            out[cell : cell + 4] = str(year)
    return "".join(out)


def dated_parts(reading: Reading) -> dict[str, list[Years]]:
    """The years of each dated part, by part."""
    found: dict[str, list[Years]] = {}
    for one in reading.timeline:
        found.setdefault(one.part, []).append(Years(*one.years, confidence="low"))
    return found


def between(first: int, last: int) -> str:
    """A span of years as short as it can be read: 1856-62, 1898-1903."""
    return f"{first}-{f'{last % 100:02}' if first // 100 == last // 100 else last}"
