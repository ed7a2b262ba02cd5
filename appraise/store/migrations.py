"""The log's tables, as named steps in order; each step and its record are one transaction."""

import datetime as dt
import json
import sqlite3
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Any

from appraise.base.dataclass import dataclass
from appraise.base.errors import StoreError
from appraise.base.oneline import folded
from appraise.store.current_state import follow
from appraise.store.revisions import ActTime, Change, insert, made, named, record_id
from appraise.store.transaction import transaction

SETTINGS = ("base_currency", "book")
"""Settings of older logs that are records now."""
_EPOCH = dt.date(1970, 1, 1)
_DAY = 86_400_000_000  # microseconds
_ENCODE = json.JSONEncoder(ensure_ascii=False, sort_keys=True, separators=(",", ":")).encode

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
# `date` is the first day that an entry may be of, `until` the last; both empty where unknown.
_PARTIAL_DAYS = (
    "ALTER TABLE shelf ADD COLUMN until TEXT NOT NULL DEFAULT ''",
    "UPDATE shelf SET until = date",
)


def settings_as_records(connection: sqlite3.Connection) -> None:
    """Venues, rates and the base currency, which were settings, as records with a history.

    Two logs that knew the same venue in the same words begin it alike, so that a merge finds one;
    where the words differ, those that were checked later show.
    """
    for name, value in connection.execute("SELECT name, value FROM setting").fetchall():
        for sort, key, told, day in _told(name, value):
            text = _ENCODE({"holding": {sort: told}})
            when = ActTime((day - _EPOCH).days * _DAY, f"{day}T00:00:00.000000Z", "")
            made_ = made(when, "add", [Change(record_id(sort, key), "", text)])
            new = [one for one in made_ if named(connection, one.id) is None]
            insert(connection, new)
            follow(connection, new)
        connection.execute("DELETE FROM setting WHERE name = ?", (name,))


def _told(name: str, value: str) -> Iterator[tuple[str, str, dict[str, Any], dt.date]]:
    """The records of a setting: their type, key, fields, and the day that they tell."""
    if name == "base_currency":
        yield "currency", "base", {"code": value}, _EPOCH
    try:
        book = json.loads(value) if name == "book" else {}
    except ValueError:
        return
    if not isinstance(book, dict):
        return
    venues, rates = book.get("houses"), book.get("rates")
    for called, texts in venues.items() if isinstance(venues, dict) else ():
        if isinstance(texts, dict):
            yield "venue", folded(called), {**texts, "name": called}, _day(texts.get("checked"))
    for row in rates if isinstance(rates, list) else ():
        if isinstance(row, dict) and {"currency", "base", "on"} <= row.keys():
            kept = {key: each for key, each in row.items() if each}
            yield "rate", f"{row['currency']} {row['base']} {row['on']}", kept, _day(row["on"])


def _day(text: object) -> dt.date:
    try:
        return max(_EPOCH, dt.date.fromisoformat(str(text)))
    except ValueError:
        return _EPOCH


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
    Migration("venues as records", settings_as_records),
    Migration("partial days", statements(*_PARTIAL_DAYS)),
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
