"""Finding entries: the filter line over the shelf, in SQL."""

import sqlite3
from dataclasses import dataclass

from appraise.base.money import Money
from appraise.log.faults import as_kept
from appraise.log.query import order, where


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


def summarise(connection: sqlite3.Connection, query: str) -> Summary:
    """Count and prices of all that a filter finds, by currency, the most frequent first.

    Raises:
        InputError: when the filter cannot be understood.
    """
    condition = where(query)
    sql = (
        f"WITH priced AS (SELECT currency, price, row_number() OVER "
        f"(PARTITION BY currency ORDER BY price) AS place, "
        f"count(*) OVER (PARTITION BY currency) AS many FROM shelf "
        f"WHERE price IS NOT NULL AND {condition.sql}) "
        f"SELECT currency, many, sum(price), max(price) FILTER (WHERE place = (many + 1) / 2) "
        f"FROM priced GROUP BY currency ORDER BY many DESC, currency"
    )
    rows = connection.execute(sql, condition.values).fetchall()
    (count,) = connection.execute(
        f"SELECT count(*) FROM shelf WHERE {condition.sql}", condition.values
    ).fetchone()
    with as_kept():
        sums = tuple(
            Sum(many, _money(total, currency), _money(middle, currency))
            for currency, many, total, middle in rows
        )
    return Summary(count, sums)


def _money(thousandths: int, currency: str) -> Money:
    return Money.parse(f"{thousandths // 1000}.{thousandths % 1000:03d}", currency)
