"""Taking entries in from a file: what is new is added, and what was met before is not.

An entry without an id gets one from the row that it came from, or from its own words, and from
how often the file has said them before. So a file taken in twice adds nothing, however it is read,
one that grew adds what grew, and two machines that take in the same file mean the same entries
when they are merged.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import field, replace
from hashlib import blake2b
from itertools import chain
from typing import overload

from appraise.base.dataclass import dataclass
from appraise.records.entry import ATTRIBUTES, Entry
from appraise.records.record_types import to_text
from appraise.store import current_state, revisions
from appraise.store.backup import back_up
from appraise.store.log import Log
from appraise.store.revisions import Change, Revision
from appraise.store.spool import Spool

_OF_DOUBLES = tuple(
    current_state.COLUMNS.split(", ").index(name)
    for name in ("record", "date", "price", "currency", "until")
)


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


class SpooledEntries(Sequence[Entry]):
    """Entries that were read of a file of any length, put by on the disk."""

    def __init__(self) -> None:
        self.rows = Spool[_Read]()

    def add(self, entry: Entry) -> None:
        """Put an entry by."""
        self.rows.add(_read(entry))

    def __len__(self) -> int:
        return len(self.rows)

    def __iter__(self) -> Iterator[Entry]:
        return (current_state.price(body, entry) for entry, body, _ in self.rows)

    @overload
    def __getitem__(self, at: int) -> Entry: ...

    @overload
    def __getitem__(self, at: slice) -> Sequence[Entry]: ...

    def __getitem__(self, at: int | slice) -> Entry | Sequence[Entry]:
        if isinstance(at, slice):
            return [current_state.price(body, entry) for entry, body, _ in self.rows[at]]
        entry, body, _ = self.rows[at]
        return current_state.price(body, entry)


_Shown = tuple[object, ...]
"""How a price is shown, as `current_state.row` has it."""
_Read = tuple[str, str, _Shown]
"""An entry's id, its text, and how it is shown."""
_Named = tuple[str, str, bool, str, _Shown]
"""The id of an entry, that by its words alone, whether the file brought it, text and row."""
_Changed = tuple[str, str, str, _Shown | None]
"""Entry, parents, body and row of a change."""


def _read(entry: Entry) -> _Read:
    return entry.id, to_text(entry), current_state.row(entry)


@dataclass(slots=True)
class _Sorted:
    """What is to be written of a file: the changes by what they do."""

    new: Spool[_Changed] = field(default_factory=Spool)
    back: Spool[_Changed] = field(default_factory=Spool)
    edited: Spool[_Changed] = field(default_factory=Spool)
    differing: list[str] = field(default_factory=list)
    doubles: list[Double] = field(default_factory=list)
    known: int = 0

    def __iter__(self) -> Iterator[Change]:
        return (Change(*each) for each in chain(self.back, self.edited, self.new))

    @property
    def taken(self) -> Taken:
        """The same by ids."""
        added = tuple(each[0] for each in chain(self.new, self.back))
        edited = tuple(each[0] for each in self.edited)
        return Taken(added, edited, self.known, tuple(self.differing), tuple(self.doubles))


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
    named = Spool[_Named]()
    for one in _named(entries, keys):
        named.add(one)
    with log.snapshot():
        state = log.newest()
        found = _sort(log, named, rules)
    if not (found.new or found.back or found.edited):
        return found.taken
    if state:
        back_up(log.path, log.now(), "import")
    with log.roomy(), log.transaction():
        if log.newest() != state:  # another program has written meanwhile
            found = _sort(log, named, rules)
        log.write("import", found)
    return found.taken


def _named(given: Iterable[Entry], keys: Sequence[str]) -> Iterator[_Named]:
    """Each entry with its text, its id, and the id that its words alone would give it."""
    rows, words = _Seen(), _Seen()
    read = given.rows if isinstance(given, SpooledEntries) else map(_read, given)
    for place, (own, body, row) in enumerate(read):
        if own:
            yield own, own, True, body, row
            continue
        by_words = revisions.digest("imported", body, words.before(body))[:16]
        if not keys:
            yield by_words, by_words, False, body, row
            continue
        key = keys[place]
        by_row = revisions.digest("row", key, rows.before(key))[:16]
        yield by_row, by_words, False, body, row


class _Seen:
    """How often a text was met before; of each a digest of eight bytes is held."""

    def __init__(self) -> None:
        self._once = set[bytes]()
        self._more = Counter[bytes]()

    def before(self, text: str) -> int:
        """How often it was met before now."""
        short = blake2b(text.encode(), digest_size=8).digest()
        if short not in self._once:
            self._once.add(short)
            return 0
        self._more[short] += 1
        return self._more[short]


def _sort(log: Log, named: Spool[_Named], rules: _Rules) -> _Sorted:
    found, seen = _Sorted(), set[bytes]()
    minds = rules.doubles != "add"
    mine = {bytes.fromhex(name) for each in named for name in each[:2]} if minds else set[bytes]()
    empty = not log.newest()
    met = "SELECT 1 FROM revision WHERE entry = ? LIMIT 1"

    def known(name: str) -> bool:
        if bytes.fromhex(name) in seen:
            return True
        return not empty and log.connection.execute(met, (name,)).fetchone() is not None

    for by_row, by_words, own, body, row in named:
        other = by_words != by_row and known(by_words) and not known(by_row)
        name = by_words if other else by_row
        if known(name):
            head = revisions.current(log.connection, name)
            change = Change(name, head.id if head else "", body)
            if head and head.body is not None and rules.update:
                change = _updated(change, head.body, rules.told)
            _judge(found, head, change, own, rules.update)
            continue
        double = _double(log, row, mine) if minds and not own else ""
        if double:
            found.doubles.append(Double(current_state.price(body, ""), double))
            continue
        seen.add(bytes.fromhex(name))
        found.new.add((name, "", body, row))
    return found


def _updated(change: Change, body: str, told: frozenset[str]) -> Change:
    """What an entry becomes where the file tells some of its fields only."""
    if told >= set(ATTRIBUTES):
        return change
    was = current_state.price(body, change.entry)
    entry = current_state.price(change.body or "", change.entry)
    named = {name: getattr(entry, name) for name in ATTRIBUTES if name != "id"}
    new = {
        name: value
        for name, value in named.items()
        if name in told or (value and not _is(was, name))
    }
    return replace(change, body=to_text(replace(was, **new)))


def _is(entry: Entry, name: str) -> bool:
    return bool(getattr(entry, name))


def _double(log: Log, row: _Shown, mine: set[bytes]) -> str:
    """The id of an entry of the log that is none of this file and has the same day and price."""
    record, first, price, currency, last = (row[place] for place in _OF_DOUBLES)
    if not price or not first:
        return ""
    sql = (
        "SELECT entry, record FROM shelf WHERE date = ? AND until = ? AND price = ? "
        "AND currency = ? ORDER BY entry"
    )
    rows = log.connection.execute(sql, (first, last, price, currency))
    others = (each for each, told in rows if told == record)
    return next((each for each in others if bytes.fromhex(each) not in mine), "")


def _changed(change: Change) -> _Changed:
    return change.entry, change.parents, change.body or "", change.row


def _judge(
    found: _Sorted, head: Revision | None, change: Change, named: bool, update: bool
) -> None:
    """Sort an entry that the log has met; one met twice in the file itself has no head."""
    if head is None or head.body == change.body or (head.body is None and head.kind != "undo"):
        found.known += 1
    elif head.body is None:
        found.back.add(_changed(change))
    elif update:
        found.edited.add(_changed(change))
    elif not named:
        found.known += 1  # edited since it was taken in, or read otherwise
    else:
        found.differing.append(change.entry)
