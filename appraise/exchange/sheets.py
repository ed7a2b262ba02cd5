"""CSV to entries, looked at before anything is kept: what was understood, what was not.

Reading never touches the log. A `Preview` says how the file was read, what it leaves open,
and which rows cannot be taken in and why; `import_csv` then takes all of it in, or only
the good rows, or nothing.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import partial

from appraise.base.errors import InputError
from appraise.base.moneytext import DOLLARS
from appraise.exchange import sheet_cells
from appraise.exchange.columns import MONEY_TARGETS, SheetColumn, columns, fitted
from appraise.exchange.csv_file import OWN_HEADERS, own_entry
from appraise.exchange.currencies import Currencies, amounts_of, settle
from appraise.exchange.intake import Taken, take_in
from appraise.exchange.rows import RowReader, row_currency, said, words_in
from appraise.exchange.tables import SheetTable, table
from appraise.exchange.words import (
    WORD_FIELDS,
    Words,
    WordUse,
    as_written,
    options,
    unknown,
    word_uses,
)
from appraise.records.entry import RECORDS, Entry
from appraise.store.log import Log

SAMPLES = 3  # cells shown of a column


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
        base: ISO 4217 code of the user's own currency.
        currency: ISO 4217 code of amounts that name none; empty to have it recognised.
        dollar: ISO 4217 code of a bare '$'; empty to have it recognised.
        words: Turns a cell of a word field (field, text) into the field's word.
        meant: Cells of word fields with what they mean, as the user said; '' leaves them out.
    """

    encoding: str = ""
    delimiter: str = ""
    columns: Mapping[str, str] = field(default_factory=dict)
    point: str = ""
    order: str = ""
    record: str = ""
    channel: str = ""
    base: str = "USD"
    currency: str = ""
    dollar: str = ""
    words: Words = as_written
    meant: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class SheetQuestion:
    """Something that the file leaves open.

    Attributes:
        name: The field of `ReadAs` that answers it.
        says: The question.
        choices: The possible answers; none where any word of a field may be one.
        mend: What to type where nobody can be asked.
    """

    name: str
    says: str
    choices: tuple[str, ...]
    mend: str = ""


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
        samples: Some cells of each column.
        words: What each word of choice was taken for.
        currencies: What is known of the currencies of its amounts.
        questions: What is to be decided first; then no entries are read yet.
        entries: The good rows.
        bad: The others.
    """

    file: str
    encoding: str
    delimiter: str
    columns: tuple[SheetColumn, ...]
    samples: tuple[tuple[str, ...], ...]
    words: tuple[WordUse, ...]
    currencies: Currencies
    questions: tuple[SheetQuestion, ...]
    entries: tuple[Entry, ...] = ()
    bad: tuple[BadRow, ...] = ()


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
    named = columns(found.header, chosen.columns, file)
    if found.header in OWN_HEADERS and not chosen.columns:
        looked = _preview(file, found, named, settle([], {}, chosen.base, "", ""))
        return _with_rows(looked, found, partial(own_entry, found.header))
    named = fitted(named, found, chosen.columns, chosen.words)
    if not any(each.field == "date" for each in named):
        raise InputError("has no column for the day", file, "Name one 'date' in its first row.")
    looked = _looked(named, found, chosen, file)
    if looked.questions:
        return looked
    return _with_rows(looked, found, _reader(looked, chosen, found).entry)


def _with_rows(
    looked: Preview, found: SheetTable, read: Callable[[tuple[str, ...]], Entry]
) -> Preview:
    """The file with its rows read, and why the others cannot be."""
    entries, bad = list[Entry](), list[BadRow]()
    for number, row in found.rows:
        try:
            entries.append(read(row))
        except InputError as error:
            bad.append(BadRow(number, str(error), row))
    return replace(looked, entries=tuple(entries), bad=tuple(bad))


def _preview(
    file: str,
    found: SheetTable,
    named: tuple[SheetColumn, ...],
    currencies: Currencies,
    words: tuple[WordUse, ...] = (),
    questions: tuple[SheetQuestion, ...] = (),
) -> Preview:
    samples = tuple(_samples(found, place) for place in range(len(named)))
    shown = (found.encoding, found.delimiter, named, samples, words, currencies, questions)
    return Preview(file, *shown)


def import_csv(log: Log, preview: Preview, *, only_good: bool = False) -> Taken:
    """Take a file in: every row, or with `only_good` those that can be read.

    Raises:
        InputError: when a question is open, or a row is bad and `only_good` is not said;
            then nothing was taken in.
        StoreError: when the log cannot be written; then nothing was taken in.
    """
    if preview.questions:
        first_open = preview.questions[0]
        raise InputError(first_open.says, preview.file, first_open.mend)
    if preview.bad and not only_good:
        first = preview.bad[0]
        raise InputError(
            f"{len(preview.bad)} of {len(preview.bad) + len(preview.entries)} rows cannot be "
            f"read, first row {first.number} ({first.reason.rstrip('.')})",
            preview.file,
            "Nothing was imported. Correct the rows, or import only the good rows.",
        )
    return take_in(log, preview.entries)


def _looked(
    named: tuple[SheetColumn, ...], found: SheetTable, chosen: ReadAs, file: str
) -> Preview:
    """The file's columns, words and currencies, and what they leave open."""
    cells = [said(named, row) for _, row in found.rows]
    money = [
        (row_currency(one.get("currency", "")), amounts_of(one, MONEY_TARGETS)) for one in cells
    ]
    headers = {each.field: each.currency for each in named if each.currency}
    currencies = settle(money, headers, chosen.base, chosen.currency, chosen.dollar)
    told = [
        (name, part)
        for one in cells
        for name in one
        if name in WORD_FIELDS
        for part in words_in(name, one[name])
    ]
    uses = word_uses(told, chosen.words, chosen.meant)
    questions = (
        *_of_point(money, chosen),
        *_of_order([one.get("date", "") for one in cells], chosen),
        *_of_record(named, chosen),
        *_of_money(currencies, chosen),
        *_of_words(uses),
    )
    return _preview(file, found, named, currencies, uses, questions)


def _reader(looked: Preview, chosen: ReadAs, found: SheetTable) -> RowReader:
    meant = {(use.field, use.text): use.meaning for use in looked.words if use.meaning}

    def word(name: str, text: str) -> str:
        told = meant.get((name, text), text)
        return told if told != text else chosen.words(name, text)

    cells = [said(looked.columns, row) for _, row in found.rows]
    money = [amounts_of(one, MONEY_TARGETS) for one in cells]
    point = chosen.point or sheet_cells.settle_point(c for one in money for c in one.values())
    order = chosen.order or sheet_cells.settle_order(one.get("date", "") for one in cells)
    return RowReader(
        looked.columns,
        word,
        looked.currencies,
        frozenset((use.field, use.text) for use in looked.words if not use.meaning),
        "." if point == "?" else point,
        order,
        chosen.record,
        chosen.channel,
    )


def _of_point(money: list[tuple[str, dict[str, str]]], chosen: ReadAs) -> tuple[SheetQuestion, ...]:
    amounts = [cell for _, cells in money for cell in cells.values()]
    if chosen.point or sheet_cells.settle_point(amounts) != "?":
        return ()
    example = next(cell for cell in amounts if sheet_cells.point_of(cell) == "?")
    says = f"is '{example}' more than a thousand, or does it have decimals?"
    return (SheetQuestion("point", says, (".", ","), "Write --point . or --point , to tell."),)


def _of_order(dates: list[str], chosen: ReadAs) -> tuple[SheetQuestion, ...]:
    if chosen.order or sheet_cells.settle_order(dates) != "?":
        return ()
    example = next(cell for cell in dates if sheet_cells.day_first(cell) == "?")
    says = f"does '{example}' begin with the day or with the month?"
    return (SheetQuestion("order", says, ("day", "month"), "Write --order day or --order month."),)


def _of_record(named: tuple[SheetColumn, ...], chosen: ReadAs) -> tuple[SheetQuestion, ...]:
    if chosen.record or any(each.field == "record" for each in named):
        return ()
    says = "the file does not say what happened: were these bought?"
    return (SheetQuestion("record", says, RECORDS, "Write --record bought, or what it was."),)


def _of_money(found: Currencies, chosen: ReadAs) -> tuple[SheetQuestion, ...]:
    asked = []
    if found.sign and not found.dollar:
        says = f"which dollar is '{sheet_cells.shortened(found.sign)}'?"
        asked.append(SheetQuestion("dollar", says, DOLLARS, "Write --dollar AUD, or another."))
    if found.bare and not found.usual:
        seen = tuple(sorted(found.seen, key=lambda code: (-found.seen[code], code)))
        says = (
            f"in which currency is '{sheet_cells.shortened(found.bare)}'? The file has "
            f"{' and '.join(seen)}"
        )
        choices = tuple(dict.fromkeys((*seen, found.base)))
        asked.append(
            SheetQuestion("currency", says, choices, f"Write --currency {seen[0]}, or another.")
        )
    return tuple(asked)


def _of_words(uses: tuple[WordUse, ...]) -> tuple[SheetQuestion, ...]:
    says = unknown(uses)
    return (SheetQuestion("meant", says, (), options(uses)),) if says else ()


def _samples(found: SheetTable, place: int) -> tuple[str, ...]:
    """The first different cells of a column."""
    cells = (row[place].strip() for _, row in found.rows if place < len(row))
    seen: dict[str, None] = {}
    for cell in cells:
        if cell:
            seen.setdefault(sheet_cells.shortened(cell))
        if len(seen) == SAMPLES:
            break
    return tuple(seen)
