"""CSV to entries, looked at before anything is kept: what was understood, what was not.

Reading never touches the log. A `Preview` says how the file was read, what it leaves open,
and which rows cannot be taken in and why; `import_csv` then takes all of it in, or only
the good rows, or nothing.
"""

import json
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from appraise.base.errors import InputError
from appraise.base.moneytext import currency_named, decimal
from appraise.log import csvcells
from appraise.log.codec import from_json
from appraise.log.csvcolumns import Column, columns
from appraise.log.csvout import HEADER, plain
from appraise.log.csvtext import Table, table
from appraise.log.entries import (
    CLOSED_WORDS,
    LINES,
    MONEY_FIELDS,
    OPEN_WORDS,
    PAGES,
    RECORDS,
    Entry,
)
from appraise.log.intake import Taken, take_in
from appraise.log.store import Log
from appraise.log.words import folded

Words = Callable[[str, str], str]
_PRICE_OF = {"asking": "asked", "refused": "asked", "hammer": "hammer", "unsold": "hammer"}
_FLAGS = ("identified", "maker_known", "own_work")
_JSON = ("belonging", "estimate", "pictures", "extra")
_ID = re.compile(r"[0-9a-f]{16}\Z")
_TURNS = re.compile("[\u202a-\u202e\u2066-\u2069]")  # marks that turn the reading direction
_BREAK = re.compile(r"\s*[\r\n\t\u2028\u2029]\s*")


def as_written(name: str, text: str) -> str:
    """A word as an entry wants it: lower case, hyphens for spaces."""
    return re.sub(r"[^a-z0-9]+", "-", folded(text)).strip("-")


@dataclass(frozen=True, slots=True)
class ReadAs:
    """How to read a file, where the user or the program decided.

    Attributes:
        encoding: Empty to have it recognised.
        delimiter: Empty to have it recognised.
        columns: Header to field, for columns that are not to be taken by their name.
        point: '.' or ',', the decimal point; empty to have it recognised.
        order: 'day' or 'month', which comes first in a date; empty to have it recognised.
        record: What happened, for files that do not say.
        channel: Where, for files that do not say.
        currency: ISO 4217 code, for amounts that name none.
        words: Turns a cell of a word field (field, text) into the field's word.
    """

    encoding: str = ""
    delimiter: str = ""
    columns: Mapping[str, str] = field(default_factory=dict)
    point: str = ""
    order: str = ""
    record: str = ""
    channel: str = ""
    currency: str = "USD"
    words: Words = as_written


@dataclass(frozen=True, slots=True)
class Question:
    """Something that the file leaves open.

    Attributes:
        name: The field of `ReadAs` that answers it.
        says: The question.
        choices: The possible answers.
    """

    name: str
    says: str
    choices: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class BadRow:
    """A row that cannot be taken in: its number as a spreadsheet counts, why, and its cells."""

    number: int
    reason: str
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Preview:
    """A file as it would be taken in.

    Attributes:
        file: Its name.
        encoding: How its bytes were read.
        delimiter: What parts its cells.
        columns: What each column was taken for.
        questions: What is to be decided first; then no entries are read yet.
        entries: The good rows.
        bad: The others.
    """

    file: str
    encoding: str
    delimiter: str
    columns: tuple[Column, ...]
    questions: tuple[Question, ...]
    entries: tuple[Entry, ...]
    bad: tuple[BadRow, ...]


def read_csv(data: bytes, file: str, read_as: ReadAs | None = None) -> Preview:
    """Read a file without keeping anything.

    Args:
        data: The file's bytes.
        file: Its name for messages.
        read_as: What was decided; all else is recognised.

    Raises:
        InputError: when it is no table, or has no column for the day.
    """
    chosen = read_as or ReadAs()
    found = table(data, file, encoding=chosen.encoding, delimiter=chosen.delimiter)
    named = _with_true_ids(columns(found.header, chosen.columns, file), found)
    if not any(each.field == "date" for each in named):
        raise InputError("has no column for the day", file, "Name one 'date' in its first row.")
    reader = _settled(_Reader(named, chosen, own=found.header == HEADER), found)
    entries: list[Entry] = []
    bad: list[BadRow] = []
    for number, row in () if reader.questions else found.rows:
        try:
            entries.append(reader.entry(row))
        except InputError as error:
            bad.append(BadRow(number, str(error), row))
    shown = (found.encoding, found.delimiter, named, tuple(reader.questions))
    return Preview(file, *shown, tuple(entries), tuple(bad))


def import_csv(log: Log, preview: Preview, *, only_good: bool = False) -> Taken:
    """Take a file in: every row, or with `only_good` those that can be read.

    Raises:
        InputError: when a question is open, or a row is bad and `only_good` is not said;
            then nothing was taken in.
        StoreError: when the log cannot be written; then nothing was taken in.
    """
    if preview.questions:
        raise InputError(preview.questions[0].says, preview.file)
    if preview.bad and not only_good:
        first = preview.bad[0]
        raise InputError(
            f"{len(preview.bad)} of {len(preview.bad) + len(preview.entries)} rows cannot be "
            f"read, first row {first.number} ({first.reason.rstrip('.')})",
            preview.file,
            "Nothing was taken in; mend them, or take in only the good rows.",
        )
    return take_in(log, preview.entries)


def _with_true_ids(named: tuple[Column, ...], found: Table) -> tuple[Column, ...]:
    """A column of the user's own numbers is not one of ids that a log gave."""
    for place, each in enumerate(named):
        cells = [row[place].strip() for _, row in found.rows if place < len(row)]
        if each.field == "id" and not all(_ID.match(cell) for cell in cells if cell):
            return (*named[:place], Column(each.header, ""), *named[place + 1 :])
    return named


def _settled(reader: "_Reader", found: Table) -> "_Reader":
    """Decide what single cells leave open from the whole of their columns."""
    money = [place for place, each in enumerate(reader.columns) if each.field in _MONEY_TARGETS]
    days = [place for place, each in enumerate(reader.columns) if each.field == "date"]
    amounts = [row[place] for _, row in found.rows for place in money if place < len(row)]
    dates = [row[place] for _, row in found.rows for place in days if place < len(row)]
    point = reader.read_as.point or csvcells.settle_point(amounts)
    order = reader.read_as.order or csvcells.settle_order(dates)
    if point == "?" and reader.own:
        point = "."
    if point == "?":
        example = next(cell for cell in amounts if csvcells.point_of(cell) == "?")
        says = f"is '{example}' more than a thousand, or does it have decimals?"
        reader.questions.append(Question("point", says, (".", ",")))
    if order == "?":
        example = next(cell for cell in dates if csvcells.day_first(cell) == "?")
        says = f"does '{example}' begin with the day or with the month?"
        reader.questions.append(Question("order", says, ("day", "month")))
    if not reader.read_as.record and not any(each.field == "record" for each in reader.columns):
        says = "the file does not say what happened: were these bought?"
        reader.questions.append(Question("record", says, RECORDS))
    reader.point, reader.order = point, order
    return reader


_MONEY_TARGETS = (*MONEY_FIELDS, "price")


@dataclass(slots=True)
class _Reader:
    columns: tuple[Column, ...]
    read_as: ReadAs
    own: bool
    point: str = "."
    order: str = "day"
    questions: list[Question] = field(default_factory=list)

    def entry(self, row: tuple[str, ...]) -> Entry:
        if len(row) > len(self.columns) and any(cell.strip() for cell in row[len(self.columns) :]):
            raise InputError(f"has {len(row)} cells under {len(self.columns)} columns")
        cells = {
            each.field: plain(cell)
            for each, cell in zip(self.columns, row, strict=False)
            if each.field
        }
        values: dict[str, Any] = {"record": self.read_as.record, "channel": self.read_as.channel}
        told = cells.pop("currency", "").strip()
        currency = currency_named(told) or told.upper() or self.read_as.currency
        for name, cell in cells.items():
            if self._says(name, cell):
                values[name] = self._placed(name, cell, currency)
        price = values.pop("price", None)
        if price is not None:
            values.setdefault(_PRICE_OF.get(values["record"], "paid"), price)
        if "date" not in values:
            raise InputError("names no day", where="date")
        extra = {**values.get("extra", {}), **self._others(row)}
        return Entry(**{**values, "extra": extra})

    def _says(self, name: str, cell: str) -> bool:
        """Whether a cell says anything: a dash does not, but in a title it may be meant."""
        if self.own or name in LINES or name in PAGES:
            return bool(cell if self.own else cell.strip())
        return not csvcells.is_nothing(cell)

    def _placed(self, name: str, cell: str, currency: str) -> Any:
        try:
            return self._value(name, cell, currency)
        except InputError as error:
            raise InputError(error.what, error.where or name, error.mend) from error

    def _value(self, name: str, cell: str, currency: str) -> Any:
        if name in _MONEY_TARGETS:
            return csvcells.amount(cell, self.point, currency)
        if name == "date":
            return csvcells.day(cell, self.order)
        if name in CLOSED_WORDS or name in OPEN_WORDS:
            return self._word(name, cell)
        if name in _FLAGS:
            return csvcells.flag(cell)
        if name in _JSON:
            return _from_json(name, cell)
        if name == "appeal":
            return int(decimal(cell, "."))
        if name == "condition_factor":
            return float(cell) if self.own else float(decimal(cell, self.point))
        if not self.own:
            cell = _TURNS.sub("", cell)
        if name in PAGES:
            return cell.replace("\r\n", "\n").replace("\r", "\n")
        text = _BREAK.sub(" ", cell) if name in LINES else cell
        return text if self.own else text.strip()

    def _word(self, name: str, cell: str) -> str:
        return cell if self.own else self.read_as.words(name, cell.strip())

    def _others(self, row: tuple[str, ...]) -> dict[str, Any]:
        """Cells of columns that are none of ours: nothing of a file is lost."""
        kept = {
            each.header.strip(): plain(cell).strip().replace("\r\n", "\n").replace("\r", "\n")
            for each, cell in zip(self.columns, row, strict=False)
            if not each.field and each.header.strip() and cell.strip()
        }
        return {"columns": kept} if kept else {}


def _from_json(name: str, cell: str) -> Any:
    """A value that has no plain form in a cell, read as the log itself writes it."""
    try:
        data = {"record": "bought", "date": "2000-01-01", name: json.loads(cell)}
    except (ValueError, RecursionError) as error:
        raise InputError("is not readable JSON") from error
    return getattr(from_json(data), name)
