"""A day that is told in columns of its own for year, month and day, as one column."""

import re
from collections.abc import Sequence
from dataclasses import replace

from appraise.exchange import sheet_days
from appraise.exchange.header_words import plain_name
from appraise.exchange.layout import Row
from appraise.exchange.tables import SheetTable
from appraise.exchange.vocabulary import SheetWords

_MOST = 0.8  # share of the cells that must be years, and months
_YEAR = re.compile(r"(?:19|20)\d\d")
_NAME = "date"


def with_days_joined(found: SheetTable, say: SheetWords) -> SheetTable:
    """The table with its columns of years, months and days as one, where they are such.

    A year stands for the rows below it that tell none, as merged cells leave it.

    Args:
        found: The table.
        say: The words of spreadsheets.
    """
    year, month, day = (_place(found, f"{part}-alone", say) for part in ("year", "month", "day"))
    told = year >= 0 <= month and min(_years(found, year), _months(found, month)) >= _MOST
    if not told or _NAME in found.header:
        return found
    rows, last = list[Row](), ""
    for number, row in found.rows:
        cells = [*row, *[""] * (len(found.header) - len(row))]
        last = cells[year].strip() or last
        parts = [cells[at].strip() if at >= 0 else "" for at in (month, day)]
        full = len([cell for cell in cells if cell.strip()]) > 1
        cells[year] = _day(last if full else cells[year].strip(), *parts)
        rows.append((number, _without(cells, (month, day))))
    header = [_NAME if at == year else name for at, name in enumerate(found.header)]
    written = [_NAME if at == year else name for at, name in enumerate(found.written)]
    return replace(
        found,
        header=_without(header, (month, day)),
        written=_without(written, (month, day)),
        rows=tuple(rows),
    )


def _place(found: SheetTable, part: str, say: SheetWords) -> int:
    names = [plain_name(name) for name in found.written]
    return next((at for at, name in enumerate(names) if say.has(part, name)), -1)


def _years(found: SheetTable, place: int) -> float:
    cells = _cells(found, place)
    return sum(bool(_YEAR.fullmatch(cell)) for cell in cells) / max(1, len(cells))


def _months(found: SheetTable, place: int) -> float:
    """The share of cells that are months, by name or number, or seasons."""
    cells = _cells(found, place)
    return sum(sheet_days.is_day(_day("2000", cell, "")) for cell in cells) / max(1, len(cells))


def _cells(found: SheetTable, place: int) -> list[str]:
    cells = (row[place].strip() for _, row in found.rows if place < len(row))
    return [cell for cell in cells if cell]


def _day(year: str, month: str, day: str) -> str:
    """A day as it may be typed: '12 mai 2015', '2015-05-12', '2015'."""
    if not (year and month):
        return year
    if not month.isdecimal():
        return " ".join(filter(None, (day, month, year)))
    return "-".join(one.zfill(2) for one in (year, month, day) if one)


def _without(cells: Sequence[str], places: Sequence[int]) -> tuple[str, ...]:
    return tuple(cell for at, cell in enumerate(cells) if at not in places)
