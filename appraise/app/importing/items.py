"""A sheet to be imported as lines of a table: how it is read, its columns, words, lost rows."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from appraise.app.picker import Choice
from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.moneytext import DOLLARS, EXPONENTS
from appraise.exchange.columns import columns
from appraise.exchange.currencies import Currencies
from appraise.exchange.header_words import DATE_TARGETS, MONEY_TARGETS, TARGETS
from appraise.exchange.preview import BadRow, Preview, ReadAs, SheetQuestion
from appraise.exchange.sheets import SAMPLES, read_csv
from appraise.exchange.tables import table
from appraise.exchange.words import WordUse
from appraise.exchange.yaml_file import from_yaml
from appraise.knowledge.basics import CHANNELS
from appraise.knowledge.records import Knowledge
from appraise.records.entry import KIND_OF, RECORDS

COLUMN, READING, WORD, ROW = "column", "file", "word", "row"
BESIDE = "kept beside"
CALLED = {
    "": BESIDE,
    "postage": "shipping",
    "sold_postage": "sold shipping",
    "total": "total of the bill",
    "done": "came to pass",
}
LEFT = "left out"
YAML = (".yaml", ".yml")


@dataclass(frozen=True, slots=True)
class ReadingChoice:
    """Something that holds for the whole file.

    Attributes:
        name: The field of `ReadAs` that says it.
        says: What it is called.
        words: Its values with what each means; none: any word of `choices`.
        usual: What stands there where nothing was said.
        choices: Its values, where they say it themselves.
    """

    name: str
    says: str
    words: Mapping[str, str]
    usual: str
    choices: tuple[str, ...] = ()


READINGS = (
    ReadingChoice("record", "what happened", {}, "as each row says", RECORDS),
    ReadingChoice("channel", "where", {}, "as each row says", CHANNELS),
    ReadingChoice("order", "days", {"day": "day first", "month": "month first"}, "as written"),
    ReadingChoice("point", "decimals", {".": "after a point", ",": "after a comma"}, "as written"),
    ReadingChoice("currency", "bare amounts", {}, "as written", tuple(EXPONENTS)),
    ReadingChoice("dollar", "a bare $", {}, "none met", DOLLARS),
    ReadingChoice(
        "blank_days",
        "rows without a day",
        {"above": "the day above", "unknown": "day unknown"},
        "none met",
    ),
    ReadingChoice("doubtful", "may be no price", {"import": "imported", "leave": LEFT}, LEFT),
    ReadingChoice("doubles", "day and price known", {"add": "imported", "leave": LEFT}, LEFT),
)
RARE = ("point", "dollar", "blank_days", "doubtful")
"""Readings that are told where the file gives reason to.

`doubles` is no field of `ReadAs`: it is asked when the rows are saved."""


@dataclass(frozen=True, slots=True)
class SheetLine:
    """A line of the table.

    Attributes:
        sort: What it tells of: a column, a reading, a word, a row.
        name: By what it is changed: a header, a field of `ReadAs`, 'field:text', a number.
        says: What stands in the file.
        taken: What that is taken for.
        why: What the guess rests on, or why a row is left out.
        samples: Some cells.
        asks: 2: nothing is read before it is answered, 1: it is better answered, 0: neither.
    """

    sort: str
    name: str
    says: str
    taken: str
    why: str = ""
    samples: tuple[str, ...] = ()
    asks: int = 0


def looked_at(data: bytes, file: str, read_as: ReadAs) -> Preview:
    """A sheet as it would be read; where no column has days or amounts, the columns alone.

    Raises:
        InputError: when it is no table, or something that was chosen does not fit it.
    """
    if file.lower().endswith(YAML):
        return _own(data, file, read_as.base)
    try:
        return read_csv(data, file, read_as)
    except InputError as error:
        say = read_as.say
        found = table(data, file, say, encoding=read_as.encoding, delimiter=read_as.delimiter)
        named = columns(found.header, read_as.columns, file, say)
        if {each.field for each in named} & {*DATE_TARGETS, *MONEY_TARGETS} or read_as.meant:
            raise
        cells = [dict.fromkeys(row[n].strip() for _, row in found.rows) for n in range(len(named))]
        samples = tuple(tuple(one for one in each if one)[:SAMPLES] for each in cells)
        asked = SheetQuestion("columns", error.what, ())
        money = Currencies(read_as.base, "", "")
        return Preview(
            file, found.encoding, found.delimiter, named, samples, (), money, questions=(asked,)
        )


def _own(data: bytes, file: str, base: str) -> Preview:
    """A file of entries as the log itself writes them, in which nothing is open."""
    try:
        entries = from_yaml(data.decode("utf-8-sig"), file)
    except UnicodeDecodeError:
        raise InputError("the file is not UTF-8 text", file) from None
    return Preview(file, "utf-8", "", (), (), (), Currencies(base, "", ""), entries=entries)


def items_of(preview: Preview, read_as: ReadAs, doubles: str) -> list[SheetLine]:
    """The lines of the table: what holds for the file, its columns, its words, its lost rows."""
    if not preview.columns:
        return []
    return [
        *_readings(preview, read_as, doubles),
        *_columns(preview),
        *(_word(use) for use in preview.words if use.open or use.meaning != use.text),
        *_rows("cannot be read", preview.bad),
        *_rows("may be no price", preview.doubtful),
        *_rows("no entry", preview.aside),
    ]


def _columns(preview: Preview) -> Iterator[SheetLine]:
    asked = any(one.name == "columns" for one in preview.questions)
    for column, samples in zip(preview.columns, preview.samples, strict=True):
        taken, why = field_named(column.field), column.why
        yield SheetLine(COLUMN, column.header, column.header, taken, why, samples, 2 * asked)
        asked = False


def _readings(preview: Preview, read_as: ReadAs, doubles: str) -> Iterator[SheetLine]:
    guessed = {one.name: one for one in preview.guesses}
    asked = {one.name: one for one in preview.questions}
    told = {"currency": preview.currencies.usual, "dollar": preview.currencies.dollar}
    for one in READINGS:
        question, guess = asked.get(one.name), guessed.get(one.name)
        chosen = doubles if one.name == "doubles" else getattr(read_as, one.name)
        value = chosen or (guess.value if guess else "") or told.get(one.name, "")
        why = "you said so" if chosen else guess.why if guess else ""
        taken = one.words.get(value, value) or one.usual
        if question is not None:
            needed = question.needed
            taken, why = ("?" if needed else taken), question.says
            yield SheetLine(READING, one.name, one.says, taken, why, asks=2 if needed else 1)
        elif chosen or guess or one.name not in RARE:
            yield SheetLine(READING, one.name, one.says, taken, why)


def _word(use: WordUse) -> SheetLine:
    rows = "1 row" if use.rows == 1 else f"{use.rows:,} rows"
    taken = "?" if use.open else use.meaning or LEFT
    asks = (2 if use.field == "record" else 1) if use.open else 0
    offered = f"perhaps {use.offers[0]}" if use.open and use.offers else ""
    told = ", ".join(one for one in (field_named(use.field), rows, offered) if one)
    return SheetLine(WORD, f"{use.field}:{use.text}", use.text, taken, told, asks=asks)


def _rows(says: str, rows: Sequence[BadRow]) -> Iterator[SheetLine]:
    for one in rows:
        cells = tuple(cell for cell in one.cells if cell.strip())
        yield SheetLine(ROW, str(one.number), f"row {one.number}", says, one.reason, cells)


def field_named(field: str) -> str:
    """What a field is called."""
    return CALLED.get(field) or field.replace("_", " ")


def choices_for(
    item: SheetLine, preview: Preview, knowledge: Knowledge
) -> tuple[tuple[Choice, ...], str]:
    """What a line can be taken for, and which of it is marked; nothing for a row."""
    if item.sort == COLUMN:
        taken = {each.field: each.header for each in preview.columns if each.field}
        names = ("", *TARGETS)
        found = [Choice(name, field_named(name), note=taken.get(name, "")) for name in names]
        here = next(each.field for each in preview.columns if each.header == item.name)
        return tuple(found), here
    if item.sort == READING:
        one = next(each for each in READINGS if each.name == item.name)
        pairs = one.words or {word: word for word in _offered(one, preview)}
        return tuple(Choice(value, says) for value, says in pairs.items()), item.taken
    if item.sort == WORD:
        field = item.name.partition(":")[0]
        use = next(each for each in preview.words if f"{each.field}:{each.text}" == item.name)
        kind = KIND_OF[field]
        words = tuple(dict.fromkeys((*use.offers, *kind.words(knowledge))))
        return (*(Choice(word, word) for word in words), Choice("", LEFT)), use.meaning
    return (), ""


def _offered(one: ReadingChoice, preview: Preview) -> tuple[str, ...]:
    """The values of a reading, those that the file itself suggests first."""
    asked = next((each.choices for each in preview.questions if each.name == one.name), ())
    return tuple(dict.fromkeys((*asked, *one.choices)))


def read_otherwise(item: SheetLine, value: str, read_as: ReadAs) -> ReadAs:
    """How the sheet is read where a line is taken for something else."""
    if item.sort == COLUMN:
        return replace(read_as, columns={**read_as.columns, item.name: value})
    if item.sort == WORD:
        return replace(read_as, meant={**read_as.meant, item.name: value})
    changed: dict[str, Any] = {item.name: value}
    return replace(read_as, **changed)
