"""Years as shaded bars on one axis, a row for each, its ends written beside it."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from appraise.app.lines import EMPTY, Line, clip, line
from appraise.app.marks import DOUBT, Marks
from appraise.base.dataclass import dataclass

NAME, LEAST = 9, 8  # cells of a row's name, and that the axis keeps
GAP, APART = 1, 5  # cells before the ends, and from one decade written to the next
ODD = 2  # cells of the mark behind the ends
USUAL, DECADE = (1840, 1880), 10
FAINT = 0.04  # a share below which nothing is drawn

Shade = Callable[[int], float]
"""How far a year is borne out, 0 to 1."""


@dataclass(frozen=True, slots=True)
class YearRow:
    """A row of the chart.

    Attributes:
        name: What is dated.
        shade: How far each year is borne out.
        first, last: The ends that are written.
        told: The ends as they are written.
        odd: Whether it stands against the others.
        sums: Whether it is the row that sums up all others.
    """

    name: str
    shade: Shade
    first: int
    last: int
    told: str
    odd: bool = False
    sums: bool = False


@dataclass(frozen=True, slots=True)
class YearScale:
    """Years from one to before another on a line of cells."""

    first: int
    after: int
    cells: int

    def cell(self, year: int) -> int:
        """The cell of a year, kept on the line."""
        place = (year - self.first) * self.cells // (self.after - self.first)
        return max(0, min(self.cells - 1, place))

    def years(self, cell: int) -> range:
        """The years of a cell, one at least."""
        many = self.after - self.first
        start, after = (self.first + -(-place * many // self.cells) for place in (cell, cell + 1))
        within = self.first + cell * many // self.cells
        return range(start, after) if after > start else range(within, within + 1)


def scale_for(years: Sequence[int], cells: int) -> YearScale:
    """Whole decades that hold the usual years and these."""
    low = min([USUAL[0], *years]) // DECADE * DECADE
    high = -(-max([USUAL[1], *(year + 1 for year in years)]) // DECADE) * DECADE
    return YearScale(low, high, cells)


def year_lines(rows: Sequence[YearRow], width: int, marks: Marks, keep: int = 0) -> list[Line]:
    """The axis, then a line for each row; blank lines make up for rows fewer than `keep`.

    Args:
        rows: The row that sums up stands last.
        width: Cells in all.
        marks: The signs to draw with.
        keep: Rows for which room is kept, so that what stands below stays where it is.
    """
    told = max((len(row.told) + ODD * row.odd for row in rows), default=0)
    room = max(LEAST, width - NAME - told - 2 * GAP)
    axis = scale_for([year for row in rows for year in (row.first, row.last)], room)
    above = [row for row in rows if not row.sums]
    drawn = [_drawn(row, axis, marks) for row in above]
    below = [_drawn(row, axis, marks) for row in rows if row.sums]
    blank = [EMPTY] * (keep - len(drawn) - len(below))
    return [line((" " * NAME + _decades(axis), "quiet")), *drawn, *below, *blank]


def _decades(axis: YearScale) -> str:
    """The decades over their cells, as many as stand apart from one another."""
    every = DECADE
    while axis.cell(axis.first + every) < APART:
        every += DECADE
    out = " " * axis.cells
    for year in range(-(-axis.first // every) * every, axis.after, every):
        start = axis.cell(year)
        if start + APART <= axis.cells + 1:
            out = f"{out[:start]}{year}{out[start + APART - 1 :]}"
    return out


def _drawn(row: YearRow, axis: YearScale, marks: Marks) -> Line:
    name = f"{clip(row.name, NAME - 1, marks):<{NAME}}"
    if row.sums:
        start, end = axis.cell(row.first), axis.cell(row.last)
        bar = f"{'':<{start}}{marks.bar * (end - start + 1)}"
        return line((name, "strong"), (f"{bar:<{axis.cells + GAP}}", "head"), (row.told, "strong"))
    bar = bars([max(map(row.shade, axis.years(n))) for n in range(axis.cells)], marks)
    mark = (f" {DOUBT}", "doubt") if row.odd else ""
    return line((name, "quiet"), (f"{bar:<{axis.cells + GAP}}", "bar"), row.told, mark)


def bars(shares: Sequence[float], marks: Marks) -> str:
    """A bar for each share of 0 to 1; what is more than nothing is never drawn as nothing."""
    top = len(marks.levels) - 1
    return "".join(
        marks.levels[max(1, min(top, round(share * top)))] if share > FAINT else marks.levels[0]
        for share in shares
    )
