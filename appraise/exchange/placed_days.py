"""A column that tells place and day in one cell, 'Harle fair, May 2016', as two columns."""

import re
from dataclasses import replace

from appraise.exchange import sheet_days
from appraise.exchange.layout import Row
from appraise.exchange.sheet_column import Columns
from appraise.exchange.tables import SheetTable

_LEAST, _MOST = 0.6, 0.5  # shares of cells that tell both, and that are days alone
_WORDS = 4  # of a day
_FEW = 3  # cells from which a column is known
_YEAR = re.compile(r"(?:19|20)\d\d\??")
_NAMES = ("day", "day (2)")


def with_days_parted(found: SheetTable, named: Columns) -> SheetTable:
    """The table, in which days stand in a column of their own where none did.

    Args:
        found: The table.
        named: What its columns were taken for.
    """
    for place, each in enumerate(named):
        if each.field not in ("", "venue", "date", "done", "note"):
            continue
        cells = [row[place].strip() for _, row in found.rows if place < len(row)]
        cells = [cell for cell in cells if cell]
        alone = sum(map(sheet_days.is_day, cells))
        both = sum(bool(day_and_place(cell)[0]) for cell in cells)
        if len(cells) < _FEW or both < _LEAST * len(cells) or alone > _MOST * len(cells):
            continue
        if any(one.field == "date" for at, one in enumerate(named) if at != place):
            continue
        return _parted(found, place)
    return found


def _parted(found: SheetTable, place: int) -> SheetTable:
    width, rows = len(found.header), list[Row]()
    for number, row in found.rows:
        cells = [*row, *[""] * (width - len(row))]
        alone = sheet_days.is_day(cells[place]) or _YEAR.fullmatch(cells[place].strip())
        day, where = (cells[place], "") if alone else day_and_place(cells[place])
        cells[place] = where or ("" if day else cells[place])
        rows.append((number, (*cells, day)))
    new = next(name for name in _NAMES if name not in found.header)
    named = "where" if found.header[place].strip() else found.header[place]
    header = [*found.header, new]
    header[place] = named if named not in found.header else found.header[place]
    return replace(found, header=tuple(header), rows=tuple(rows))


def day_and_place(cell: str) -> tuple[str, str]:
    """The day that a cell ends or begins with, and its other words; '' for both without one."""
    words = cell.split()
    for many in range(min(_WORDS, len(words) - 1), 0, -1):
        for day, rest in ((words[-many:], words[:-many]), (words[:many], words[many:])):
            told = " ".join(day).strip(" ,;()-\u2013")
            if sheet_days.is_day(told) or _YEAR.fullmatch(told):
                return told, " ".join(rest).strip(" ,;(-\u2013")
    return "", ""
