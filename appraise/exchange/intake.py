"""Taking entries in from a file: what is new is added, and what was met before is not.

An entry without an id gets one from its own words and from how often the file has said
them before. So a file taken in twice adds nothing, one that grew adds what grew, and two
machines that take in the same file mean the same entries when they are merged.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from appraise.records.entry import Entry
from appraise.records.record_types import to_text
from appraise.store import revisions
from appraise.store.backup import back_up
from appraise.store.log import Log
from appraise.store.revisions import Change, Revision


@dataclass(frozen=True, slots=True)
class Taken:
    """What became of the entries of a file.

    Attributes:
        added: Ids of the entries that are new in the log, or back after an undone import.
        edited: Ids of those that took the place of what the log said.
        known: How many were in the log as they are, or had been removed from it.
        differing: Ids of those that the log says otherwise, and that were left as they are.
    """

    added: tuple[str, ...]
    edited: tuple[str, ...]
    known: int
    differing: tuple[str, ...]


@dataclass(slots=True)
class _Sorted:
    """What is to be written of a file: the changes by what they do, and the entries at hand."""

    new: list[Change]
    back: list[Change]
    edited: list[Change]
    entries: dict[str, Entry]
    differing: list[str]
    known: int = 0

    @property
    def taken(self) -> Taken:
        """The same by ids."""
        added, edited = (*self.new, *self.back), self.edited
        return Taken(_ids(added), _ids(edited), self.known, tuple(self.differing))


def take_in(log: Log, entries: Iterable[Entry], *, update: bool = False) -> Taken:
    """Take entries in as one act, undone as one, after a backup of a log that holds any.

    Args:
        log: The log to write to.
        entries: With the ids that the log gave them once, or without.
        update: Whether an entry that came with an id replaces what the log says of it.

    Raises:
        StoreError: when the log cannot be written; then nothing was taken in.
    """
    given = tuple(entries)
    with log.snapshot():
        found = _sort(log, given, update=update)
        first = not log.connection.execute("SELECT 1 FROM revision LIMIT 1").fetchone()
    if not (found.new or found.back or found.edited):
        return found.taken
    if not first:
        back_up(log.path, log.now(), "import")
    with log.transaction():
        found = _sort(log, given, update=update)  # another program may have written meanwhile
        changes = [*found.back, *found.edited, *found.new]
        log.write("import", changes, known=found.entries)
    return found.taken


def _ids(changes: Iterable[Change]) -> tuple[str, ...]:
    return tuple(each.entry for each in changes)


def _sort(log: Log, given: Sequence[Entry], *, update: bool) -> _Sorted:
    met = {each for (each,) in log.connection.execute("SELECT DISTINCT entry FROM revision")}
    found, seen = _Sorted([], [], [], {}, []), Counter[str]()
    for entry in given:
        body = to_text(entry)
        name = entry.id or revisions.digest("imported", body, seen[body])[:16]
        seen[body] += not entry.id
        if name in met:
            head = revisions.current(log.connection, name)
            change = Change(name, head.id if head else "", body)
            _judge(found, head, change, bool(entry.id), update)
        else:
            met.add(name)
            found.new.append(Change(name, "", body))
            found.entries[name] = entry
    return found


def _judge(
    found: _Sorted, head: Revision | None, change: Change, named: bool, update: bool
) -> None:
    """Sort an entry that the log has met; one met twice in the file itself has no head."""
    if head is None or head.body == change.body or (head.body is None and head.kind != "undo"):
        found.known += 1
    elif head.body is None:
        found.back.append(change)
    elif not named:
        found.known += 1  # edited since it was taken in
    elif update:
        found.edited.append(change)
    else:
        found.differing.append(change.entry)
