"""Taking entries in from a file: what is new is added, and what was met before is not.

An entry without an id gets one from the row that it came from, or from its own words, and from
how often the file has said them before. So a file taken in twice adds nothing, however it is read,
one that grew adds what grew, and two machines that take in the same file mean the same entries
when they are merged.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from appraise.base.logday import sorting
from appraise.records.entry import ATTRIBUTES, Entry
from appraise.records.record_types import to_text
from appraise.store import current_state, revisions
from appraise.store.backup import back_up
from appraise.store.log import Log
from appraise.store.revisions import Change, Revision


@dataclass(frozen=True, slots=True)
class Double:
    """An entry of a file whose day and price another entry of the log has: its id, and both."""

    entry: Entry
    known: str


@dataclass(frozen=True, slots=True)
class Taken:
    """What became of the entries of a file.

    Attributes:
        added: Ids of the entries that are new in the log, or back after an undone import.
        edited: Ids of those that took the place of what the log said.
        known: How many were in the log as they are, or had been removed from it.
        differing: Ids of those that the log says otherwise, and that were left as they are.
        doubles: Those left out because an entry of the log has the same day and price.
    """

    added: tuple[str, ...]
    edited: tuple[str, ...]
    known: int
    differing: tuple[str, ...]
    doubles: tuple[Double, ...] = ()


@dataclass(slots=True)
class _Sorted:
    """What is to be written of a file: the changes by what they do, and the entries at hand."""

    new: list[Change] = field(default_factory=list)
    back: list[Change] = field(default_factory=list)
    edited: list[Change] = field(default_factory=list)
    entries: dict[str, Entry] = field(default_factory=dict)
    differing: list[str] = field(default_factory=list)
    doubles: list[Double] = field(default_factory=list)
    known: int = 0

    @property
    def taken(self) -> Taken:
        """The same by ids."""
        added, edited = (*self.new, *self.back), self.edited
        differing, doubles = tuple(self.differing), tuple(self.doubles)
        return Taken(_ids(added), _ids(edited), self.known, differing, doubles)


_Named = tuple[Entry, str, str, str]
"""An entry with its text, its id, and the id that its words alone would give it."""


@dataclass(frozen=True, slots=True)
class _Rules:
    """How entries are sorted: whether they replace, by which fields, and what doubles do."""

    update: bool
    told: frozenset[str]
    doubles: str


def take_in(
    log: Log,
    entries: Iterable[Entry],
    *,
    keys: Sequence[str] = (),
    update: bool = False,
    told: frozenset[str] = frozenset(ATTRIBUTES),
    doubles: str = "add",
) -> Taken:
    """Take entries in as one act, undone as one, after a backup of a log that holds any.

    Args:
        log: The log to write to.
        entries: With the ids that the log gave them once, or without.
        keys: For each entry the text of the row that it came from; none: its own words.
        update: Whether an entry of the log is replaced by what the file says of it.
        told: The fields that the file tells; with `update` the others stay as they are.
        doubles: 'add' to take in what has the day and price of another entry, else it stays out.

    Raises:
        StoreError: when the log cannot be written; then nothing was taken in.
    """
    rules = _Rules(update, told, doubles)
    named = list(_named(entries, keys))
    with log.snapshot():
        found = _sort(log, named, rules)
        first = not log.connection.execute("SELECT 1 FROM revision LIMIT 1").fetchone()
    if not (found.new or found.back or found.edited):
        return found.taken
    if not first:
        back_up(log.path, log.now(), "import")
    with log.transaction():
        found = _sort(log, named, rules)  # another program may have written meanwhile
        changes = [*found.back, *found.edited, *found.new]
        log.write("import", changes, known=found.entries)
    return found.taken


def _ids(changes: Iterable[Change]) -> tuple[str, ...]:
    return tuple(each.entry for each in changes)


def _named(given: Iterable[Entry], keys: Sequence[str]) -> Iterator[_Named]:
    """Each entry with its text, its id, and the id that its words alone would give it."""
    rows, words = Counter[str](), Counter[str]()
    for place, entry in enumerate(given):
        body = to_text(entry)
        if entry.id:
            yield entry, body, entry.id, entry.id
            continue
        by_words = revisions.digest("imported", body, words[body])[:16]
        words[body] += 1
        if not keys:
            yield entry, body, by_words, by_words
            continue
        key = keys[place]
        yield entry, body, revisions.digest("row", key, rows[key])[:16], by_words
        rows[key] += 1


def _sort(log: Log, named: Sequence[_Named], rules: _Rules) -> _Sorted:
    met = {each for (each,) in log.connection.execute("SELECT DISTINCT entry FROM revision")}
    found = _Sorted()
    mine = {name for _, _, by_row, by_words in named for name in (by_row, by_words)}
    for entry, body, by_row, by_words in named:
        name = by_words if by_words in met and by_row not in met else by_row
        if name in met:
            head = revisions.current(log.connection, name)
            change = Change(name, head.id if head else "", body)
            if head and head.body is not None and rules.update:
                change = _updated(change, head.body, entry, rules.told)
            _judge(found, head, change, bool(entry.id), rules.update)
            continue
        known = "" if rules.doubles == "add" or entry.id else _double(log, entry, mine)
        if known:
            found.doubles.append(Double(entry, known))
            continue
        met.add(name)
        found.new.append(Change(name, "", body))
        found.entries[name] = entry
    return found


def _updated(change: Change, body: str, entry: Entry, told: frozenset[str]) -> Change:
    """What an entry becomes where the file tells some of its fields only."""
    if told >= set(ATTRIBUTES):
        return change
    was = current_state.price(body, change.entry)
    named = {name: getattr(entry, name) for name in ATTRIBUTES if name != "id"}
    new = {
        name: value
        for name, value in named.items()
        if name in told or (value and not _is(was, name))
    }
    return replace(change, body=to_text(replace(was, **new)))


def _is(entry: Entry, name: str) -> bool:
    return bool(getattr(entry, name))


def _double(log: Log, entry: Entry, mine: set[str]) -> str:
    """The id of an entry of the log that is none of this file and has the same day and price."""
    amount = entry.price
    first, _ = sorting(entry.date)
    if amount is None or not amount.amount or not first:
        return ""
    sql = (
        "SELECT entry, record FROM shelf WHERE date = ? AND until = ? AND price = ? "
        "AND currency = ? ORDER BY entry"
    )
    price = current_state.thousandths(amount)
    values = (*sorting(entry.date), price, amount.currency)
    rows = log.connection.execute(sql, values)
    return next((each for each, record in rows if each not in mine and record == entry.record), "")


def _judge(
    found: _Sorted, head: Revision | None, change: Change, named: bool, update: bool
) -> None:
    """Sort an entry that the log has met; one met twice in the file itself has no head."""
    if head is None or head.body == change.body or (head.body is None and head.kind != "undo"):
        found.known += 1
    elif head.body is None:
        found.back.append(change)
    elif update:
        found.edited.append(change)
    elif not named:
        found.known += 1  # edited since it was taken in, or read otherwise
    else:
        found.differing.append(change.entry)
