"""The open log: entries, their history, drafts and the base currency."""

import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from types import TracebackType
from typing import Self

from appraise.base.errors import InputError
from appraise.records.entry import Entry
from appraise.records.record_types import from_text, to_text
from appraise.store import current_state, drafts, entry_index, record_index, revisions
from appraise.store.backup import back_up
from appraise.store.drafts import Draft
from appraise.store.faults import faults_told
from appraise.store.files import ensure, open_existing
from appraise.store.migrations import migrate, pending
from appraise.store.revisions import Change, Clock, Revision
from appraise.store.search import Sought, Summary, seek, summarise
from appraise.store.transaction import WAIT_SECONDS, snapshot, transaction
from appraise.store.undo import Step, coming_step, take_step

DEFAULT_CURRENCY = "USD"


def open_log(
    path: Path, clock: Clock, machine: str, *, wait_seconds: float = WAIT_SECONDS
) -> "Log":
    """Open the log at `path`, or begin one; an older log is brought up to date.

    Args:
        path: The log's file; its directory is made when it is missing.
        clock: Gives the time, with its zone.
        machine: A name for this machine that the user's other machines do not bear.
        wait_seconds: How long a write waits for another program's.

    Raises:
        StoreError: when the place cannot be used, or what stands there is no log, is
            damaged, or was written by a newer program. Nothing is overwritten.
        InputError: when the machine has no name.
    """
    if not machine.strip() or not machine.isprintable():
        raise InputError("this computer has no name that the log can record")
    time = revisions.iso(clock())
    ensure(path, time)
    connection = open_existing(path, wait_seconds)
    try:
        with faults_told(path):
            if pending(connection, path):
                back_up(path, time, "migration")
                migrate(connection, path, time)
    except BaseException:
        connection.close()
        raise
    return Log(path, connection, clock, machine)


class Log:
    """A price log, to be used by the thread that opened it and closed at the end.

    Every change is on the disk when its method returns. Methods raise `StoreError` when
    the file cannot be read or written, and then have changed nothing.
    """

    def __init__(
        self, path: Path, connection: sqlite3.Connection, clock: Clock, machine: str
    ) -> None:
        self.path = path
        self.connection = connection
        self.clock = clock
        self.machine = machine

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    def close(self) -> None:
        """Let go of the file. Closing twice is harmless."""
        self.connection.close()

    @contextmanager
    def transaction(self) -> Iterator[None]:
        """All changes inside are kept together or not at all; blocks may be nested."""
        with faults_told(self.path), transaction(self.connection):
            yield

    @contextmanager
    def snapshot(self) -> Iterator[None]:
        """All reads inside see one and the same state of the log."""
        with faults_told(self.path), snapshot(self.connection):
            yield

    # Entries

    def add(self, entry: Entry) -> Entry:
        """Keep a new entry; the same with its id comes back."""
        return self.add_all((entry,))[0]

    def add_all(self, entries: Iterable[Entry]) -> tuple[Entry, ...]:
        """Keep new entries as one act, undone as one; they come back with their ids.

        Raises:
            InputError: when an entry brings an id that the log has met before.
        """
        named: list[Entry] = []
        changes: list[Change] = []
        seen: set[str] = set()
        with self.transaction():
            now = revisions.moment(self.connection, self.clock, self.machine)
            for place, entry in enumerate(entries):
                body = to_text(entry)
                given = entry.id or revisions.digest(now.stamp, now.machine, place, body)[:16]
                if entry.id and (given in seen or revisions.current(self.connection, given)):
                    raise InputError(
                        "is in the log already", given, "Edit it, or leave out the id."
                    )
                seen.add(given)
                named.append(entry.named(given))
                changes.append(Change(given, "", body))
            if changes:
                last = revisions.insert(self.connection, revisions.made(now, "add", changes))
                entry_index.put_new(self.connection, named, last, now.stamp)
        return tuple(named)

    def entry(self, ref: str) -> Entry:
        """The entry of that id, or of the only id that begins with `ref`.

        Raises:
            InputError: when there is none, or more than one.
        """
        with self.snapshot():
            found = entry_index.found(self.connection, ref)
            return entry_index.stored(self._head(found).body or "", found)

    def entries(
        self,
        query: str = "",
        *,
        sort: str = "-date",
        limit: int | None = None,
        offset: int = 0,
    ) -> tuple[Entry, ...]:
        """The entries that a filter finds, as `appraise.store.query` reads it.

        Args:
            query: Words, field:value and ranges; empty finds all.
            sort: A column, with '-' in front for the largest first; ties by id.
            limit: At most so many.
            offset: Leave out so many at the start.

        Raises:
            InputError: when the filter or the column cannot be understood.
        """
        with self.snapshot():
            rows = seek(self.connection, Sought(query, sort, limit, offset))
            return tuple(entry_index.stored(body, entry) for body, entry in rows)

    def summary(self, query: str = "") -> Summary:
        """How many entries a filter finds, with sum and median of their prices."""
        with self.snapshot():
            return summarise(self.connection, query)

    def edit(self, entry: Entry, *, was: Entry | None = None) -> Entry:
        """Keep an entry as it is now handed in, under its id.

        Args:
            entry: The whole new entry.
            was: The entry as the editor saw it; when given, an edit that another program
                made meanwhile is not overwritten.

        Raises:
            InputError: when the entry is not in the log, or was changed meanwhile.
        """
        with self.transaction():
            head = self._head(entry.id)
            body = to_text(entry)
            if was is not None and head.body != to_text(was):
                raise InputError(
                    "was changed by another program meanwhile", entry.id, "Open it again."
                )
            if head.body != body:
                self.write("edit", [Change(entry.id, head.id, body)])
        return entry

    def remove(self, ref: str) -> Entry:
        """Take an entry off the log; it stays in the history and can be undone."""
        return self.remove_all((ref,))[0]

    def remove_all(self, refs: Sequence[str]) -> tuple[Entry, ...]:
        """Take entries off the log as one act; all or none."""
        with self.transaction():
            gone = {entry.id: entry for entry in map(self.entry, refs)}
            if gone:
                changes = [Change(each, self._head(each).id, None) for each in gone]
                self.write("delete", changes)
        return tuple(gone.values())

    # History

    def history(self, ref: str) -> tuple[Revision, ...]:
        """All revisions of an entry, removed or not, newest first."""
        with self.snapshot():
            return revisions.history(self.connection, entry_index.met(self.connection, ref))

    def undo(self) -> Step:
        """Take back the latest act of this machine that stands.

        Raises:
            InputError: when there is none.
        """
        with self.transaction():
            return take_step(self.connection, self.clock, self.machine, "undo")

    def redo(self) -> Step:
        """Do again what the latest undo took back, unless something was done since.

        Raises:
            InputError: when there is nothing to do again.
        """
        with self.transaction():
            return take_step(self.connection, self.clock, self.machine, "redo")

    def coming(self, kind: str) -> Step | None:
        """What the next 'undo' or 'redo' would concern; None where there is nothing to do."""
        with self.snapshot():
            return coming_step(self.connection, self.machine, kind)

    # Drafts and settings

    def save_draft(self, draft_id: str, text: str) -> None:
        """Keep the piece under examination as it stands, over what was kept before."""
        with self.transaction():
            drafts.save(self.connection, Draft(draft_id, self.now(), text))

    def drafts(self) -> tuple[Draft, ...]:
        """The pieces under examination, the one touched last first."""
        with self.snapshot():
            return drafts.kept(self.connection)

    def drop_draft(self, draft_id: str) -> bool:
        """Forget a draft; False when there was none."""
        with self.transaction():
            return drafts.drop(self.connection, draft_id)

    @property
    def base_currency(self) -> str:
        """The currency that all prices are turned into: US dollars until it was chosen."""
        return self._chosen() or DEFAULT_CURRENCY

    @property
    def currency_chosen(self) -> bool:
        """Whether the user has chosen a base currency."""
        return bool(self._chosen())

    def _chosen(self) -> str:
        with self.snapshot():
            rows = record_index.of_type(self.connection, "currency")
        if not rows:
            return ""
        from appraise.records.rate import BaseCurrency  # 8 ms

        found = from_text(rows[0][1])
        return found.code if isinstance(found, BaseCurrency) else ""

    def set_base_currency(self, code: str) -> None:
        """Choose the base currency, an ISO 4217 code."""
        from appraise.records.rate import BaseCurrency

        try:
            chosen = BaseCurrency(code)
        except InputError as error:
            raise InputError(error.what, mend=error.mend) from None
        entry, body = revisions.record_id("currency", chosen.key), to_text(chosen)
        with self.transaction():
            head = revisions.current(self.connection, entry)
            if head is None:
                self.write("add", [Change(entry, "", body)])
            elif head.body != body:
                self.write("edit", [Change(entry, head.id, body)])

    def _head(self, entry: str) -> Revision:
        head = revisions.current(self.connection, entry)
        if head is None or head.body is None:
            raise InputError(f"no entry '{entry}' in the log", mend="See 'appraise log list'.")
        return head

    def write(self, kind: str, changes: Sequence[Change]) -> None:
        """Append one act of changes to entries; inside a transaction of the caller's."""
        now = revisions.moment(self.connection, self.clock, self.machine)
        written = revisions.made(now, kind, changes)
        revisions.insert(self.connection, written)
        current_state.follow(self.connection, written)

    def now(self) -> str:
        """The time, ISO 8601 in UTC."""
        return revisions.iso(self.clock())
