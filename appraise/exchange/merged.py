"""Cells that a spreadsheet had merged: exported, only the first of them holds the text."""

from collections.abc import Sequence
from itertools import pairwise

from appraise.base.oneline import folded
from appraise.exchange import sheet_cells, sheet_days
from appraise.exchange.events import EventGuess
from appraise.exchange.layout import Row
from appraise.exchange.sheet_column import Columns
from appraise.exchange.vocabulary import SheetWords

_MARKS = ('"', "''", "\u2033", "\u3003", "\u201e", "\u201d", "\u201c", ",,", '-"-', "-''-", '"-"')
_LONGEST = 30  # characters of a cell that may say 'ditto'
LEAST = 0.25  # share of rows without a day from which merged cells are thought of
_WITH_IT = ("venue", "channel", "record", "currency")


def filled_down(
    rows: Sequence[Row], columns: Columns, sure: bool = False
) -> tuple[tuple[Row, ...], EventGuess | None]:
    """The rows with what merged cells leave empty, and that they were taken for such.

    Merged are days of the leftmost columns that are empty in every fourth row or more, where each
    differs from the one above and all are in order of time, or where the place is empty in just
    the same rows.

    Args:
        rows: The rows.
        columns: What the columns were taken for.
        sure: Whether the user said that an empty day is the one above.
    """
    place = next((at for at, each in enumerate(columns) if each.field == "date"), -1)
    sales = _sales(rows, columns)
    given = [_cell(row, place) for n, row in rows if n not in sales] if place >= 0 else []
    empty = [not one for one in given]
    if not given or not given[0] or sum(empty) < (1 if sure else 2):
        return tuple(rows), None
    beside = [
        at
        for at, each in enumerate(columns)
        if each.field in _WITH_IT
        and [not _cell(row, at) for n, row in rows if n not in sales] == empty
    ]
    if not beside and not sure and sum(empty) < LEAST * len(given):
        return tuple(rows), None
    told = [one for one in given if one]
    repeated = any(a == b for a, b in pairwise(told))
    in_order = len(told) > 1 and any(sheet_days.in_order(told, order) for order in ("day", "month"))
    if not beside and not sure and (repeated or not in_order or place > 1):
        return tuple(rows), None
    why = f"'{columns[place].header}' is empty in {sum(empty)} rows, as merged cells leave it"
    return _filled(rows, (place, *beside), sales), EventGuess("blank_days", "above", why)


def without_dittos(rows: Sequence[Row], say: SheetWords) -> tuple[Row, ...]:
    """The rows with what a cell of nothing but 'ditto' repeats: the last one above it."""
    out, above = list[Row](), dict[int, str]()
    for number, row in rows:
        cells = [above.get(at, "") if _is_ditto(cell, say) else cell for at, cell in enumerate(row)]
        above |= {at: cell for at, cell in enumerate(cells) if cell.strip()}
        out.append((number, tuple(cells)))
    return tuple(out)


def _is_ditto(cell: str, say: SheetWords) -> bool:
    text = cell.strip()
    return 0 < len(text) <= _LONGEST and (text in _MARKS or say.has("ditto", folded(text)))


def _sales(rows: Sequence[Row], columns: Columns) -> frozenset[int]:
    """The numbers of rows that tell of a sale alone: what they do not say is not merged."""
    sold = [at for at, each in enumerate(columns) if each.field in ("sold_price", "sold_date")]
    bought = [at for at, each in enumerate(columns) if each.field in ("price", "paid", "hammer")]
    return frozenset(
        number
        for number, row in rows
        if any(_cell(row, at) for at in sold) and not any(_cell(row, at) for at in bought)
    )


def _filled(rows: Sequence[Row], places: Sequence[int], sales: frozenset[int]) -> tuple[Row, ...]:
    out, above = list[Row](), dict.fromkeys(places, "")
    for number, row in rows:
        cells = list(row)
        for at in places:
            if at < len(cells) and _cell(row, at):
                above[at] = cells[at]
            elif at < len(cells) and number not in sales:
                cells[at] = above[at]
        out.append((number, tuple(cells)))
    return tuple(out)


def _cell(row: Sequence[str], place: int) -> str:
    cell = row[place].strip() if place < len(row) else ""
    return "" if sheet_cells.is_nothing(cell) and cell != "?" else cell
