"""Finding entries: the filter line over the shelf, in SQL."""

import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from appraise.base.money import Money
from appraise.store.faults import as_kept
from appraise.store.query import order, where


@dataclass(frozen=True, slots=True)
class Sought:
    """What to show: the filter, the order and the part of the answer wanted."""

    query: str = ""
    sort: str = "-date"
    limit: int | None = None
    offset: int = 0


@dataclass(frozen=True, slots=True)
class Sum:
    """The prices of one currency among the entries found.

    Attributes:
        count: Entries that name a price in it.
        total: Their sum.
        median: Their median; of an even count the lower middle one.
    """

    count: int
    total: Money
    median: Money


@dataclass(frozen=True, slots=True)
class Summary:
    """What a list shows at its foot: how many entries, and their prices by currency."""

    count: int
    sums: tuple[Sum, ...]


def seek(connection: sqlite3.Connection, sought: Sought) -> list[tuple[str, str]]:
    """Body and id of each entry found, in order.

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
    return connection.execute(sql, (*condition.values, limit, sought.offset)).fetchall()


def place_of(connection: sqlite3.Connection, sought: Sought, entry: str) -> int | None:
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
        f"SELECT currency, price, count(*) FROM shelf WHERE {condition.sql} "
        f"GROUP BY currency, price ORDER BY currency, price"
    )
    priced: dict[str, list[tuple[int, int]]] = {}
    count = 0
    with as_kept():
        for currency, price, many in connection.execute(sql, condition.values):
            count += many
            if price is not None:
                priced.setdefault(currency, []).append((price, many))
        sums = [_sum(currency, steps) for currency, steps in priced.items()]
    return Summary(count, tuple(sorted(sums, key=lambda each: -each.count)))


def _sum(currency: str, steps: Sequence[tuple[int, int]]) -> Sum:
    """Sum and median of prices given as (thousandths, how many), the lowest first."""
    many = sum(count for _, count in steps)
    total = sum(price * count for price, count in steps)
    passed, median = 0, 0
    for price, count in steps:
        passed += count
        if 2 * passed >= many:
            median = price
            break
    return Sum(many, _money(total, currency), _money(median, currency))


def _money(thousandths: int, currency: str) -> Money:
    return Money(Decimal(thousandths).scaleb(-3), currency)
