"""The drawer: what the log keeps beside its prices, by sort.

It holds nothing that the revisions do not, and is kept by the transaction that writes them.
"""

import sqlite3
from collections.abc import Iterable

from appraise.records.record_types import type_of


def put(connection: sqlite3.Connection, shown: Iterable[tuple[str, str, str]]) -> None:
    """Show records, each as its id, its text, and the id of the revision that says so."""
    connection.executemany(
        "INSERT OR REPLACE INTO drawer (entry, sort, number) "
        "SELECT ?1, ?2, (SELECT number FROM revision WHERE id = ?3)",
        ((entry, type_of(body), revision) for entry, body, revision in shown),
    )


def take(connection: sqlite3.Connection, ids: Iterable[str]) -> None:
    """Show these records no longer."""
    connection.executemany("DELETE FROM drawer WHERE entry = ?", ((each,) for each in ids))


def of_type(connection: sqlite3.Connection, sort: str) -> list[tuple[str, str]]:
    """Id and text of each record of a sort, the one begun first in front."""
    sql = (
        "SELECT drawer.entry, revision.body FROM drawer JOIN revision USING (number) "
        "WHERE sort = ? ORDER BY "
        "(SELECT min(stamp) FROM revision WHERE revision.entry = drawer.entry), drawer.entry"
    )
    return connection.execute(sql, (sort,)).fetchall()
