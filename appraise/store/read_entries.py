"""The entries of a log held in memory and brought up to date by what was written since."""

from collections.abc import Mapping
from dataclasses import field

from appraise.base.dataclass import dataclass
from appraise.records.entry import Entry
from appraise.store import current_state
from appraise.store.log import Log
from appraise.store.revisions import CHANGED, changed_since, last


@dataclass(frozen=True, slots=True)
class ReadEntries:
    """All entries as they were read last.

    Attributes:
        number: Number of the last revision that had been written then.
    """

    by_id: Mapping[str, Entry] = field(default_factory=dict)
    number: int = 0
    newest: str = ""


_SINCE = (
    "SELECT body, shelf.entry FROM shelf JOIN revision USING (number) "
    f"WHERE shelf.entry IN ({CHANGED})"
)


def entries_after(log: Log, was: ReadEntries) -> ReadEntries:
    """The entries now: those that were changed since are read, all of them in another log."""
    with log.snapshot():
        number, newest = last(log.connection)
        if (number, newest) == (was.number, was.newest):
            return was
        changed = changed_since(log.connection, was.number, was.newest)
        since, kept = (0, {}) if changed is None else (was.number, dict(was.by_id))
        for entry in changed or ():
            kept.pop(entry, None)
        for body, entry in log.connection.execute(_SINCE, (since,)):
            kept[entry] = current_state.price(body, entry)
    return ReadEntries(kept, number, newest)
