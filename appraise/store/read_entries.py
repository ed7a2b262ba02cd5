"""The entries of a log held in memory and brought up to date by what was written since."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from appraise.records.entry import Entry
from appraise.store import current_state
from appraise.store.log import Log


@dataclass(frozen=True, slots=True)
class ReadEntries:
    """All entries as they were read last.

    Attributes:
        number: Number of the last revision that had been written then.
    """

    by_id: Mapping[str, Entry] = field(default_factory=dict)
    number: int = 0
    newest: str = ""


_LAST = "SELECT number, id FROM revision ORDER BY number DESC LIMIT 1"
_NUMBERED = "SELECT 1 FROM revision WHERE number = ? AND id = ?"
_CHANGED = "SELECT DISTINCT entry FROM revision WHERE number > ?"
_SINCE = (
    "SELECT body, shelf.entry FROM shelf JOIN revision USING (number) "
    f"WHERE shelf.entry IN ({_CHANGED})"
)


def entries_after(log: Log, was: ReadEntries) -> ReadEntries:
    """The entries now: those that were changed since are read, all of them in another log."""
    with log.snapshot():
        number, newest = log.connection.execute(_LAST).fetchone() or (0, "")
        if (number, newest) == (was.number, was.newest):
            return was
        same = log.connection.execute(_NUMBERED, (was.number, was.newest)).fetchone()
        kept = dict(was.by_id) if same else {}
        since = was.number if same else 0
        for (entry,) in log.connection.execute(_CHANGED, (since,)) if kept else ():
            kept.pop(entry, None)
        for body, entry in log.connection.execute(_SINCE, (since,)):
            kept[entry] = current_state.price(body, entry)
    return ReadEntries(kept, number, newest)
