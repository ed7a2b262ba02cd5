"""Where in a spreadsheet the header stands, and what its columns are called.

Above it may stand titles, over several of its columns the name of a group; or there is none at all.
"""

import re
from collections import Counter
from collections.abc import Sequence

from appraise.base.dataclass import dataclass
from appraise.base.moneytext import currency_named
from appraise.exchange import sheet_cells, sheet_days
from appraise.exchange.currencies import header_currency
from appraise.exchange.header_words import (
    DATE_TARGETS,
    MONEY_TARGETS,
    SIDES,
    is_of_purchase,
    is_of_sale,
    is_other_figure,
    named_field,
)
from appraise.exchange.vocabulary import SheetWords

Row = tuple[int, tuple[str, ...]]
LOOKED = 25  # rows among which the header stands
_LONGEST_NAME = 60  # characters of a column's name
_DATA = re.compile(r"[^\w]*\d|.*\d{4}-\d\d|.*\d[./]\d", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Layout:
    """The parts of a table, as `SheetTable` has them."""

    header: tuple[str, ...]
    rows: tuple[Row, ...]
    written: tuple[str, ...]
    above: tuple[str, ...]


def laid_out(filled: Sequence[Row], say: SheetWords) -> Layout:
    """The parts of a table whose rows all hold something."""
    place = _header_place(filled, say)
    rows = tuple(filled[place + 1 :]) if place >= 0 else tuple(filled)
    written = filled[place][1] if place >= 0 else ()
    if written and rows and _are_units(rows[0][1]):
        written, rows = _with_units(written, rows[0][1]), rows[1:]
    groups = _groups(filled[place - 1][1], written, say) if place > 0 else ()
    width = max([len(written), *(_filled_width(row) for _, row in rows)])
    header = _names(_with_groups(written, groups, say), width)
    above = [" ".join(filter(None, map(str.strip, row))) for _, row in filled[: max(place, 0)]]
    if place < 0:
        above = [text for row in filled[:LOOKED] if (text := _alone(row[1]))]
    if groups and len(set(map(str.strip, written))) < len([one for one in written if one.strip()]):
        above = above[:-1]
    return Layout(header, rows, written, tuple(above))


def _are_units(row: Sequence[str]) -> bool:
    """Whether a row below a header tells nothing but the currencies of its columns."""
    told = [cell.strip(" ()[]") for cell in row if cell.strip()]
    return bool(told) and all(currency_named(cell) for cell in told)


def _with_units(written: Sequence[str], units: Sequence[str]) -> tuple[str, ...]:
    told = [*(cell.strip(" ()[]") for cell in units), *[""] * len(written)]
    return tuple(
        f"{name} ({unit})" if unit and name.strip() else name
        for name, unit in zip(written, told, strict=False)
    )


def _alone(row: Sequence[str]) -> str:
    """The text of a row that holds one alone; '' of another."""
    told = [cell.strip() for cell in row if cell.strip()]
    return told[0] if len(told) == 1 and len(row) > 1 else ""


def _header_place(filled: Sequence[Row], say: SheetWords) -> int:
    """The header's place among the rows that hold something; -1 where there is none."""
    top = filled[:LOOKED]
    scores = [names_of_fields(row, say) for _, row in top]
    best = max(scores)
    if best >= 2:
        first = scores.index(best)
        fuller = first + 1 < len(top) and _many(top[first + 1][1]) > _many(top[first][1])
        return first + 1 if fuller and scores[first + 1] == best else first
    usual = Counter(_filled_width(row) for _, row in filled[: 4 * LOOKED]).most_common(1)[0][0]
    for place, (_, row) in enumerate(top):
        if _filled_width(row) >= max(2, usual - 1) and _many(row) > 1:
            return -1 if _is_data(row) else place
    return 0 if not _is_data(filled[0][1]) else -1


def names_of_fields(row: Sequence[str], say: SheetWords) -> int:
    """How many different fields the cells of a row name; 0 for one that holds data."""
    if _is_data(row):
        return 0
    return len({field for cell in row if (field := named_field(cell, say))})


def _is_data(row: Sequence[str]) -> bool:
    """Whether a row holds a day, an amount, a number or a text longer than a name."""
    return any(
        _DATA.match(cell)
        or len(cell) > _LONGEST_NAME
        or (re.search(r"\d", cell) and (sheet_days.is_day(cell) or sheet_cells.is_amount(cell)))
        for cell in row
        if cell.strip()
    )


def _many(row: Sequence[str]) -> int:
    return sum(1 for cell in row if cell.strip())


def _filled_width(row: Sequence[str]) -> int:
    return max((place for place, cell in enumerate(row, 1) if cell.strip()), default=0)


def _is_group(name: str, say: SheetWords) -> bool:
    """Whether a name is of a side of an account, or of a purchase or a sale."""
    side = named_field(name, say) in SIDES
    return side or is_of_sale(name, say) or is_of_purchase(name, say)


def _groups(row: Sequence[str], below: Sequence[str], say: SheetWords) -> tuple[str, ...]:
    """The names of groups of columns in the row above a header; none where it is a title."""
    named = [cell.strip() for cell in row]
    twins = Counter(cell.strip() for cell in below if cell.strip())
    twin = max(twins.values(), default=0) > 1 or any(_is_group(name, say) for name in named if name)
    if _many(row) < 2 or not twin or _is_data(row):
        return ()
    filled, last = list[str](), ""
    for cell in named:
        last = cell or last
        filled.append(last)
    return tuple(filled)


def _with_groups(written: Sequence[str], groups: Sequence[str], say: SheetWords) -> list[str]:
    """The names of columns, of those that are told twice with the name of their group."""
    many = Counter(cell.strip() for cell in written)
    return [
        _in_group(groups[place], cell.strip(), say)
        if _grouped(groups, place, cell, many, say)
        else cell
        for place, cell in enumerate(written)
    ]


def _in_group(group: str, name: str, say: SheetWords) -> str:
    """A column's name with that of its group; of a side of an account 'Payments (Pictures)'."""
    if named_field(group, say) not in SIDES:
        return f"{group} {name}"
    currency, bare = header_currency(name)
    return f"{group} ({currency}) ({bare})" if currency else f"{group} ({name})"


def _grouped(
    groups: Sequence[str], place: int, cell: str, many: Counter[str], say: SheetWords
) -> bool:
    """Whether a column goes by the name of its group too."""
    name = cell.strip()
    if not name or place >= len(groups) or not groups[place] or is_other_figure(name, say):
        return False
    if named_field(groups[place], say) in SIDES:
        return named_field(name, say) not in (*MONEY_TARGETS, *DATE_TARGETS)
    known = many[name] == 1 and max(many[one] for one in many if one) == 1
    if known and named_field(name, say):
        return False
    return many[name] > 1 or bool(named_field(_in_group(groups[place], name, say), say))


def _names(written: Sequence[str], width: int) -> tuple[str, ...]:
    """A name for each column: twins are counted, one without a name is called by its letter."""
    out: list[str] = []
    taken = {cell for cell in written if cell.strip()}
    for place in range(width):
        name = written[place] if place < len(written) else ""
        name = name if name.strip() else f"column {letter(place)}"
        number, found = 2, name
        while found in out or (number > 2 and found in taken):
            found = f"{name.strip()} ({number})"
            number += 1
        out.append(found)
    return tuple(out)


def letter(place: int) -> str:
    """A column as a spreadsheet calls it, from 0: A to Z, AA ..."""
    rest, last = divmod(place, 26)
    return (letter(rest - 1) if rest else "") + chr(ord("A") + last)
