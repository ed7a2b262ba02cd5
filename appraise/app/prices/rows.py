"""The table of prices as lines: only what is on the screen."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from rich.cells import cell_len, set_cell_size

from appraise.app.desklines import WORDS
from appraise.app.discretion import DOTS
from appraise.app.lines import EMPTY, Line, clip, ends, length, line, spread
from appraise.app.marks import DOUBT, FINE, Marks
from appraise.records.entry import Entry
from appraise.store.search import Summary
from appraise.store.suggestions import Guess

SIGN = 3  # cells before the first column: where one is, a doubt, and a blank
WIDE, MIDDLE, ROOMY = 110, 60, 76  # cells from which there are more columns
PRICE = 15  # cells: 9,999,999.00 and its currency
NARROWEST = 4  # cells of a title that is worth showing


@dataclass(frozen=True, slots=True)
class Column:
    """A column of the table.

    Attributes:
        field: The field that it shows; 'price' is the amount that says most.
        head: What stands above it.
        start: Its first cell.
        width: Its cells.
    """

    field: str
    head: str
    start: int
    width: int


def columns(width: int) -> tuple[Column, ...]:
    """The columns that fit in so many cells; the title takes what the others leave."""
    words = ("process", "housing", "format") if width >= WIDE else ("process",)
    left = [("date", "day", 10), *([("record", "", 10)] if width >= MIDDLE else [])]
    right = [*((name, name, 13) for name in words if width >= ROOMY), ("price", "price", PRICE)]
    used = SIGN + sum(cells + 1 for _, _, cells in (*left, *right))
    title = [("title", "title", width - used - 1)] if width - used > NARROWEST else []
    found: list[Column] = []
    start = SIGN
    for field, head, cells in (*left, *title, *right):
        found.append(Column(field, head, start, cells))
        start += cells + 1
    return tuple(found)


def heading(width: int) -> Line:
    """The names of the columns."""
    heads = [(one, one.head) for one in columns(width)]
    return line((_joined(heads, width, " " * SIGN, FINE), "quiet"))


def table(
    window: Sequence[tuple[int, Entry]],
    at: int,
    currency: str,
    width: int,
    marks: Marks,
    odd: Collection[str] = (),
    hides: bool = False,
) -> list[Line]:
    """A line for each entry of the window, a doubt before the ids in `odd`.

    `hides`: prices are not shown.
    """
    shown = columns(width)
    out = []
    for place, entry in window:
        here = place == at
        cells = [
            (one, DOTS if hides and one.field == "price" else cell(entry, one.field, currency))
            for one in shown
        ]
        signs = f"{marks.here if here else ' '}{DOUBT if entry.id in odd else ' '} "
        row = _joined(cells, width, signs, marks)
        out.append(line((row, "here" if here else "")))
    return out


def cell(entry: Entry, field: str, currency: str) -> str:
    """What a column shows of an entry."""
    if field == "price":
        return priced(entry, currency)
    if field == "title":
        return entry.title or entry.motif
    if field == "record":
        return WORDS[entry.record]
    return str(getattr(entry, field))


def priced(entry: Entry, currency: str) -> str:
    """The amount that says most, its currency named where it is not the usual one."""
    if entry.price is None:
        return ""
    return entry.price.plain if entry.price.currency == currency else str(entry.price)


def _joined(cells: Sequence[tuple[Column, str]], width: int, signs: str, marks: Marks) -> str:
    """The cells side by side: one piece of text a line, which is drawn quickest."""
    parts = []
    for column, text in cells:
        words = clip(text, column.width, marks)
        blank = " " * (column.width - cell_len(words))
        parts.append(blank + words if column.field == "price" else words + blank)
    return set_cell_size(signs + " ".join(parts), width)


def foot(summary: Summary | None, at: int, width: int) -> Line:
    """How many there are, their sum and median by currency, and where one is."""
    if summary is None:  # being added up
        return line("")
    many = "1 entry" if summary.count == 1 else f"{summary.count:,} entries"
    told = [line(f" {many}")]
    for one in summary.sums:
        sums = (("  sum ", "quiet"), (f"{one.total.amount:,.2f}", "strong"))
        median = (("  median ", "quiet"), (f"{one.median.amount:,.2f}", "strong"))
        told.append(line(*sums, *median, f" {one.total.currency}"))
    where = f"{at + 1:,} of {summary.count:,} " if summary.count else ""
    end = line((where, "quiet"))
    left, *_ = spread(told, width - length(end) - 2, 0)
    return ends(left, end, width)


def nothing(query: str, meant: Guess | None) -> list[Line]:
    """What stands in an empty table: how to begin, or what the filter may have meant."""
    if not query:
        return [EMPTY, line("  The log is empty. Press ", ("n", "key"), " to log a price.")]
    rows = [EMPTY, line("  No entry matches the filter; ", ("esc", "key"), " clears it.")]
    if meant is not None:
        offer = line(
            "  Did you mean ", (meant.query, "strong"), "? ", ("enter", "key"), " accepts it."
        )
        rows += [EMPTY, offer]
    return rows
