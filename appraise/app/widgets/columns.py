"""The columns of a table: which of them fit, where each stands, and a row of cells as one text."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from rich.cells import cell_len, set_cell_size

from appraise.app.lines import clip
from appraise.app.marks import PLAIN, Marks
from appraise.base.dataclass import dataclass

SIGN = 3  # cells before the first column: where one is, a mark, and a blank
ARROWS, PLAIN_ARROWS = "▴▾", "^v"
NARROWEST = 4  # cells of a column that takes what is left


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table.

    Attributes:
        name: What it shows, and what it is sorted by.
        head: What stands above it.
        cells: Its width, or less where no text takes as much; 0: what the others leave.
        since: The cells across from which it is shown.
        right: Whether its texts stand at its right end.
        whole: Whether nothing in it is ever cut, as in amounts and dates: it is as wide as the
            widest text on the screen.
        sorts: Whether the table can be sorted by it.
    """

    name: str
    head: str
    cells: int = 0
    since: int = 0
    right: bool = False
    whole: bool = False
    sorts: bool = True


@dataclass(frozen=True, slots=True)
class ColumnPlace:
    """A column where it stands: its first cell and its width."""

    column: Column
    start: int
    width: int


def laid_out(
    columns: Sequence[Column], width: int, widest: Mapping[str, int] | None = None
) -> tuple[ColumnPlace, ...]:
    """The columns that fit in so many cells, side by side, none wider than its texts.

    What is left over makes columns whole that would be cut, then the gaps between them wider.

    Args:
        columns: All of them; one takes what the others leave.
        width: Cells of the whole row.
        widest: The widest text of each column, by name; none: they are as wide as they may be.
    """
    told = widest or {}
    shown = [one for one in columns if width >= one.since]
    needs = {one.name: max(told.get(one.name, one.cells), cell_len(one.head) + 1) for one in shown}
    sizes = {
        one.name: needs[one.name] if one.whole else min(one.cells, needs[one.name]) for one in shown
    }
    bare = [one for one in shown if one.cells]
    left = width - SIGN - sum(sizes.values()) - len(bare)
    if len(bare) < len(shown) and left < NARROWEST:
        shown = bare
    for one in sorted(shown, key=lambda one: one.cells):
        wanted = needs[one.name] - sizes[one.name] if one.name in told else left
        if one.name in told or not one.cells:
            more = max(0, min(left, wanted))
            sizes[one.name], left = sizes[one.name] + more, left - more
    gap = 2 if left >= GAPS * len(shown) else 1
    found, start = [], SIGN
    for one in shown:
        found.append(ColumnPlace(one, start, sizes[one.name]))
        start += sizes[one.name] + gap
    return tuple(found)


GAPS = 2  # cells to spare for each column from which two stand between them


def row_text(texts: Sequence[str], places: Sequence[ColumnPlace], width: int, marks: Marks) -> str:
    """The cells of a row as one text of exactly so many cells, the signs before them left blank."""
    out = ""
    for text, place in zip(texts, places, strict=True):
        words = clip(text, place.width, marks)
        blank = " " * (place.width - cell_len(words))
        told = blank + words if place.column.right else words + blank
        out += " " * (place.start - cell_len(out)) + told
    return set_cell_size(out, width)


def arrow(down: bool, marks: Marks) -> str:
    """What stands beside the heading by which a table is sorted."""
    return (PLAIN_ARROWS if marks == PLAIN else ARROWS)[down]
