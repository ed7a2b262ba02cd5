"""The table of prices as lines: only what is on the screen."""

from __future__ import annotations

from collections.abc import Sequence

from appraise.app.desklines import WORDS
from appraise.app.lines import EMPTY, Line, clip, ends, fill, line
from appraise.app.marks import Marks
from appraise.log.entries import Entry
from appraise.log.search import Summary

DAY, RECORD, WORD, PRICE = 10, 10, 14, 12  # cells
WIDE, MIDDLE = 110, 60  # cells from which there are more columns


def heading(width: int) -> Line:
    """The names of the columns."""
    names = ("day", "", "title", *_names(width))
    return _joined(names, "price", width, "  ", "quiet")


def _names(width: int) -> tuple[str, ...]:
    if width >= WIDE:
        return "process", "housing", "format"
    return ("process",) if width >= MIDDLE else ()


def table(
    window: Sequence[tuple[int, Entry]], at: int, currency: str, width: int, marks: Marks
) -> list[Line]:
    """A line for each entry of the window."""
    out = []
    for place, entry in window:
        words = {"process": entry.process, "housing": entry.housing, "format": entry.format}
        cells = (
            entry.date.isoformat(),
            WORDS[entry.record],
            clip(entry.title or entry.motif, width, marks),
            *(clip(words[name], WORD - 1, marks) for name in _names(width)),
        )
        here = place == at
        sign = f"{marks.here if here else ' '} "
        row = _joined(cells, priced(entry, currency), width, sign, "", marks)
        out.append(tuple((words, "here") for words, _ in fill(row, width)) if here else row)
    return out


def priced(entry: Entry, currency: str) -> str:
    """The amount that says most, its currency named where it is not the usual one."""
    if entry.price is None:
        return ""
    return entry.price.plain if entry.price.currency == currency else str(entry.price)


def _joined(
    cells: Sequence[str], price: str, width: int, sign: str, role: str, marks: Marks | None = None
) -> Line:
    day, record, title, *words = cells
    happened = f"{record:<{RECORD}} " if width >= MIDDLE else ""
    left = f"{sign}{day:<{DAY}} {happened}"
    right = "".join(f"{word:<{WORD}}" for word in words) + f"{price:>{PRICE}} "
    room = width - len(left) - len(right) - 1
    if room < 1:
        return ends(line((left, role)), line((f"{price} ", role)), width)
    told = clip(title, room, marks) if marks else title
    return line((left, role), *fill(line((told, role)), room), " ", (right, role))


def foot(summary: Summary, at: int, width: int) -> Line:
    """How many there are, their sum and median by currency, and where one is."""
    many = "1 entry" if summary.count == 1 else f"{summary.count:,} entries"
    told = [line(f" {many}")]
    for one in summary.sums:
        sums = (("  sum ", "quiet"), (f"{one.total.amount:,.2f}", "strong"))
        median = (("  median ", "quiet"), (f"{one.median.amount:,.2f}", "strong"))
        told.append(line(*sums, *median, f" {one.total.currency}"))
    where = f"{at + 1:,} of {summary.count:,} " if summary.count else ""
    left = tuple(bit for row in told for bit in row)
    return ends(left, line((where, "quiet")), width)


def nothing(query: str, height: int) -> list[Line]:
    """What stands in an empty table."""
    says = "No entry fits the filter; esc clears it." if query else "The log is empty."
    return [EMPTY, line(f"  {says}")][:height]
