"""Entries as CSV that a spreadsheet opens and never runs, and that reads back the same.

Cells that a spreadsheet would take for a formula get an apostrophe in front (OWASP, "CSV
Injection"); so do cells that begin with one, which makes the way back exact.
"""

import codecs
import csv
import io
import json
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import chain, islice
from typing import Any

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.records.entry import ATTRIBUTES, KIND_OF, MONEY_FIELDS, Entry
from appraise.records.record_types import readers_of, to_json
from appraise.records.values import NOBODY, Author, PageKind, UntypedKind

HEADER: tuple[str, ...] = (*ATTRIBUTES, "currency")
_PART = 1_000  # rows that are written at once
_ADDED = (("premium", "tax", "fees"), ("quality", "maker"))
_FORMER = {"subject": "subjects"}
_SECOND = tuple(name for name in HEADER if name not in _ADDED[0])
OWN_HEADERS: tuple[tuple[str, ...], ...] = (
    HEADER,
    _SECOND,
    tuple("subject" if name == "subjects" else name for name in _SECOND if name not in _ADDED[1]),
)
"""First rows by which an export of the log is known, older ones too."""
_STARTS = "=+\\-@\t\r\n'\uff1d\uff0b\uff0d\uff20"  # the last four are the full-width forms
_RUN = re.compile(f"[{_STARTS}]")
_NEUTRALISED = re.compile(f"'[{_STARTS}]")


def to_csv(entries: Iterable[Entry], *, delimiter: str = ",") -> bytes:
    """The entries as a CSV file: UTF-8 with a mark, as spreadsheets want it; RFC 4180.

    All amounts of a row are in the currency of its last column, but those that name
    another themselves.
    """
    return b"".join(csv_parts(entries, delimiter=delimiter))


def csv_parts(entries: Iterable[Entry], *, delimiter: str = ",") -> Iterator[bytes]:
    """The same file in parts, for a log of any length."""
    rows = chain([HEADER], map(_row, entries))
    mark = codecs.BOM_UTF8
    while part := list(islice(rows, _PART)):
        out = io.StringIO(newline="")
        csv.writer(out, delimiter=delimiter, lineterminator="\r\n").writerows(part)
        yield mark + out.getvalue().encode()
        mark = b""


def rows_to_csv(rows: Iterable[Sequence[str]]) -> bytes:
    """Rows of any cells as a CSV file that no spreadsheet runs."""
    return _written([[harmless(cell) for cell in row] for row in rows], ",")


def _written(rows: Iterable[Sequence[str]], delimiter: str) -> bytes:
    out = io.StringIO(newline="")
    csv.writer(out, delimiter=delimiter, lineterminator="\r\n").writerows(rows)
    return out.getvalue().encode("utf-8-sig")


def harmless(cell: str) -> str:
    """A cell that no spreadsheet runs."""
    return f"'{cell}" if _RUN.match(cell) else cell


def plain(cell: str) -> str:
    """What `harmless` was given."""
    return cell[1:] if _NEUTRALISED.match(cell) else cell


def _row(entry: Entry) -> list[str]:
    amounts = [getattr(entry, name) for name in MONEY_FIELDS]
    first = entry.price or next((each for each in amounts if each), None)
    currency = first.currency if first else ""
    data = to_json(entry)
    cells = (_cell(entry, name, data, currency) if name in data else "" for name in ATTRIBUTES)
    return [*map(harmless, cells), currency]


def _cell(entry: Entry, name: str, data: Mapping[str, object], currency: str) -> str:
    value, kind = getattr(entry, name), KIND_OF[name]
    if isinstance(kind, UntypedKind):
        return json.dumps(data[name], ensure_ascii=False)
    if isinstance(value, Money) and value.currency == currency:
        return value.plain
    return value if isinstance(kind, PageKind) else kind.write(value)


def own_entry(header: Sequence[str], row: Sequence[str]) -> Entry:
    """The entry of a row of an export.

    Raises:
        InputError: when it cannot be read, after a change by hand.
    """
    if any(cell.strip() for cell in row[len(header) :]):
        raise InputError(f"has {len(row)} cells under {len(header)} columns")
    cells = {name: plain(cell) for name, cell in zip(header, row, strict=False) if cell}
    by, values = replace(NOBODY, currency=cells.pop("currency", "")), dict[str, Any]()
    for column, cell in cells.items():
        name = _FORMER.get(column, column)
        try:
            values[name] = _value(name, cell, by)
        except InputError as error:
            raise InputError(error.what, error.where or name, error.mend) from error
    for name in ("record", "date"):
        if name not in values:
            raise InputError("is missing", name)
    return Entry(**values)


def _value(name: str, cell: str, by: Author) -> Any:
    kind = KIND_OF[name]
    if isinstance(kind, UntypedKind):
        return from_json_cell(name, cell)
    if isinstance(kind, PageKind):
        return cell.replace("\r\n", "\n").replace("\r", "\n")
    return kind.read(cell, by)


def from_json_cell(name: str, cell: str) -> Any:
    """A value that has no plain form in a cell, read as the log itself writes it."""
    try:
        return readers_of(Entry)[name](json.loads(cell))
    except (ValueError, RecursionError, TypeError, KeyError) as error:
        raise InputError("is not readable JSON") from error
