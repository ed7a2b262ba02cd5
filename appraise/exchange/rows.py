"""One row of a spreadsheet to one entry, once it is known how the file is to be read."""

import re
from dataclasses import dataclass
from typing import Any

from appraise.base.errors import InputError
from appraise.base.moneytext import currency_named, decimal
from appraise.exchange import sheet_cells
from appraise.exchange.columns import MONEY_TARGETS, SheetColumn
from appraise.exchange.csv_file import from_json_cell, plain
from appraise.exchange.currencies import Currencies, amounts_of
from appraise.exchange.words import WORD_FIELDS, Words
from appraise.records.entry import KIND_OF, Entry
from appraise.records.values import LINE, FlagKind, PageKind, SeveralKind, UntypedKind

_PRICE_OF = {"asking": "asked", "refused": "asked", "hammer": "hammer", "unsold": "hammer"}
_SEVERAL = re.compile(r"\s*[,;+]\s*")
_TURNS = re.compile("[\u202a-\u202e\u2066-\u2069]")  # marks that turn the reading direction
_NO_AMOUNT = re.compile(r"[$£€¥]?\s*[-\u2013\u2014]+\s*[$£€¥]?")  # as sheets show nothing at all
_BREAK = re.compile(r"\s*[\r\n\t\u2028\u2029]\s*")


@dataclass(frozen=True, slots=True)
class RowReader:
    """How the rows of a file are read.

    Attributes:
        columns: What each column was taken for.
        words: Turns a cell of a field of words into the field's word.
        currencies: Of amounts that name none.
        dropped: Words that the user leaves out, as (field, cell).
        point, order: The decimal point, and what a date begins with.
        record, channel: What happened and where, for rows that do not say.
    """

    columns: tuple[SheetColumn, ...]
    words: Words
    currencies: Currencies
    dropped: frozenset[tuple[str, str]] = frozenset()
    point: str = "."
    order: str = "day"
    record: str = ""
    channel: str = ""

    def entry(self, row: tuple[str, ...]) -> Entry:
        """The entry of a row.

        Raises:
            InputError: when the row cannot be read.
        """
        if len(row) > len(self.columns) and any(cell.strip() for cell in row[len(self.columns) :]):
            raise InputError(f"has {len(row)} cells under {len(self.columns)} columns")
        cells = said(self.columns, row)
        told = cells.pop("currency", "").strip()
        currency = row_currency(told)
        if told and not currency:
            raise InputError(f"currency '{sheet_cells.shortened(told)}' is not known", "currency")
        values: dict[str, Any] = {"record": self.record, "channel": self.channel}
        amounts = {name: cells.pop(name) for name in MONEY_TARGETS if name in cells}
        amounts = amounts_of(amounts, MONEY_TARGETS)
        for name, cell in amounts.items():
            code = self.currencies.of(name, amounts, currency)
            values[name] = self._placed(name, lambda c=cell, k=code: self._amount(c, k))
        for name, cell in cells.items():
            if is_several(name) or (name, cell.strip()) not in self.dropped:
                values[name] = self._placed(name, lambda n=name, c=cell: self._value(n, c))
        price = values.pop("price", None)
        if price is not None:
            values.setdefault(_PRICE_OF.get(values["record"], "paid"), price)
        if "date" not in values:
            raise InputError("has no day", where="date")
        extra = {**values.get("extra", {}), **self._others(row)}
        return Entry(**{**values, "extra": extra})

    def _placed(self, name: str, read: Any) -> Any:
        try:
            return read()
        except InputError as error:
            raise InputError(error.what, error.where or name, error.mend) from error

    def _amount(self, cell: str, code: str) -> Any:
        return sheet_cells.amount(cell, self.point, code)

    def _value(self, name: str, cell: str) -> Any:
        kind = KIND_OF[name]
        if isinstance(kind, UntypedKind):
            return from_json_cell(name, cell)
        if isinstance(kind, PageKind):
            cell = cell.replace("\r\n", "\n").replace("\r", "\n")
            return _TURNS.sub("", cell)
        if name == "date":
            return sheet_cells.day(cell, self.order)
        if is_several(name):
            parts = [one for one in words_in(name, cell) if (name, one) not in self.dropped]
            return tuple(dict.fromkeys(self.words(name, one) for one in parts))
        if name in WORD_FIELDS:
            return self.words(name, cell.strip())
        if name == "identified":
            return sheet_cells.identified(cell)
        if isinstance(kind, FlagKind):
            return sheet_cells.flag(cell)
        if name == "appeal":
            return int(decimal(cell, "."))
        if name in ("condition_factor", "quality"):
            return float(decimal(cell, self.point))
        return _BREAK.sub(" ", _TURNS.sub("", cell)).strip()

    def _others(self, row: tuple[str, ...]) -> dict[str, Any]:
        """Cells of columns that are none of ours, and words left out: nothing of a file is lost."""
        kept = {
            each.header.strip(): plain(cell).strip().replace("\r\n", "\n").replace("\r", "\n")
            for each, cell in zip(self.columns, row, strict=False)
            if each.header.strip() and cell.strip()
            if not each.field or self._drops(each.field, plain(cell))
        }
        return {"columns": kept} if kept else {}

    def _drops(self, field: str, cell: str) -> bool:
        return any((field, one) in self.dropped for one in words_in(field, cell))


def said(columns: tuple[SheetColumn, ...], row: tuple[str, ...]) -> dict[str, str]:
    """The cells of a row that say anything, by field."""
    cells = zip(columns, row, strict=False)
    found = {each.field: plain(cell) for each, cell in cells if each.field}
    return {name: cell for name, cell in found.items() if _says(name, cell)}


def is_several(field: str) -> bool:
    """Whether a field holds several words."""
    return isinstance(KIND_OF.get(field), SeveralKind)


def words_in(field: str, cell: str) -> list[str]:
    """The words of a cell: several in a field that may hold several, else the cell as it is."""
    parts = _SEVERAL.split(cell.strip()) if is_several(field) else [cell.strip()]
    return [one for one in parts if one]


def row_currency(told: str) -> str:
    """What a row's own column of currencies names; '' for nothing that is known."""
    return currency_named(told.strip())


def _says(name: str, cell: str) -> bool:
    """Whether a cell says anything: a dash does not, but in a title it may be meant."""
    kind = KIND_OF.get(name)
    if kind is LINE or isinstance(kind, PageKind):
        return bool(cell.strip())
    if name in MONEY_TARGETS and _NO_AMOUNT.fullmatch(cell.strip()):
        return False
    return not sheet_cells.is_nothing(cell)
