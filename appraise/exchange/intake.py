"""Taking entries in from a file: what is new is added, and what was met before is not.

An entry without an id gets one from its own words and from how often the file has said
them before. So a file taken in twice adds nothing, one that grew adds what grew, and two
machines that take in the same file mean the same entries when they are merged.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
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


@dataclass(frozen=True, slots=True)
class _Given:
    entry: Entry
    body: str
    named: bool


@dataclass(slots=True)
class _Sorted:
    new: list[tuple[Entry, Change]]
    back: list[Change]
    edited: list[Change]
    differing: list[str]
    known: int = 0


def take_in(log: Log, entries: Iterable[Entry], *, update: bool = False) -> Taken:
    """Take entries in as one act, undone as one, after a backup of a log that holds any.

    Args:
        log: The log to write to.
        entries: With the ids that the log gave them once, or without.
        update: Whether an entry that came with an id replaces what the log says of it.

    Raises:
        StoreError: when the log cannot be written; then nothing was taken in.
    """
    given = tuple(_named(entries))
    with log.snapshot():
        found = _sort(log, given, update=update)
        first = not log.connection.execute("SELECT 1 FROM revision LIMIT 1").fetchone()
    if not (found.new or found.back or found.edited):
        return Taken((), (), found.known, tuple(found.differing))
    if not first:
        back_up(log.path, log.now(), "import")
    with log.transaction():
        found = _sort(log, given, update=update)  # another program may have written meanwhile
        new = [change for _, change in found.new]
        known = {entry.id: entry for entry, _ in found.new}
        log.write("import", [*found.back, *found.edited, *new], known=known)
    added = (*(entry.id for entry, _ in found.new), *(each.entry for each in found.back))
    edited = tuple(each.entry for each in found.edited)
    return Taken(added, edited, found.known, tuple(found.differing))


def _named(entries: Iterable[Entry]) -> Iterator[_Given]:
    """Each entry with an id, its text, and whether it came with that id."""
    seen: Counter[str] = Counter()
    for entry in entries:
        body = to_text(entry)
        if entry.id:
            yield _Given(entry, body, named=True)
        else:
            made = revisions.digest("imported", body, seen[body])[:16]
            seen[body] += 1
            yield _Given(entry.named(made), body, named=False)


def _sort(log: Log, given: Sequence[_Given], *, update: bool) -> _Sorted:
    met = {each for (each,) in log.connection.execute("SELECT DISTINCT entry FROM revision")}
    found = _Sorted([], [], [], [])
    for each in given:
        entry_id = each.entry.id
        if entry_id not in met:
            met.add(entry_id)
            found.new.append((each.entry, Change(entry_id, "", each.body)))
            continue
        head = revisions.current(log.connection, entry_id)
        change = Change(entry_id, head.id if head else "", each.body)
        _judge(found, head, change, each.named, update)
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
