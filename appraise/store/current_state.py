"""What the log shows now: prices on the shelf, all other records in the drawer.

Both are made from the revisions and follow each act that writes some.
"""

import sqlite3
from collections.abc import Iterable

from appraise.records.entry import Entry
from appraise.records.fields import Record
from appraise.records.record_types import PRICE, from_text, type_of
from appraise.store import entry_index, record_index
from appraise.store.faults import as_kept
from appraise.store.revisions import Revision, current


def follow(connection: sqlite3.Connection, revisions: Iterable[Revision]) -> None:
    """Show what these revisions, each the current one of its record, say."""
    prices: list[tuple[str, Entry]] = []
    others: list[tuple[str, str, str]] = []
    gone: list[str] = []
    for each in revisions:
        if each.body is None:
            gone.append(each.entry)
        elif type_of(each.body) != PRICE:
            others.append((each.entry, each.body, each.id))
        else:
            prices.append((each.id, entry_index.stored(each.body, each.entry)))
    entry_index.take(connection, (*gone, *(entry for entry, _, _ in others)))
    record_index.take(connection, (*gone, *(entry.id for _, entry in prices)))
    entry_index.put(connection, prices)
    record_index.put(connection, others)


def renew(connection: sqlite3.Connection, entries: Iterable[str]) -> None:
    """Show these records as their revisions say."""
    found = (current(connection, each) for each in entries)
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
