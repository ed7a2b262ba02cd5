"""A column that tells place and day in one cell, 'Harle fair, May 2016', as two columns."""

from dataclasses import replace

from appraise.exchange import sheet_days
from appraise.exchange.layout import Row
from appraise.exchange.sheet_column import Columns
from appraise.exchange.tables import SheetTable

_LEAST, _MOST = 0.6, 0.5  # shares of cells that tell both, and that are days alone
_LOOKED = 400  # rows that are looked at
_FEW = 3  # cells from which a column is known
_FREE = ("", "venue", "date", "done", "note")
_NAMES, _OF_SALE = ("where", "day"), ("sold where", "sold on")


def with_days_parted(found: SheetTable, named: Columns) -> SheetTable:
    """The table, in which days stand in a column of their own where none did.

    Args:
        found: The table.
        named: What its columns were taken for.
    """
    for sale in (True, False):
        fields = ("sold_price", "sold_date", "sold_venue") if sale else _FREE
        for place, each in enumerate(named):
            taken = "sold_date" if sale else "date"
            if each.field not in fields or not _tells_both(found, place, _FEW - sale):
                continue
            if all(one.field != taken for at, one in enumerate(named) if at != place):
                names = _OF_SALE if sale else _NAMES
                found = _parted(found, place, names)
                break
    return found


def _tells_both(found: SheetTable, place: int, least: int) -> bool:
    """Whether the cells of a column tell place and day, and few of them a day alone."""
    cells = [row[place].strip() for _, row in found.rows[:_LOOKED] if place < len(row)]
    cells = [cell for cell in cells if cell]
    alone = sum(map(sheet_days.is_day, cells))
    both = sum(bool(sheet_days.day_and_place(cell)[0]) for cell in cells)
    few = len(cells) < least or both < _LEAST * len(cells)
    return not few and alone <= _MOST * len(cells)


def _parted(found: SheetTable, place: int, names: tuple[str, str]) -> SheetTable:
    width, rows = len(found.header), list[Row]()
    for number, row in found.rows:
        cells = [*row, *[""] * (width - len(row))]
        alone = sheet_days.is_day(cells[place]) or sheet_days.YEAR.fullmatch(cells[place].strip())
        day, where = (cells[place], "") if alone else sheet_days.day_and_place(cells[place])
        cells[place] = where or ("" if day else cells[place])
        rows.append((number, (*cells, day)))
    header = [*found.header]
    for at, name in ((place, names[0]), (len(header), names[1])):
        free = next(one for one in (name, f"{name} (2)") if one not in header)
        header[at : at + 1] = [free]
    return replace(found, header=tuple(header), rows=tuple(rows))
