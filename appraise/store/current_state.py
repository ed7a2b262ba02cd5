"""What every record of the log is now, with the columns that filters and sorting of prices need.

It holds nothing that the revisions do not, and is kept by the transaction that writes them: a row
of `shelf` for each price, one of `drawer` for each other record.
"""

import re
import sqlite3
from collections.abc import Iterable, Mapping
from itertools import islice

from appraise.base.errors import InputError
from appraise.base.logday import sorting
from appraise.base.money import Money
from appraise.base.oneline import folded
from appraise.records.entry import Entry
from appraise.records.fields import Record
from appraise.records.record_types import from_text, type_of
from appraise.store import revisions
from appraise.store.faults import DamageError, as_kept
from appraise.store.revisions import ActTime, Change, Revision

COLUMNS = (
    "entry, record, date, channel, kind, process, housing, format, subject, appeal, "
    "own_work, pictures, price, currency, title, motif, venue, words, quality, identified, maker, "
    "until"
)
_COUNT = len(COLUMNS.split(","))
_PUT = (
    f"INSERT OR REPLACE INTO shelf ({COLUMNS}, number, added) SELECT "
    f"{', '.join(f'?{place}' for place in range(1, _COUNT + 1))}, "
    f"(SELECT number FROM revision WHERE id = ?{_COUNT + 1}), "
    f"(SELECT min(stamp) FROM revision WHERE entry = ?1)"
)
_PUT_NEW = f"INSERT INTO shelf ({COLUMNS}, number, added) VALUES ({', '.join('?' * (_COUNT + 2))})"
_PUT_OTHER = (
    "INSERT OR REPLACE INTO drawer (entry, sort, number) "
    "SELECT ?1, ?2, (SELECT number FROM revision WHERE id = ?3)"
)
# ISO 4217 knows at most three decimals: thousandths compare amounts of all currencies.
_THOUSANDTHS = 1_000
_PART = 2_000  # changes written at once
_REF = re.compile(r"[0-9a-f]{1,16}\Z")


def write(
    connection: sqlite3.Connection,
    now: ActTime,
    kind: str,
    changes: Iterable[Change],
    target: str = "",
    known: Mapping[str, Record] | None = None,
) -> None:
    """Append one act of changes, some thousands at once, and show what they say.

    Args:
        connection: Inside a writing transaction.
        now: When and where it happens.
        kind: What is done, as `Revision.kind` has it.
        changes: What becomes of each record, each changed once; gone through twice.
        target: As `Revision.target` has it.
        known: Records that are at hand, so that their texts need not be read again; under the ids.
    """
    act = revisions.act_of(now, kind, changes, target)
    rest = iter(changes)
    while part := list(islice(rest, _PART)):
        made = revisions.made_of_act(now, kind, part, target, act)
        last = revisions.insert(connection, made)
        first = last - len(made) + 1
        new = [
            (each.entry, *each.row[1:], first + place, now.stamp)
            for place, each in enumerate(part)
            if each.row is not None
        ]
        connection.executemany(_PUT_NEW, new)
        if len(new) < len(part):
            old = (one for one, each in zip(made, part, strict=True) if each.row is None)
            follow(connection, old, known or {})


def follow(
    connection: sqlite3.Connection,
    written: Iterable[Revision],
    known: Mapping[str, Record] | None = None,
) -> None:
    """Show what these revisions, each the current one of its record, say."""
    prices: list[tuple[object, ...]] = []
    others: list[tuple[str, str, str]] = []
    gone: list[str] = []
    for each in written:
        if each.body is None:
            gone.append(each.entry)
            continue
        thing = (known or {}).get(each.entry) or kept(each.body, each.entry)
        if isinstance(thing, Entry):
            prices.append((each.entry, *row(thing)[1:], each.id))
        else:
            others.append((each.entry, type_of(each.body), each.id))
    off_shelf = (*gone, *(entry for entry, _, _ in others))
    off_drawer = (*gone, *(str(entry) for entry, *_ in prices))
    connection.executemany("DELETE FROM shelf WHERE entry = ?", ((each,) for each in off_shelf))
    connection.executemany("DELETE FROM drawer WHERE entry = ?", ((each,) for each in off_drawer))
    if prices:  # a step from an older log writes other records before the columns are all there
        connection.executemany(_PUT, prices)
    connection.executemany(_PUT_OTHER, others)


def renew(connection: sqlite3.Connection, entries: Iterable[str]) -> None:
    """Show these records as their revisions say."""
    found = (revisions.current(connection, each) for each in entries)
    follow(connection, [each for each in found if each is not None])


def rebuild(connection: sqlite3.Connection) -> None:
    """Show everything anew from the revisions."""
    connection.execute("DELETE FROM shelf")
    connection.execute("DELETE FROM drawer")
    rows = connection.execute("SELECT DISTINCT entry FROM revision").fetchall()
    renew(connection, [entry for (entry,) in rows])


def kept(body: str, entry: str) -> Record:
    """The price or other record that the log keeps under an id.

    Raises:
        DamageError: when the text is not one that the log can have written.
    """
    with as_kept():
        return from_text(body, entry)


def price(body: str, entry: str) -> Entry:
    """The price that the log keeps under an id; errors as in `kept`."""
    found = kept(body, entry)
    if not isinstance(found, Entry):
        raise DamageError
    return found


def of_type(connection: sqlite3.Connection, sort: str) -> list[tuple[str, str]]:
    """Id and text of each record of a type, the one begun first in front."""
    sql = (
        "SELECT drawer.entry, revision.body FROM drawer JOIN revision USING (number) "
        "WHERE sort = ? ORDER BY "
        "(SELECT min(stamp) FROM revision WHERE revision.entry = drawer.entry), drawer.entry"
    )
    return connection.execute(sql, (sort,)).fetchall()


def row(entry: Entry) -> tuple[object, ...]:
    """The columns of one price but for `number` and `added`, which its revisions give."""
    amount = entry.price
    first, last = sorting(entry.date)
    return (
        entry.id,
        entry.record,
        first,
        entry.channel,
        entry.kind,
        entry.process,
        entry.housing,
        entry.format,
        " ".join(entry.subjects),
        entry.appeal,
        int(entry.own_work),
        len(entry.pictures),
        thousandths(amount) if amount else None,
        amount.currency if amount else "",
        folded(entry.title),
        folded(entry.motif),
        folded(entry.venue),
        words(entry),
        entry.quality,
        entry.identified,
        folded(entry.maker),
        last,
    )


def thousandths(money: Money) -> int:
    """An amount in thousandths of its unit: whole for every ISO 4217 currency."""
    return int(money.amount * _THOUSANDTHS)


def words(entry: Entry) -> str:
    """All that a word of a filter may match, folded, with a space at either end."""
    said = (entry.title, entry.motif, entry.venue, entry.note)
    taken = (entry.record, entry.channel, entry.kind, entry.process, entry.housing, entry.format)
    parts = (*said, *taken, *entry.subjects, entry.maker)
    return f" {folded(' '.join(part for part in parts if part))} "


def found(connection: sqlite3.Connection, ref: str) -> str:
    """The id of the one price that the log shows whose id begins with `ref`.

    Raises:
        InputError: when there is none, or more than one.
    """
    return _only(connection, "shelf", ref)


def met(connection: sqlite3.Connection, ref: str) -> str:
    """The same among all records that were ever in the log."""
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
        raise no_entry(ref)
    known = ", ".join(entry for (entry,) in rows[:3])
    raise InputError(f"'{ref}' begins more than one id ({known})", mend="Write more of it.")


def no_entry(ref: str) -> InputError:
    """That there is no such entry."""
    return InputError(f"no entry '{ref}' in the log", mend="See 'appraise log list'.")
