"""What a table says between its rows: a second header, headings of what happened below them.

A later header's columns are put onto those of the first that mean the same, its others stand beside
them. What a heading says of the rows below it stands in a column of its own.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from appraise.base.dataclass import dataclass
from appraise.exchange import sheet_cells
from appraise.exchange.currencies import header_currency
from appraise.exchange.events import is_no_event, titled
from appraise.exchange.header_words import MONEY_TARGETS, SIDES, named_field, plain_name
from appraise.exchange.layout import Row, names_of_fields
from appraise.exchange.sheet_column import Columns, SheetColumn
from appraise.exchange.tables import SheetTable
from appraise.exchange.vocabulary import SheetWords

NAME, OF_HEADINGS = "section", "headings between the rows"
_LEAST = 3  # fields that a later row must name to be a header
_LONGEST = 6  # words of a heading
_ALONE = 0.8  # share of rows by which columns of amounts stand for one another


@dataclass(slots=True)
class _Reading:
    """The columns so far, and where the cells of the present header go."""

    header: list[str]
    fields: list[str]
    places: list[int]


def sectioned(found: SheetTable, say: SheetWords) -> SheetTable:
    """The table as one of a single header, and what headings say of the rows below them.

    Args:
        found: The table.
        say: The words of spreadsheets.
    """
    now = _Reading([*found.header], [named_field(name, say) for name in found.header],
                   [*range(len(found.header))])  # fmt: skip
    heading = _says(found.above[-1], say) if found.above else ""
    rows, again, sections = list[Row](), list[Row](), dict[int, str]()
    for number, row in found.rows:
        filled = [cell.strip() for cell in row if cell.strip()]
        if len(filled) == 1:
            heading = _says(filled[0], say) or heading
        if found.written and names_of_fields(row, say) >= _LEAST and not _is(row, found.written):
            _begin(now, row, say)
            again.append((number, row))
            continue
        rows.append((number, _placed(row, now)))
        sections[number] = heading
    several = len({*sections.values()}) > 1
    return replace(
        found,
        header=tuple(now.header),
        rows=tuple(rows),
        again=tuple(again),
        sections=sections if several else {},
    )


def with_sections(
    rows: Sequence[Row], named: Columns, sections: Mapping[int, str]
) -> tuple[tuple[Row, ...], Columns]:
    """The rows with what the headings above them say happened, where no cell says it."""
    if not sections:
        return tuple(rows), named
    width = len(named)
    own = next((at for at, each in enumerate(named) if each.field == "record"), -1)
    if own >= 0:
        return tuple((number, _filled(row, own, sections[number])) for number, row in rows), named
    told = (
        (number, (*row[:width], *[""] * (width - len(row)), sections[number]))
        for number, row in rows
    )
    return tuple(told), (*named, SheetColumn(NAME, "record", "", OF_HEADINGS))


def _filled(row: Sequence[str], at: int, word: str) -> tuple[str, ...]:
    """A row whose empty cell of a place is a word."""
    free = at < len(row) and not row[at].strip()
    return (*row[:at], word, *row[at + 1 :]) if free else tuple(row)


def _is(row: Sequence[str], header: Sequence[str]) -> bool:
    """Whether a row is the header again."""
    return [cell.strip() for cell in row if cell.strip()] == [
        cell.strip() for cell in header if cell.strip()
    ]


def _says(text: str, say: SheetWords) -> str:
    """What a heading says happened in the rows below it; '' for nothing."""
    event = say.event(text)
    if event:
        return event
    if is_no_event(text, say):
        return text
    return titled(text, say) if len(text.split()) <= _LONGEST else ""


def _begin(now: _Reading, row: Sequence[str], say: SheetWords) -> None:
    """Put the columns of a later header onto those that there are, or beside them."""
    first, taken, now.places = {*now.header}, set[int](), []
    for name in row:
        field = named_field(name, say)
        same = [at for at, one in enumerate(now.header) if one.strip() == name.strip() != ""]
        alike = [at for at, one in enumerate(now.fields) if field and one == field]
        at = next((at for at in (*same, *alike) if at not in taken), -1)
        if at < 0 and name.strip():
            at = len(now.header)
            now.header.append(name if name not in first else f"{name.strip()} (2)")
            now.fields.append(field)
        taken.add(at)
        now.places.append(at)


def _placed(row: Sequence[str], now: _Reading) -> tuple[str, ...]:
    if now.places == [*range(len(now.places))]:
        return tuple(row)
    cells = [""] * len(now.header)
    for at, cell in zip(now.places, row, strict=False):
        if at >= 0:
            cells[at] = cell
    return tuple(cells)


def one_money(found: SheetTable, say: SheetWords) -> SheetTable:
    """The table, in which columns of one amount in several currencies are one: 'Paid £', 'Paid $'.

    So are those of one side of an account. They are such where hardly a row has both; else one is
    a conversion of the other.
    """
    named = [_currency_and_name(name) for name in found.header]
    for first, (_, name) in enumerate(named):
        field = named_field(name, say) if name else "price"
        places = [first, *(at for at in range(first + 1, len(named)) if named[at][1] == name)]
        same = len({named[at][0] for at in places}) == 1 if field not in SIDES else False
        told = all(named[at][0] for at in places) or field in SIDES
        if field not in MONEY_TARGETS or len(places) < 2 or same or not told:
            continue
        if _apart(found, places):
            found = _joined(found, places, [one for one, _ in named], name)
            return one_money(found, say)
    return found


def _currency_and_name(header: str) -> tuple[str, str]:
    """The currency that a column's name tells or is, and the plain rest of it."""
    currency, rest = header_currency(header)
    return currency, plain_name(rest)


def _apart(found: SheetTable, places: Sequence[int]) -> bool:
    filled = [sum(_told(row, at) for at in places) for _, row in found.rows]
    return filled.count(1) >= _ALONE * sum(map(bool, filled)) > 0


def _told(row: Sequence[str], at: int) -> bool:
    return at < len(row) and not sheet_cells.is_nothing(row[at])


def _joined(
    found: SheetTable, places: Sequence[int], currencies: Sequence[str], name: str
) -> SheetTable:
    """The table with the cells of some columns in the first of them, each with its currency."""
    rows = list[Row]()
    for number, row in found.rows:
        told = [
            row[at] if sheet_cells.told_currency(row[at]) else f"{row[at]} {currencies[at]}".strip()
            for at in places
            if _told(row, at)
        ]
        rows.append((number, _without(row, places, "; ".join(told))))
    header = _without(found.header, places, name or "price")
    written = _without(found.written, places, name or "price")
    return replace(found, header=header, written=written, rows=tuple(rows))


def _without(row: Sequence[str], places: Sequence[int], cell: str) -> tuple[str, ...]:
    first, *rest = places
    return tuple(cell if at == first else one for at, one in enumerate(row) if at not in rest)
