"""Revisions: the append-only record of what every entry was, when and on which machine.

Each change writes the whole entry again. Revisions of one act (one edit, one import)
share a stamp. Stamps are hybrid logical clocks (Kulkarni and others, 2014, "Logical
Physical Clocks"): the wall clock where it runs forward, one microsecond more than the
latest stamp where it does not, so what was written later also sorts later.
A revision names the revisions it replaces and is named by a digest of all it says:
equal revisions of two logs are one, and a merge is a union of sets.
"""

import datetime as dt
import json
import sqlite3
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import astuple
from operator import attrgetter

from appraise.base.dataclass import dataclass
from appraise.store.faults import as_kept

Clock = Callable[[], dt.datetime]

_EPOCH = dt.datetime(1970, 1, 1, tzinfo=dt.UTC)
_MICROSECOND = dt.timedelta(microseconds=1)
_ENCODE = json.JSONEncoder(ensure_ascii=False, separators=(",", ":")).encode
COLUMNS = "id, entry, act, stamp, time, machine, kind, target, parents, body"
_ROW = attrgetter(*COLUMNS.split(", "))
NEWEST = "ORDER BY stamp DESC, machine DESC, id DESC"


@dataclass(frozen=True, slots=True)
class Revision:
    """What an entry became by one act.

    Attributes:
        id: Digest of all the rest, 32 hexadecimal digits.
        act: What was done at once shares an act, 32 hexadecimal digits.
        stamp: Place in the order of things, microseconds since 1970.
        time: What the clock said, ISO 8601 in UTC.
        kind: add, edit, delete, undo, redo, settle or import.
        target: For undo and redo the act concerned, for add the draft that was logged, else empty.
        parents: Ids of the revisions that this one replaces, separated by spaces.
        body: The entry as JSON text without its id; None when it was removed.
    """

    id: str
    entry: str
    act: str
    stamp: int
    time: str
    machine: str
    kind: str
    target: str
    parents: str
    body: str | None

    @property
    def order(self) -> tuple[int, str, str]:
        """Later revisions sort higher, the same way on every machine."""
        return (self.stamp, self.machine, self.id)


@dataclass(frozen=True, slots=True)
class Change:
    """What an act makes of one entry.

    Attributes:
        parents: Ids of the revisions that are replaced.
        body: The new text; None: it is removed.
        row: Of a price that the log never met, how it is shown, as `current_state.row` has it.
    """

    entry: str
    parents: str
    body: str | None
    row: tuple[object, ...] | None = None


@dataclass(frozen=True, slots=True)
class ActTime:
    """When and where an act happens."""

    stamp: int
    time: str
    machine: str


def digest(*parts: object) -> str:
    """A name of 32 hexadecimal digits for a sequence of JSON values."""
    from hashlib import sha256  # 3 ms, and only to write

    return sha256(_ENCODE(parts).encode()).hexdigest()[:32]


def record_id(name: str, key: str) -> str:
    """The id that every log gives to the one record of a type with a key."""
    return digest(name, key)[:16]


def revision_id(revision: Revision) -> str:
    """The id that a revision must have, from all the rest of it."""
    return digest(*astuple(revision)[1:])


def iso(time: dt.datetime) -> str:
    """A clock's answer as ISO 8601 text in UTC, to the microsecond."""
    return time.astimezone(dt.UTC).strftime("%Y-%m-%dT%H:%M:%S.%fZ")


def moment(connection: sqlite3.Connection, clock: Clock, machine: str) -> ActTime:
    """Now, later than all that the log holds. Call it inside the writing transaction."""
    time = clock().astimezone(dt.UTC)
    (latest,) = connection.execute("SELECT max(stamp) FROM revision").fetchone()
    stamp = (time - _EPOCH) // _MICROSECOND
    with as_kept():
        stamp = stamp if latest is None else max(stamp, latest + 1)
    return ActTime(stamp, iso(time), machine)


def made(now: ActTime, kind: str, changes: Sequence[Change], target: str = "") -> list[Revision]:
    """The revisions of one act, one for each change, in order."""
    return made_of_act(now, kind, changes, target, act_of(now, kind, changes, target))


def act_of(now: ActTime, kind: str, changes: Iterable[Change], target: str = "") -> str:
    """The name of an act: a digest of all that it changes, read one change after the other."""
    from hashlib import sha256

    bodies, between = sha256(b"["), ""
    for each in changes:
        bodies.update(f"{between}{_ENCODE((each.entry, each.body))[1:-1]}".encode())
        between = ","
    bodies.update(b"]")
    return digest(now.stamp, now.machine, kind, target, bodies.hexdigest()[:32])


def made_of_act(
    now: ActTime, kind: str, changes: Iterable[Change], target: str, act: str
) -> list[Revision]:
    """The revisions of some of the changes of an act."""
    shared = (act, now.stamp, now.time, now.machine, kind, target)
    return [
        Revision(
            digest(each.entry, *shared, each.parents, each.body),
            each.entry,
            *shared,
            each.parents,
            each.body,
        )
        for each in changes
    ]


def insert(connection: sqlite3.Connection, revisions: Iterable[Revision]) -> int:
    """Append revisions and say the last one's number.

    The caller holds the transaction and brings the shelf up to date.
    """
    connection.executemany(
        f"INSERT INTO revision ({COLUMNS}) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        map(_ROW, revisions),
    )
    (last,) = connection.execute("SELECT max(number) FROM revision").fetchone()
    return int(last or 0)


def last(connection: sqlite3.Connection) -> tuple[int, str]:
    """Number and id of the revision written last; 0 and '' where there is none."""
    row = connection.execute("SELECT number, id FROM revision ORDER BY number DESC LIMIT 1")
    return row.fetchone() or (0, "")


CHANGED = "SELECT DISTINCT entry FROM revision WHERE number > ?"


def changed_since(connection: sqlite3.Connection, number: int, newest: str) -> set[str] | None:
    """The records changed since that revision was the last; None where it is not of this log.

    Revisions are never removed, so that a log that has the last one of then under its number
    differs by what came after it.
    """
    sql = "SELECT 1 FROM revision WHERE number = ? AND id = ?"
    if not connection.execute(sql, (number, newest)).fetchone():
        return None
    return {entry for (entry,) in connection.execute(CHANGED, (number,))}


def history(connection: sqlite3.Connection, entry: str) -> tuple[Revision, ...]:
    """All revisions of an entry, newest first."""
    rows = connection.execute(f"SELECT {COLUMNS} FROM revision WHERE entry = ? {NEWEST}", (entry,))
    return tuple(Revision(*row) for row in rows)


def current(connection: sqlite3.Connection, entry: str) -> Revision | None:
    """The revision that says what an entry is now; None when it was never met."""
    known = history(connection, entry)
    with as_kept():
        return heads(known)[0] if known else None


def named(connection: sqlite3.Connection, revision: str) -> Revision | None:
    """The revision of that id."""
    sql = f"SELECT {COLUMNS} FROM revision WHERE id = ?"
    row = connection.execute(sql, (revision,)).fetchone()
    return Revision(*row) if row else None


def of_act(connection: sqlite3.Connection, act: str, stamp: int) -> Iterator[Revision]:
    """The revisions of one act one by one, in the order they were written."""
    sql = f"SELECT {COLUMNS} FROM revision WHERE stamp = ? AND act = ? ORDER BY number"
    return (Revision(*row) for row in connection.execute(sql, (stamp, act)))


def heads(revisions: Sequence[Revision]) -> tuple[Revision, ...]:
    """Of one entry's revisions those that no other replaces, newest first.

    Two machines that take in the same file begin the same entry twice, in equal words:
    what replaces one of these beginnings replaces the other too.
    """
    replaced = {parent for each in revisions for parent in each.parents.split()}
    begun = {each.body for each in revisions if not each.parents and each.id in replaced}
    open_ends = (
        each
        for each in revisions
        if each.id not in replaced and (each.parents or each.body not in begun)
    )
    return tuple(sorted(open_ends, key=lambda each: each.order, reverse=True))
