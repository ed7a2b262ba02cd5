"""The one way to write: a connection set up for durability, and nested transactions."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from appraise.store import held

WAIT_SECONDS = 10.0


def connect(path: Path, *, wait_seconds: float = WAIT_SECONDS) -> sqlite3.Connection:
    """A connection to an existing SQLite file; each commit is on the disk when it returns.

    With a write-ahead log, readers and the one writer do not wait for each other;
    `synchronous=FULL` syncs that log at every commit (sqlite.org/pragma.html), and
    `cell_size_check` finds damaged pages before they are written to.

    `wait_seconds`: how long to wait for another program's write before giving up.

    Raises:
        sqlite3.Error: when the file cannot be opened or is no database.
    """
    connection = held.connect(path, "mode=rw", wait_seconds=wait_seconds)
    try:
        connection.execute("PRAGMA journal_mode = WAL")
        connection.execute("PRAGMA synchronous = FULL")
        connection.execute("PRAGMA foreign_keys = ON")
        connection.execute("PRAGMA cell_size_check = ON")
        connection.execute("PRAGMA trusted_schema = OFF")
    except BaseException:
        connection.close()
        raise
    return connection


@contextmanager
def transaction(connection: sqlite3.Connection) -> Iterator[None]:
    """All or nothing: the outermost block is BEGIN IMMEDIATE, a nested one a savepoint.

    BEGIN IMMEDIATE takes the write lock first, so two writers queue instead of failing
    half-way. An error inside undoes the block and goes on unchanged: the clean-up never
    hides it. SQLite itself rolls back on a full disk; then nothing is left to undo.
    """
    nested = connection.in_transaction
    connection.execute("SAVEPOINT step" if nested else "BEGIN IMMEDIATE")
    try:
        yield
        connection.execute("RELEASE step" if nested else "COMMIT")
    except BaseException:
        if connection.in_transaction:
            with suppress(sqlite3.Error):
                connection.execute("ROLLBACK TO step" if nested else "ROLLBACK")
                if nested:
                    connection.execute("RELEASE step")
        raise


@contextmanager
def snapshot(connection: sqlite3.Connection) -> Iterator[None]:
    """Several reads of one and the same state; inside a transaction it changes nothing."""
    if connection.in_transaction:
        yield
        return
    connection.execute("BEGIN DEFERRED")
    try:
        yield
    finally:
        if connection.in_transaction:
            with suppress(sqlite3.Error):
                connection.execute("ROLLBACK")
