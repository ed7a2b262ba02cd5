"""The columns of a table: which of them fit, where each stands, and a row of cells as one text."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from rich.cells import cell_len, set_cell_size

from appraise.app.lines import clip
from appraise.app.marks import PLAIN, Marks

SIGN = 3  # cells before the first column: where one is, a mark, and a blank
ARROWS, PLAIN_ARROWS = "▴▾", "^v"
NARROWEST = 4  # cells of a column that takes what is left


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table.

    Attributes:
        name: What it shows, and what it is sorted by.
        head: What stands above it.
        cells: Its width; 0: what the others leave.
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
    """The columns that fit in so many cells, side by side.

    Args:
        columns: All of them; one takes what the others leave.
        width: Cells of the whole row.
        widest: The widest text of columns that are never cut, by name.
    """
    told = widest or {}
    shown = [one for one in columns if width >= one.since]
    sizes = {one.name: max(one.cells, told.get(one.name, 0) if one.whole else 0) for one in shown}
    used = SIGN + sum(sizes[one.name] + 1 for one in shown if one.cells) - 1
    found, start = [], SIGN
    for one in shown:
        room = sizes[one.name] if one.cells else width - used - 1
        if not one.cells and room < NARROWEST:
            continue
        found.append(ColumnPlace(one, start, room))
        start += room + 1
    return tuple(found)


def row_text(texts: Sequence[str], places: Sequence[ColumnPlace], width: int, marks: Marks) -> str:
    """The cells of a row as one text of exactly so many cells, the signs before them left blank."""
    parts = []
    for text, place in zip(texts, places, strict=True):
        words = clip(text, place.width, marks)
        blank = " " * (place.width - cell_len(words))
        parts.append(blank + words if place.column.right else words + blank)
    return set_cell_size(" " * SIGN + " ".join(parts), width)


def arrow(down: bool, marks: Marks) -> str:
    """What stands beside the heading by which a table is sorted."""
    return (PLAIN_ARROWS if marks == PLAIN else ARROWS)[down]
