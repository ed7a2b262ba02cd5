"""The open log: entries, their history, drafts and the base currency."""

import sqlite3
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from functools import cached_property
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING, Self

from appraise.base.errors import InputError
from appraise.records.base_currency import BaseCurrency
from appraise.records.entry import Entry
from appraise.records.fields import Record
from appraise.records.record_types import from_text, name_of_thing, to_text
from appraise.store import current_state, drafts, revisions
from appraise.store.drafts import Draft
from appraise.store.faults import faults_told
from appraise.store.files import ensure, open_existing
from appraise.store.machines import Machine
from appraise.store.migrations import migrate, pending
from appraise.store.revisions import ActTime, Change, Clock, Revision
from appraise.store.search import EntryQuery, Summary, seek, summarise
from appraise.store.transaction import WAIT_SECONDS, snapshot, transaction

if TYPE_CHECKING:
    from appraise.store.undo import Step

DEFAULT_CURRENCY = "USD"
_ROOMY = -64_000  # kibibytes; sqlite.org/pragma.html


def open_log(
    path: Path,
    clock: Clock,
    machine: str | Machine | Callable[[], Machine],
    *,
    wait_seconds: float = WAIT_SECONDS,
) -> "Log":
    """Open the log at `path`, or begin one; an older log is brought up to date.

    Args:
        path: The log's file; its directory is made when it is missing.
        clock: Gives the time, with its zone.
        machine: A name for this machine that the user's other machines do not bear, or what says
            it when it is first wanted.
        wait_seconds: How long a write waits for another program's.

    Raises:
        StoreError: when the place cannot be used, or what stands there is no log, is
            damaged, or was written by a newer program. Nothing is overwritten.
        InputError: when the machine has no name.
    """
    own = Machine(machine) if isinstance(machine, str) else machine
    if isinstance(own, Machine) and not (own.name.strip() and own.name.isprintable()):
        raise InputError("this computer has no name that the log can record")
    time = revisions.iso(clock())
    ensure(path, time)
    connection = open_existing(path, wait_seconds)
    try:
        with faults_told(path):
            if pending(connection, path):
                from appraise.store.backup import back_up

                back_up(path, time, "migration")
                migrate(connection, path, time)
    except BaseException:
        connection.close()
        raise
    return Log(path, connection, clock, own)


def given_id(thing: Record) -> str:
    """The id that a record brings: of a price its own, of one with a key the same in every log."""
    if isinstance(thing, Entry):
        return thing.id
    return revisions.record_id(name_of_thing(thing), thing.key) if thing.key else ""


class Log:
    """A price log, to be used by the thread that opened it and closed at the end.

    Every change is on the disk when its method returns. Methods raise `StoreError` when
    the file cannot be read or written, and then have changed nothing.
    """

    def __init__(
        self,
        path: Path,
        connection: sqlite3.Connection,
        clock: Clock,
        machine: Machine | Callable[[], Machine],
    ) -> None:
        self.path = path
        self.connection = connection
        self.clock = clock
        self._machine = machine

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

    @cached_property
    def signs(self) -> Machine:
        """The machine as it signs."""
        return self._machine if isinstance(self._machine, Machine) else self._machine()

    @property
    def machine(self) -> str:
        """Its name."""
        return self.signs.name

    def seen_version(self) -> int:
        """A number that is another one once some other connection has written to the file.

        See SQLite's documentation, PRAGMA data_version.
        """
        with faults_told(self.path):
            return int(self.connection.execute("PRAGMA data_version").fetchone()[0])

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

    @contextmanager
    def roomy(self) -> Iterator[None]:
        """More of the file is held in memory while very much is written; not in a transaction."""
        with faults_told(self.path):
            (before,) = self.connection.execute("PRAGMA cache_size").fetchone()
            self.connection.execute(f"PRAGMA cache_size = {_ROOMY}")
            try:
                yield
            finally:
                self.connection.execute(f"PRAGMA cache_size = {before}")

    # Records

    def commit(
        self,
        add: Sequence[Record] = (),
        change: Sequence[tuple[str, Record]] = (),
        drop: Sequence[str] = (),
        target: str = "",
    ) -> tuple[str, ...]:
        """Write an act, undone as one; what would change nothing is left out.

        Args:
            add: New prices and other records; of one with a key there is one in the log.
            change: Records of the log by their ids, as they are to be.
            drop: Ids of records to take off the log; they stay in the history.
            target: For `add` the draft that was logged.

        Returns:
            The ids of what was added, in order.

        Raises:
            InputError: when something to change is not in the log, or a price brings an id that
                the log has met before.
        """
        with self.transaction():
            now = revisions.moment(self.connection, self.clock, self.machine)
            bodies = [to_text(each) for each in add]
            ids = [
                given_id(each) or revisions.digest(now.stamp, now.machine, place, body)[:16]
                for place, (each, body) in enumerate(zip(add, bodies, strict=True))
            ]
            changes = self._additions(add, ids, bodies)
            changes += self._revisions({each: to_text(thing) for each, thing in change})
            changes += self._revisions(dict.fromkeys(drop))
            if changes:
                edits = change or (add and all(each.parents for each in changes))
                known = dict(zip(ids, add, strict=True))
                kind = "edit" if edits else "add" if add else "delete"
                self.write(kind, changes, target, now, known)
        return tuple(ids)

    def _revisions(self, wanted: Mapping[str, str | None]) -> list[Change]:
        """What becomes of records of the log, by their ids; None takes one off."""
        heads = ((self.head(entry), body) for entry, body in wanted.items())
        return [Change(head.entry, head.id, body) for head, body in heads if head.body != body]

    def _additions(
        self, add: Sequence[Record], ids: Sequence[str], bodies: Sequence[str]
    ) -> list[Change]:
        """What is new, or takes the place of the record of the same key."""
        changes, seen = list[Change](), set[str]()
        for thing, entry, body in zip(add, ids, bodies, strict=True):
            head = revisions.current(self.connection, entry)
            if isinstance(thing, Entry) and (head or entry in seen):
                raise InputError("is in the log already", entry, "Edit it, or leave out the id.")
            seen.add(entry)
            if head is None or head.body != body:
                changes.append(Change(entry, head.id if head else "", body))
        return changes

    def write(
        self,
        kind: str,
        changes: Iterable[Change],
        target: str = "",
        now: ActTime | None = None,
        known: Mapping[str, Record] | None = None,
    ) -> None:
        """Append one act of changes, as `current_state.write` does; in a transaction of its own."""
        with self.transaction():
            when = now or revisions.moment(self.connection, self.clock, self.machine)
            current_state.write(self.connection, when, kind, changes, target, known)

    def head(self, entry: str) -> Revision:
        """The revision that says what a record is now.

        Raises:
            InputError: when it is not in the log.
        """
        head = revisions.current(self.connection, entry)
        if head is None or head.body is None:
            raise current_state.no_entry(entry)
        return head

    def unchanged(self, entry: str, was: Record) -> None:
        """Refuse to go on where another program changed a record since it was read.

        Raises:
            InputError: when it was, or is not in the log.
        """
        if current_state.kept(self.head(entry).body or "", entry) != was:
            raise InputError("was changed by another program meanwhile", entry, "Open it again.")

    # Prices

    def add(self, entry: Entry) -> Entry:
        """Keep a new price; the same with its id comes back."""
        return self.add_all((entry,))[0]

    def add_all(self, entries: Iterable[Entry]) -> tuple[Entry, ...]:
        """Keep new prices as one act; they come back with their ids; errors as in `commit`."""
        given = tuple(entries)
        return tuple(map(Entry.named, given, self.commit(given)))

    def entry(self, ref: str) -> Entry:
        """The entry of that id, or of the only id that begins with `ref`.

        Raises:
            InputError: when there is none, or more than one.
        """
        with self.snapshot():
            found = current_state.found(self.connection, ref)
            return current_state.price(self.head(found).body or "", found)

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
            return tuple(self.each(EntryQuery(query, sort, limit, offset)))

    def each(self, wanted: EntryQuery) -> Iterator[Entry]:
        """The same one by one, so that a log of any length is never held as a whole.

        Take them inside a snapshot, if the log is not to change meanwhile.
        """
        with faults_told(self.path):
            for body, entry in seek(self.connection, wanted):
                yield current_state.price(body, entry)

    def each_text(self, wanted: EntryQuery) -> Iterator[tuple[str, str]]:
        """Text and id of each of the same, for whoever needs no whole entry."""
        with faults_told(self.path):
            yield from seek(self.connection, wanted)

    def summary(self, query: str = "") -> Summary:
        """How many entries a filter finds, with sum and median of their prices."""
        with self.snapshot():
            return summarise(self.connection, query)

    def edit(self, entry: Entry, *, was: Entry | None = None) -> Entry:
        """Keep an entry as it is now handed in, under its id.

        `was`: the entry as the editor saw it; when given, an edit that another program made
        meanwhile is not overwritten.

        Raises:
            InputError: when the entry is not in the log, or was changed meanwhile.
        """
        with self.transaction():
            if was is not None:
                self.unchanged(entry.id, was)
            self.commit(change=((entry.id, entry),))
        return entry

    # History

    def newest(self) -> str:
        """The id of the revision written last, by which two states of a log differ; '' in none."""
        with self.snapshot():
            return revisions.last(self.connection)[1]

    def history(self, ref: str) -> tuple[Revision, ...]:
        """All revisions of an entry, removed or not, newest first."""
        with self.snapshot():
            return revisions.history(self.connection, current_state.met(self.connection, ref))

    def undo(self) -> "Step":
        """Take back the latest act of this machine that stands; InputError where there is none."""
        return self._step("undo")

    def redo(self) -> "Step":
        """Do again what the latest undo took back, unless something was done since."""
        return self._step("redo")

    def _step(self, kind: str) -> "Step":
        from appraise.store.undo import take_step

        with self.transaction():
            return take_step(self.connection, self.clock, self.signs, kind)

    def coming(self, kind: str) -> "Step | None":
        """What the next 'undo' or 'redo' would concern; None where there is nothing to do."""
        with self.snapshot():
            from appraise.store.undo import coming_step

            return coming_step(self.connection, self.signs, kind)

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
            rows = current_state.of_type(self.connection, "currency")
        if not rows:
            return ""
        found = from_text(rows[0][1])
        return found.code if isinstance(found, BaseCurrency) else ""

    def set_base_currency(self, code: str) -> None:
        """Choose the base currency, an ISO 4217 code."""
        try:
            self.commit(add=(BaseCurrency(code),))
        except InputError as error:
            raise InputError(error.what, mend=error.mend) from None

    def now(self) -> str:
        """The time, ISO 8601 in UTC."""
        return revisions.iso(self.clock())
