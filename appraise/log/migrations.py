"""The log's tables, as named steps in order; each step and its record are one transaction."""

import sqlite3
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from appraise.base.errors import StoreError
from appraise.log.transaction import transaction

# "Aplg" as a big-endian number, so that `file` and we can tell a log from another database.
APPLICATION_ID = 0x41706C67

_REVISIONS = (
    """CREATE TABLE revision (
        number INTEGER PRIMARY KEY,
        id TEXT NOT NULL UNIQUE,
        entry TEXT NOT NULL,
        act TEXT NOT NULL,
        stamp INTEGER NOT NULL,
        time TEXT NOT NULL,
        machine TEXT NOT NULL,
        kind TEXT NOT NULL CHECK (
            kind IN ('add', 'edit', 'delete', 'undo', 'redo', 'settle', 'import')
        ),
        target TEXT NOT NULL,
        parents TEXT NOT NULL,
        body TEXT
    )""",
    "CREATE INDEX revision_by_entry ON revision (entry, stamp)",
    "CREATE INDEX revision_by_stamp ON revision (stamp, machine)",
    """CREATE TRIGGER revision_stays BEFORE DELETE ON revision
        BEGIN SELECT RAISE(ABORT, 'a revision is never removed'); END""",
    """CREATE TRIGGER revision_stands BEFORE UPDATE ON revision
        BEGIN SELECT RAISE(ABORT, 'a revision is never changed'); END""",
)
# In the order of a list's first look, newest day last, so that a filter reads it in one go.
_SHELF = (
    """CREATE TABLE shelf (
        date TEXT NOT NULL,
        added INTEGER NOT NULL,
        entry TEXT NOT NULL UNIQUE,
        number INTEGER NOT NULL REFERENCES revision (number),
        record TEXT NOT NULL,
        channel TEXT NOT NULL,
        kind TEXT NOT NULL,
        process TEXT NOT NULL,
        housing TEXT NOT NULL,
        format TEXT NOT NULL,
        subject TEXT NOT NULL,
        appeal INTEGER,
        own_work INTEGER NOT NULL,
        pictures INTEGER NOT NULL,
        price INTEGER,
        currency TEXT NOT NULL,
        title TEXT NOT NULL,
        motif TEXT NOT NULL,
        venue TEXT NOT NULL,
        words TEXT NOT NULL,
        PRIMARY KEY (date, added, entry)
    ) WITHOUT ROWID""",
)
_DRAFTS = (
    """CREATE TABLE draft (
        id TEXT PRIMARY KEY,
        time TEXT NOT NULL,
        text TEXT NOT NULL
    )""",
)
_SETTINGS = ("CREATE TABLE setting (name TEXT PRIMARY KEY, value TEXT NOT NULL)",)
# What the log keeps beside its prices: few, so that a sort is read whole.
_DRAWER = (
    """CREATE TABLE drawer (
        entry TEXT PRIMARY KEY,
        sort TEXT NOT NULL,
        number INTEGER NOT NULL REFERENCES revision (number)
    ) WITHOUT ROWID""",
)
# What the price model reads beside: image quality, how well a sitter is identified, the maker.
_FEATURES = (
    "ALTER TABLE shelf ADD COLUMN quality REAL",
    "ALTER TABLE shelf ADD COLUMN identified TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE shelf ADD COLUMN maker TEXT NOT NULL DEFAULT ''",
    """UPDATE shelf SET identified = coalesce((SELECT CASE json_type(body, '$.identified')
        WHEN 'true' THEN 'name' WHEN 'false' THEN 'no' END
        FROM revision WHERE revision.number = shelf.number), '')""",
)


@dataclass(frozen=True, slots=True)
class Migration:
    """One step from an older log to a newer one.

    Attributes:
        name: What it brings; recorded in the log when it is done, so never renamed.
        run: Changes the tables by statements that join the surrounding transaction.
    """

    name: str
    run: Callable[[sqlite3.Connection], None]


def statements(*texts: str) -> Callable[[sqlite3.Connection], None]:
    """A step that executes some statements in order."""

    def run(connection: sqlite3.Connection) -> None:
        for text in texts:
            connection.execute(text)

    return run


MIGRATIONS: tuple[Migration, ...] = (
    Migration("revisions", statements(*_REVISIONS)),
    Migration("shelf", statements(*_SHELF)),
    Migration("drafts", statements(*_DRAFTS)),
    Migration("settings", statements(*_SETTINGS)),
    Migration("drawer", statements(*_DRAWER)),
    Migration("features", statements(*_FEATURES)),
)


def applied(connection: sqlite3.Connection) -> tuple[str, ...]:
    """Names of the steps that a log has been through, in order; reads only."""
    known = connection.execute("SELECT 1 FROM sqlite_master WHERE name = 'migration'").fetchone()
    if not known:
        return ()
    rows = connection.execute("SELECT name FROM migration ORDER BY number").fetchall()
    return tuple(name for (name,) in rows)


def pending(
    connection: sqlite3.Connection, path: Path, steps: Sequence[Migration] = MIGRATIONS
) -> tuple[Migration, ...]:
    """The steps still to do; reads only.

    Raises:
        StoreError: when the log has been through a step that is not known here.
    """
    done = applied(connection)
    version: int = connection.execute("PRAGMA user_version").fetchone()[0]
    if version > len(steps) or done != tuple(step.name for step in steps[: len(done)]):
        raise StoreError(
            f"the log is of version {max(version, len(done))}, this program reads "
            f"up to {len(steps)}",
            str(path),
            "Use a newer appraise; nothing was changed.",
        )
    return tuple(steps[len(done) :])


def migrate(
    connection: sqlite3.Connection,
    path: Path,
    time: str,
    steps: Sequence[Migration] = MIGRATIONS,
) -> tuple[str, ...]:
    """Bring the log up to date, one transaction a step; says which steps were done.

    Each look at what is pending happens under the write lock, so two programs that start
    at once never run a step twice.

    Raises:
        StoreError: when the log is newer than this program.
    """
    done: list[str] = []
    while pending(connection, path, steps):
        with transaction(connection):
            step = next(iter(pending(connection, path, steps)), None)
            if step is None:
                break
            connection.execute(
                "CREATE TABLE IF NOT EXISTS migration "
                "(number INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE, time TEXT NOT NULL)"
            )
            step.run(connection)
            connection.execute(
                "INSERT INTO migration (name, time) VALUES (?, ?)", (step.name, time)
            )
            count = len(applied(connection))
            connection.execute(f"PRAGMA user_version = {count}")
            connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
            done.append(step.name)
    return tuple(done)
