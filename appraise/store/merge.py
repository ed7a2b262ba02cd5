"""Two logs made one: the union of their revisions, and the edits that do not agree.

A union of sets is the same whichever log comes first and however often it is done.
Where two machines changed one entry, the later change shows and the other stays in the
history; both are told until one is settled on.
"""

import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import closing
from itertools import islice
from pathlib import Path

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.store import current_state, pictures, revisions
from appraise.store.backup import back_up
from appraise.store.faults import as_kept, damaged, faults_told
from appraise.store.files import duplicate, inspect, workshop
from appraise.store.log import Log
from appraise.store.migrations import migrate
from appraise.store.packing import unpacked
from appraise.store.revisions import COLUMNS, Change, Revision, revision_id
from appraise.store.transaction import connect

_PART = 2_000  # revisions written at once


@dataclass(frozen=True, slots=True)
class Conflict:
    """An entry that two machines left in different states.

    Attributes:
        versions: The revisions that do not agree; the first is the one that shows.
    """

    entry: str
    versions: tuple[Revision, ...]


@dataclass(frozen=True, slots=True)
class Merged:
    """What a merge brought.

    Attributes:
        revisions: How many revisions were new here.
        entries: Ids of the entries they concern.
        pictures: How many pictures were new here.
        conflicts: Those of the entries that now have more than one version.
    """

    revisions: int
    entries: tuple[str, ...]
    pictures: int
    conflicts: tuple[Conflict, ...]


def merge(log: Log, other: Path) -> Merged:
    """Take in all that another log knows; the other log is only read.

    `other`: the file of the other log or of its backup, of this version or an older one.

    Raises:
        StoreError: when the other log is damaged, foreign or newer, or either cannot be
            used; then nothing was changed.
    """
    time = revisions.iso(log.clock())
    with unpacked(other, log.path) as plain, faults_told(other):
        inspect(plain)
        with workshop(log.path) as place:
            copy = place / "other.sqlite"
            duplicate(plain, copy)
            with closing(connect(copy)) as source:
                migrate(source, other, time)
                for _ in _genuine(_lacking(log, source), other):
                    pass  # all of it is looked at before anything is written
                back_up(log.path, time, "merge")
                added = pictures.copy_missing(other.parent, log.path.parent)
                with log.transaction():
                    many, entries = _take(log, source)
    return Merged(many, entries, added, conflicts(log, entries))


def _take(log: Log, source: sqlite3.Connection) -> tuple[int, tuple[str, ...]]:
    """Write what the other log has and this one lacks, some thousands at once."""
    many, entries, found = 0, dict[str, None](), _lacking(log, source)
    while part := list(islice(found, _PART)):
        revisions.insert(log.connection, part)
        entries.update(dict.fromkeys(each.entry for each in part))
        many += len(part)
    rest = iter(entries)
    while some := list(islice(rest, _PART)):
        current_state.renew(log.connection, some)
    return many, tuple(entries)


def conflicts(log: Log, among: Iterable[str] | None = None) -> tuple[Conflict, ...]:
    """The entries with more than one version, all or among some, by id."""
    found = []
    with log.snapshot():
        for entry in _branched(log.connection) if among is None else sorted(among):
            ends = revisions.heads(revisions.history(log.connection, entry))
            if len({each.body for each in ends}) > 1:
                found.append(Conflict(entry, ends))
    return tuple(found)


def settle(log: Log, entry: str, revision: str) -> None:
    """Choose one of an entry's versions; the others stay in the history.

    `revision`: id of the version, or a unique beginning of it.

    Raises:
        InputError: when the entry has no such version.
    """
    with log.transaction():
        ends = revisions.heads(revisions.history(log.connection, entry))
        chosen = [each for each in ends if each.id.startswith(revision)]
        if len(chosen) != 1:
            known = ", ".join(each.id[:8] for each in ends)
            raise InputError(f"'{revision}' is not one version of {entry}", "", f"Known: {known}")
        parents = " ".join(each.id for each in ends)
        log.write("settle", [Change(entry, parents, chosen[0].body)])


def _lacking(log: Log, source: sqlite3.Connection) -> Iterator[Revision]:
    rows = source.execute(f"SELECT {COLUMNS} FROM revision ORDER BY number")
    sql = "SELECT 1 FROM revision WHERE id = ?"
    return (Revision(*row) for row in rows if not log.connection.execute(sql, row[:1]).fetchone())


def _genuine(found: Iterable[Revision], other: Path) -> Iterator[Revision]:
    """Let through revisions that are what their ids say; anything else is damage."""
    for each in found:
        if revision_id(each) != each.id:
            raise damaged(other)
        if each.body is not None:
            with as_kept():
                current_state.kept(each.body, each.entry)
        yield each


def _branched(connection: sqlite3.Connection) -> list[str]:
    """Entries whose revisions are more than one chain: only these can have two ends."""
    sql = (
        "SELECT entry FROM revision GROUP BY entry "
        "HAVING count(*) > count(DISTINCT nullif(parents, '')) + 1 ORDER BY entry"
    )
    return [entry for (entry,) in connection.execute(sql)]
