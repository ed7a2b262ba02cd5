"""Finding entries: the filter line over the index of prices, in SQL."""

import datetime as dt
import re
import sqlite3
from collections.abc import Iterator, Sequence
from decimal import Decimal

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.base.spelling import did_you_mean
from appraise.records.filter import FilterTerm, terms
from appraise.records.quantities import span
from appraise.store.faults import as_kept

WORD_FIELDS = (
    "record", "channel", "kind", "process", "housing", "format", "subject", "identified",
    "currency",
)  # fmt: skip
TEXT_FIELDS = ("title", "motif", "maker", "venue")
RANGE_FIELDS = ("price", "date", "appeal", "quality")
SEVERAL = ("subject",)
FLAG_FIELDS = {"own": "own_work", "pictures": "pictures"}
FIELDS = (*WORD_FIELDS, *TEXT_FIELDS, *RANGE_FIELDS, *FLAG_FIELDS, "id")
SORTS = (*WORD_FIELDS, *TEXT_FIELDS, *RANGE_FIELDS, "added")

_AMOUNT = re.compile(r"[0-9]{1,12}(?:\.[0-9]{1,3})?\Z")
_DAY = re.compile(r"([0-9]{4})(?:-([0-9]{2})(?:-([0-9]{2}))?)?\Z")


@dataclass(frozen=True, slots=True)
class SqlCondition:
    """A condition in SQL over the shelf's columns, with its parameters."""

    sql: str
    values: tuple[object, ...]


def where(text: str) -> SqlCondition:
    """The whole filter as one condition; an empty filter holds always.

    Raises:
        InputError: when a field, an amount or a day cannot be understood.
    """
    return every([_condition(term) for term in terms(text, FIELDS)])


def every(conditions: Sequence[SqlCondition]) -> SqlCondition:
    """All of these hold."""
    if not conditions:
        return SqlCondition("1", ())
    sql = " AND ".join(each.sql for each in conditions)
    return SqlCondition(sql, tuple(value for each in conditions for value in each.values))


def order(sort: str) -> str:
    """An ORDER BY clause: unknown values last, ties by when they were logged.

    Raises:
        InputError: when there is no such column.
    """
    down = sort.startswith("-")
    column = sort.removeprefix("-")
    if column not in SORTS:
        raise InputError(f"cannot sort by '{column}'", mend=did_you_mean(column, SORTS))
    way = "DESC" if down else "ASC"
    last = f"{column} IS NULL, " if column in ("price", "appeal", "quality") else ""
    if sort == "date":
        last = "date = '', "  # the other way round an unknown day is the last by itself
    return f"ORDER BY {last}{column} {way}, added {way}, entry {way}"


def _condition(term: FilterTerm) -> SqlCondition:
    if not term.field:
        made = SqlCondition("instr(words, ?) > 0", (term.value,))
    elif term.value == "?":
        column = {"id": "entry", **FLAG_FIELDS}.get(term.field, term.field)
        made = SqlCondition(f"coalesce({column}, '') = ''", ())
    elif term.field in RANGE_FIELDS:
        made = _range(term)
    elif term.field in FLAG_FIELDS:
        if term.value not in ("yes", "no"):
            mend = f"Write {term.field}:yes."
            raise InputError(f"'{term.value}' is neither yes nor no", term.field, mend)
        made = SqlCondition(f"({FLAG_FIELDS[term.field]} > 0) = ?", (term.value == "yes",))
    else:
        made = _any_of(term)
    return SqlCondition(f"NOT ({made.sql})", made.values) if term.negated else made


def _any_of(term: FilterTerm) -> SqlCondition:
    choices = tuple(choice for choice in term.value.split(",") if choice) or (term.value,)
    column = {"id": "entry"}.get(term.field, term.field)
    test = f"instr({column}, ?)" + (" > 0" if term.field in TEXT_FIELDS else " = 1")
    if term.field in SEVERAL:
        test = f"instr(' ' || {column}, ' ' || ?) > 0"
    if term.field == "currency":
        choices = tuple(choice.upper() for choice in choices)
    return SqlCondition(f"({' OR '.join([test] * len(choices))})", choices)


def _range(term: FilterTerm) -> SqlCondition:
    column = term.field
    start, end = span(term.value, days=column == "date")
    low = _bound(column, start, low=True) if start else None
    high = _bound(column, end, low=False) if end else None
    if column == "date":
        parts, lower = [SqlCondition("date <> ''", ())], "until"
    else:
        parts, lower = [SqlCondition(f"{column} IS NOT NULL", ())], column
    if low is not None:
        parts.append(SqlCondition(f"{lower} >= ?", (low,)))
    if high is not None:
        parts.append(SqlCondition(f"{column} <= ?", (high,)))
    joined = every(parts)
    return SqlCondition(f"({joined.sql})", joined.values)


def _bound(field: str, text: str, *, low: bool) -> object:
    if field == "date":
        return _day(text, low=low)
    if not _AMOUNT.match(text):
        raise InputError(f"'{text}' is not a number", field, f"Write {field}:20..50.")
    if field == "quality":
        return float(Decimal(text))
    return int(Decimal(text) * 1_000) if field == "price" else int(Decimal(text))


def _day(text: str, *, low: bool) -> str:
    match = _DAY.match(text)
    if not match:
        raise InputError(f"'{text}' is not a day", "date", "Write date:2019..2021-06.")
    year, month, day = match.groups()
    written = f"{year}-{month or ('01' if low else '12')}-{day or ('01' if low else '31')}"
    try:
        dt.date.fromisoformat(f"{year}-{month or '01'}-{day or '01'}")
    except ValueError as error:
        raise InputError(f"'{text}' is not a day of the calendar", "date") from error
    return written


@dataclass(frozen=True, slots=True)
class EntryQuery:
    """What to show: the filter, the order and the part of the answer wanted."""

    query: str = ""
    sort: str = "-date"
    limit: int | None = None
    offset: int = 0


@dataclass(frozen=True, slots=True)
class PriceSum:
    """The prices of one currency among the entries found.

    Attributes:
        count: Entries that name a price in it.
        total: The sum of what was paid: asked, bid and sold are other money.
        median: Their median; of an even count the lower middle one.
    """

    count: int
    total: Money
    median: Money


@dataclass(frozen=True, slots=True)
class Summary:
    """What a list shows at its foot: how many entries, and their prices by currency."""

    count: int
    sums: tuple[PriceSum, ...]


def seek(connection: sqlite3.Connection, sought: EntryQuery) -> Iterator[tuple[str, str]]:
    """Body and id of each entry found, in order, as they are asked for.

    Raises:
        InputError: when the filter or the sort cannot be understood.
    """
    condition = where(sought.query)
    # The inner query walks narrow rows only; bodies are fetched for what is shown.
    sql = (
        f"SELECT revision.body, found.entry FROM (SELECT entry, number FROM shelf "
        f"WHERE {condition.sql} {order(sought.sort)} LIMIT ? OFFSET ?) AS found "
        f"CROSS JOIN revision ON revision.number = found.number"
    )
    limit = -1 if sought.limit is None else sought.limit
    return connection.execute(sql, (*condition.values, limit, sought.offset))


def place_of(connection: sqlite3.Connection, sought: EntryQuery, entry: str) -> int | None:
    """The place of an entry in what a filter finds, the first being 0; None when it is not there.

    Raises:
        InputError: when the filter or the sort cannot be understood.
    """
    condition = where(sought.query)
    sql = f"SELECT entry FROM shelf WHERE {condition.sql} {order(sought.sort)}"
    found = connection.execute(sql, condition.values)
    return next((place for place, (each,) in enumerate(found) if each == entry), None)


def summarise(connection: sqlite3.Connection, query: str) -> Summary:
    """Count and prices of all that a filter finds, by currency, the most frequent first.

    Raises:
        InputError: when the filter cannot be understood.
    """
    condition = where(query)
    sql = (
        f"SELECT currency, price, count(*), sum(record = 'bought') FROM shelf "
        f"WHERE {condition.sql} GROUP BY currency, price ORDER BY currency, price"
    )
    priced: dict[str, list[tuple[int, int, int]]] = {}
    count = 0
    with as_kept():
        for currency, price, many, paid in connection.execute(sql, condition.values):
            count += many
            if price is not None:
                priced.setdefault(currency, []).append((price, many, paid))
        sums = [_sum(currency, steps) for currency, steps in priced.items()]
    return Summary(count, tuple(sorted(sums, key=lambda each: -each.count)))


def _sum(currency: str, steps: Sequence[tuple[int, int, int]]) -> PriceSum:
    """Sum paid and median of prices (thousandths, how many, how many paid), the lowest first."""
    many = sum(count for _, count, _ in steps)
    total = sum(price * paid for price, _, paid in steps)
    passed, median = 0, 0
    for price, count, _ in steps:
        passed += count
        if 2 * passed >= many:
            median = price
            break
    return PriceSum(many, _money(total, currency), _money(median, currency))


def _money(thousandths: int, currency: str) -> Money:
    return Money(Decimal(thousandths).scaleb(-3), currency)
