"""The shelf: what every entry is now, with the columns that filters and sorting need.

It holds nothing that the revisions do not, and is kept by the transaction that writes them.
"""

import re
import sqlite3
from collections.abc import Iterable, Sequence

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.base.oneline import folded
from appraise.records.entry import Entry
from appraise.records.record_types import from_text
from appraise.store.faults import DamageError, as_kept

COLUMNS = (
    "entry, record, date, channel, kind, process, housing, format, subject, appeal, "
    "own_work, pictures, price, currency, title, motif, venue, words, quality, identified, maker"
)
_COUNT = len(COLUMNS.split(","))
_PLACES = ", ".join(f"?{place}" for place in range(1, _COUNT + 1))
# ISO 4217 knows at most three decimals: thousandths compare amounts of all currencies.
_THOUSANDTHS = 1_000
_REF = re.compile(r"[0-9a-f]{1,16}\Z")


def put(connection: sqlite3.Connection, shown: Iterable[tuple[str, Entry]]) -> None:
    """Show entries, each with the id of the revision that says what it is now."""
    sql = (
        f"INSERT OR REPLACE INTO shelf ({COLUMNS}, number, added) SELECT {_PLACES}, "
        f"(SELECT number FROM revision WHERE id = ?{_COUNT + 1}), "
        f"(SELECT min(stamp) FROM revision WHERE entry = ?1)"
    )
    connection.executemany(sql, ((*row(entry), revision) for revision, entry in shown))


def put_new(
    connection: sqlite3.Connection, entries: Sequence[Entry], last: int, stamp: int
) -> None:
    """Show entries whose only revisions are the latest rows, in order, up to number `last`."""
    first = last - len(entries) + 1
    connection.executemany(
        f"INSERT INTO shelf ({COLUMNS}, number, added) VALUES ({', '.join('?' * (_COUNT + 2))})",
        ((*row(each), first + place, stamp) for place, each in enumerate(entries)),
    )


def take(connection: sqlite3.Connection, ids: Iterable[str]) -> None:
    """Show these entries no longer."""
    connection.executemany("DELETE FROM shelf WHERE entry = ?", ((each,) for each in ids))


def stored(body: str, entry: str) -> Entry:
    """The entry that the log keeps under an id.

    Raises:
        DamageError: when the text is not one that the log can have written.
    """
    with as_kept():
        found = from_text(body, entry)
    if not isinstance(found, Entry):
        raise DamageError
    return found


def row(entry: Entry) -> tuple[object, ...]:
    """The columns of one entry but for `number` and `added`, which its revisions give."""
    price = entry.price
    return (
        entry.id,
        entry.record,
        entry.date.isoformat(),
        entry.channel,
        entry.kind,
        entry.process,
        entry.housing,
        entry.format,
        " ".join(entry.subjects),
        entry.appeal,
        int(entry.own_work),
        len(entry.pictures),
        thousandths(price) if price else None,
        price.currency if price else "",
        folded(entry.title),
        folded(entry.motif),
        folded(entry.venue),
        words(entry),
        entry.quality,
        entry.identified,
        folded(entry.maker),
    )


def thousandths(money: Money) -> int:
    """An amount in thousandths of its unit: whole for every ISO 4217 currency."""
    return int(money.amount * _THOUSANDTHS)


def words(entry: Entry) -> str:
    """All that a word of a filter may match, folded, with a space at either end."""
    parts = (
        entry.title,
        entry.motif,
        entry.venue,
        entry.note,
        entry.record,
        entry.channel,
        entry.kind,
        entry.process,
        entry.housing,
        entry.format,
        *entry.subjects,
        entry.maker,
    )
    return f" {folded(' '.join(part for part in parts if part))} "


def found(connection: sqlite3.Connection, ref: str) -> str:
    """The id of the one entry on the shelf that begins with `ref`.

    Raises:
        InputError: when there is none, or more than one.
    """
    return _only(connection, "shelf", ref)


def met(connection: sqlite3.Connection, ref: str) -> str:
    """The same among all entries that were ever in the log.

    Raises:
        InputError: when there is none, or more than one.
    """
    return _only(connection, "revision", ref)


def _only(connection: sqlite3.Connection, table: str, ref: str) -> str:
    start = ref.strip().lower()
    rows: list[tuple[str]] = []
    if _REF.match(start):
        sql = f"SELECT DISTINCT entry FROM {table} WHERE entry BETWEEN ? AND ? LIMIT 4"
        rows = connection.execute(sql, (start, start + "g")).fetchall()
    if len(rows) == 1:
        return rows[0][0]
    if not rows:
        raise InputError(f"no entry '{ref}' in the log", mend="See 'appraise log list'.")
    known = ", ".join(entry for (entry,) in rows[:3])
    raise InputError(f"'{ref}' begins more than one id ({known})", mend="Write more of it.")
