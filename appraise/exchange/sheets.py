"""CSV to entries, looked at before anything is kept: what was understood, what was not.

Reading never touches the log. A `Preview` says how the file was read, what it leaves open,
and which rows cannot be taken in and why; `import_csv` then takes all of it in, or only
the good rows, or nothing.
"""

from collections.abc import Sequence
from dataclasses import replace

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.oneline import folded
from appraise.exchange import sheet_cells
from appraise.exchange.cells import CellReader
from appraise.exchange.columns import columns, fitted, of_sales
from appraise.exchange.csv_file import OWN_HEADERS, own_entry
from appraise.exchange.currencies import settle
from appraise.exchange.events import is_of_sales, with_records
from appraise.exchange.former import with_former
from appraise.exchange.header_words import TARGETS
from appraise.exchange.intake import Taken, take_in
from appraise.exchange.joined_days import with_days_joined
from appraise.exchange.layout import Row
from appraise.exchange.legend import returned_aside, with_legend
from appraise.exchange.measures import with_units
from appraise.exchange.merged import filled_down, without_dittos
from appraise.exchange.no_entries import aside, stray, sums_below, year_of_heading
from appraise.exchange.note_lines import parted
from appraise.exchange.placed_days import with_days_parted
from appraise.exchange.preview import BadRow, Preview, ReadAs, SheetQuestion
from appraise.exchange.questions import Settled, settled
from appraise.exchange.rows import RowRead, RowReader, UnsureRowError
from appraise.exchange.sections import one_money, sectioned, with_sections
from appraise.exchange.sheet_column import Columns
from appraise.exchange.tables import SheetTable, table
from appraise.exchange.vocabulary import SheetWords
from appraise.exchange.words import with_meanings
from appraise.records.entry import ATTRIBUTES, OPEN_WORDS, Entry
from appraise.store.log import Log

__all__ = ["BadRow", "Preview", "ReadAs", "SheetQuestion", "import_csv", "read_csv"]
_FEW = 0.3  # share of rows whose days may be left unread
SAMPLES = 3  # cells shown of a column
_EVENTS = {
    "date",
    "sold_date",
    "price",
    "paid",
    "hammer",
    "asked",
    "offered",
    "total",
    "sold_price",
    "debit",
    "credit",
    "flow",
}
"""Columns of which a file needs one."""


_STRAY = "neither a day nor the words of a piece"
_OTHER = "it names no photograph, as the other rows do"
_MANY, _RARE, _SOME = 6, 0.15, 0.3  # rows, and the shares that name no photograph, or nothing
_AMOUNTS = _EVENTS - {"date", "sold_date"}


@dataclass(frozen=True, slots=True)
class _Parts:
    """The rows of a table: those that may be entries, the years above them, and the others."""

    rows: tuple[Row, ...]
    years: dict[int, str]
    aside: tuple[BadRow, ...]


def read_csv(data: bytes, file: str, read_as: ReadAs | None = None) -> Preview:
    """Read a file without keeping anything.

    Args:
        data: The file's bytes.
        file: Its name for messages.
        read_as: What was decided; all else is recognised.

    Raises:
        InputError: when it is no table, or has neither days nor amounts.
    """
    chosen = read_as or ReadAs()
    say = chosen.say
    found = table(data, file, say, encoding=chosen.encoding, delimiter=chosen.delimiter)
    if found.written not in OWN_HEADERS:
        found = sectioned(replace(found, rows=without_dittos(found.rows, say)), say)
        found = with_days_joined(one_money(found, say), say)
    named = columns(found.header, chosen.columns, file, say)
    if is_of_sales(named, found.above, file, say):
        named = of_sales(named)
    if found.written in OWN_HEADERS and not chosen.columns:
        return _own(found, named, file, chosen.base)
    understood = with_meanings(with_records(chosen.words, (), (), say), chosen.meant)
    named = fitted(named, found, chosen.columns, understood, say)
    whole = with_days_parted(_with_texts_parted(found, named, chosen), named)
    if whole is not found:
        found, named = whole, columns(whole.header, chosen.columns, file, say)
        named = fitted(named, found, chosen.columns, understood, say)
    if not {each.field for each in named} & _EVENTS:
        raise InputError(
            "has no column of days and none of amounts",
            file,
            "Name one: --column 'HEADER=date' or 'HEADER=price'.",
        )
    return _strangers(found, named, file, chosen)


def _strangers(found: SheetTable, named: Columns, file: str, chosen: ReadAs) -> Preview:
    """A file that somebody else wrote, its columns known."""
    parts = _parted(found, named, chosen.say, year_of_heading([file]))
    told_aside = [*((text,) for text in found.above), *(one.cells for one in parts.aside)]
    chosen = replace(chosen, say=with_legend(chosen.say, told_aside))
    rows, merged = parts.rows, None
    if chosen.blank_days != "unknown":
        rows, merged = filled_down(rows, named, sure=chosen.blank_days == "above")
    rows, named = with_sections(rows, named, found.sections)
    sales = is_of_sales(named, found.above, file, chosen.say)
    told = (dict(zip(named, row, strict=False)) for _, row in rows)
    records = [cell for one in told for each, cell in one.items() if each.field == "record"]
    words = with_records(chosen.words, named, records, chosen.say, sales)
    texts = (*found.above, *(cell for one in parts.aside for cell in one.cells))
    rows = with_former(with_units(rows, named, words), named, texts, parts.years, chosen.base)
    chosen = replace(chosen, words=words, say=returned_aside(chosen.say) if sales else chosen.say)
    known = settled(named, [row for _, row in rows], found.above, chosen, file)
    looked = Preview(
        file,
        found.encoding,
        found.delimiter,
        named,
        _samples(found, len(named)),
        known.uses,
        known.currencies,
        (*known.guesses, *([merged] if merged else [])),
        known.questions,
        aside=parts.aside,
    )
    if looked.open:
        return looked
    original = dict(parts.rows)
    return _with_rows(looked, rows, original, parts.years, _reader(named, known, chosen), chosen)


def _with_texts_parted(found: SheetTable, named: Columns, chosen: ReadAs) -> SheetTable:
    """The table, where no column holds amounts with what its column of texts tells."""
    fields = [each.field for each in named]
    if {*fields} & _AMOUNTS or "title" not in fields:
        return found
    return parted(found, fields.index("title"), filter(None, fields), chosen.say)


def _own(found: SheetTable, named: Columns, file: str, base: str) -> Preview:
    """An export of the log, which tells everything itself."""
    currencies = settle([], {}, base, "", "")
    samples = _samples(found, len(named))
    entries, bad = list[Entry](), list[BadRow]()
    for number, row in found.rows:
        try:
            entries.append(own_entry(found.written, row))
        except InputError as error:
            bad.append(BadRow(number, str(error), row))
    looked = Preview(file, found.encoding, found.delimiter, named, samples, (), currencies)
    return replace(looked, entries=tuple(entries), bad=tuple(bad))


def _parted(found: SheetTable, named: Columns, say: SheetWords, year: str) -> _Parts:
    """Rows that may be entries, and those that are totals, headings or lines."""
    rows, years = list[Row](), dict[int, str]()
    others = [BadRow(number, "the header again", row) for number, row in found.again]
    for text in found.above:
        year = year_of_heading([text]) or year
    for number, row in found.rows:
        why = aside(row, named, say)
        if why:
            year = year_of_heading(row) or year if why.startswith("a heading") else year
            others.append(BadRow(number, why, row))
        else:
            rows.append((number, row))
            years[number] = year
    strays = set(stray(rows, named, say))
    others += [BadRow(number, _STRAY, row) for number, row in rows if number in strays]
    rows = [one for one in rows if one[0] not in strays]
    sums = sums_below(rows, named)
    if sums:
        others.append(BadRow(*sums))
        rows = [one for one in rows if one[0] != sums[0]]
    return _Parts(tuple(rows), years, tuple(others))


def _reader(named: Columns, known: Settled, chosen: ReadAs) -> RowReader:
    meant = {(use.field, use.text): use.meaning for use in known.uses if use.meaning}

    def word(name: str, text: str) -> str:
        told = meant.get((name, text), text)
        return told if told != text else chosen.words(name, text)

    return RowReader(
        CellReader(named, chosen.say, word, chosen.base),
        known.currencies,
        frozenset((use.field, use.text) for use in known.uses if not use.meaning),
        known.point,
        known.order,
        known.record,
        chosen.channel,
        chosen.titles,
        known.owed,
        frozenset(use.text for use in known.uses if use.field == "record" and use.open),
    )


def _with_rows(
    looked: Preview,
    rows: Sequence[Row],
    original: dict[int, tuple[str, ...]],
    years: dict[int, str],
    reader: RowReader,
    chosen: ReadAs,
) -> Preview:
    """The file with its rows read, and why the others are not taken in."""
    entries, keys, doubtful = list[Entry](), list[str](), list[BadRow]()
    reads, bad, unsure = _read_rows(rows, original, years, reader)
    other = _other_things(reads, looked.columns, chosen.say)
    for number, read in reads:
        doubt = read.doubt or (_OTHER if number in other else "")
        if doubt and chosen.doubtful != "import":
            doubtful.append(BadRow(number, doubt, original[number]))
            continue
        entries += read.entries
        known = "\n".join(cell.strip() for cell in original[number] if cell.strip())
        keys += [f"{'sale' if one.record == 'sold' else 'row'}\n{known}" for one in read.entries]
    few = len(unsure) <= _FEW * len(rows) and chosen.doubtful != "import"
    (doubtful if few else bad).extend(unsure)
    questions = looked.questions
    if doubtful:
        questions = (*questions, _of_doubt(doubtful))
    return replace(
        looked,
        entries=tuple(entries),
        keys=tuple(keys),
        bad=tuple(bad),
        doubtful=tuple(doubtful),
        questions=questions,
    )


Reads = list[tuple[int, RowRead]]


def _read_rows(
    rows: Sequence[Row],
    original: dict[int, tuple[str, ...]],
    years: dict[int, str],
    reader: RowReader,
) -> tuple[Reads, list[BadRow], list[BadRow]]:
    """What the rows give, those that cannot be read, and those of which it is not sure."""
    reads, bad, unsure = Reads(), list[BadRow](), list[BadRow]()
    for number, row in rows:
        try:
            reads.append((number, reader.read(row, years[number])))
        except InputError as error:
            sort = unsure if isinstance(error, UnsureRowError) else bad
            sort.append(BadRow(number, str(error), original[number]))
    return reads, bad, unsure


def _other_things(reads: Reads, named: Columns, say: SheetWords) -> frozenset[int]:
    """Rows whose title names no photograph, where nearly all others do: orders of other things."""
    told = {number: read.entries[0] for number, read in reads if not read.doubt}
    if len(told) < _MANY:
        return frozenset()
    unnamed = {n: one for n, one in told.items() if not (one.process or one.format or one.housing)}
    bare = frozenset(number for number, one in unnamed.items() if not one.title)
    bare = bare if len(bare) <= _SOME * len(told) else frozenset()
    if any(each.field in OPEN_WORDS for each in named) or len(unnamed) > _RARE * len(told):
        return bare
    pictured = say.any_of("picture")
    return bare | {n for n, one in unnamed.items() if not pictured.search(folded(one.title))}


def _of_doubt(doubtful: Sequence[BadRow]) -> SheetQuestion:
    first = doubtful[0]
    many = "1 row may be" if len(doubtful) == 1 else f"{len(doubtful)} rows may be"
    says = f"{many} no price of a piece, first row {first.number} ({first.reason})"
    mend = "They are left out; --doubtful import takes them in."
    return SheetQuestion("doubtful", says, ("import", "leave"), mend, needed=False)


def import_csv(
    log: Log,
    preview: Preview,
    *,
    only_good: bool = False,
    update: bool = False,
    doubles: str = "",
) -> Taken:
    """Take a file in: every row, or with `only_good` those that can be read.

    Args:
        log: The log to write to.
        preview: The file as it was read.
        only_good: Whether rows that cannot be read are left out.
        update: Whether rows replace what the log says of the same entries.
        doubles: 'add' to take in rows whose day and price another entry has; else they stay out.

    Raises:
        InputError: when a question is open, or a row is bad and `only_good` is not said;
            then nothing was taken in.
        StoreError: when the log cannot be written; then nothing was taken in.
    """
    if preview.open:
        raise InputError(preview.open.says, preview.file, preview.open.mend)
    if preview.bad and not only_good:
        first = preview.bad[0]
        raise InputError(
            f"{len(preview.bad)} of {len(preview.bad) + len(preview.entries)} rows cannot be "
            f"read, first row {first.number} ({first.reason.rstrip('.')})",
            preview.file,
            "Nothing was imported. Correct the rows, or import only the good rows: --only-good.",
        )
    fields = {each.field for each in preview.columns}
    told = frozenset(ATTRIBUTES) if fields >= set(ATTRIBUTES) else frozenset(fields & set(TARGETS))
    return take_in(
        log, preview.entries, keys=preview.keys, update=update, told=told, doubles=doubles
    )


def _samples(found: SheetTable, width: int) -> tuple[tuple[str, ...], ...]:
    """The first different cells of each column."""
    return tuple(sample_cells(found.rows, place) for place in range(width))


def sample_cells(rows: Sequence[Row], place: int) -> tuple[str, ...]:
    """The first different cells of a column."""
    cells = (row[place].strip() for _, row in rows if place < len(row))
    seen: dict[str, None] = {}
    for cell in cells:
        if cell:
            seen.setdefault(sheet_cells.shortened(cell))
        if len(seen) == SAMPLES:
            break
    return tuple(seen)
