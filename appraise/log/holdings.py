"""Records beside the prices, in and out of the log: each change is a revision like any other.

Whatever belongs to one act is written as one, prices and other records together, so that one undo
takes all of it back.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from appraise.base.errors import InputError
from appraise.keeping import sorts
from appraise.keeping.sorts import NAMES, Holding
from appraise.log import drawer, revisions
from appraise.log.codec import to_text
from appraise.log.entries import Entry
from appraise.log.faults import as_kept
from appraise.log.revisions import Change
from appraise.log.store import Log

H = TypeVar("H", bound=Holding)
H_co = TypeVar("H_co", bound=Holding, covariant=True)


@dataclass(frozen=True, slots=True)
class Held(Generic[H_co]):
    """A record that the log keeps.

    Attributes:
        id: Sixteen hexadecimal digits, given by the log.
        thing: The record.
    """

    id: str
    thing: H_co


@dataclass(frozen=True, slots=True)
class Act:
    """What is written as one and undone as one.

    Attributes:
        add: New prices and other records.
        change: Records of the log as they are to be.
        edit: Prices of the log as they are to be.
        drop: Ids of records to take off the log; they stay in the history.
    """

    add: tuple[Entry | Holding, ...] = ()
    change: tuple[Held[Holding], ...] = ()
    edit: tuple[Entry, ...] = ()
    drop: tuple[str, ...] = ()


def held(log: Log, sort: type[H]) -> tuple[Held[H], ...]:
    """All records of a sort, the one begun first in front."""
    with log.snapshot():
        rows = drawer.of_sort(log.connection, NAMES[sort])
        return tuple(Held(entry, _read(body, sort)) for entry, body in rows)


def keeps(log: Log, *names: str) -> bool:
    """Whether there is a record of any of these sorts; no dataclass is imported for it."""
    with log.snapshot():
        return any(drawer.of_sort(log.connection, name) for name in names)


def one(log: Log, sort: type[H], ref: str) -> Held[H]:
    """The record of that sort whose id begins with `ref`, or whose title is `ref`.

    Raises:
        InputError: when there is none, or more than one.
    """
    name, start = NAMES[sort], ref.strip().lower()
    known = held(log, sort)
    found = [each for each in known if start and each.id.startswith(start)]
    found = found or [each for each in known if each.thing.title.lower() == start]
    if len(found) == 1:
        return found[0]
    if not found:
        raise InputError(f"no {name} '{ref}' in the log", mend=f"'appraise {name} list' shows all.")
    ids = ", ".join(each.id for each in found[:3])
    raise InputError(f"'{ref}' is more than one {name} ({ids})", mend="Write more of its id.")


def keep(log: Log, thing: H) -> Held[H]:
    """Keep a new record."""
    (entry,) = enact(log, Act(add=(thing,)))
    return Held(entry, thing)


def change(log: Log, now: Held[H], *, was: H | None = None) -> Held[H]:
    """Keep a record as it is now handed in.

    Args:
        log: The log to write to.
        now: The whole new record, under its id.
        was: The record as the editor saw it; when given, a change that another program made
            meanwhile is not overwritten.

    Raises:
        InputError: when it is not in the log, or was changed meanwhile.
    """
    with log.transaction():
        if was is not None and _head(log, now.id).body != sorts.to_text(was):
            raise InputError("was changed by another program meanwhile", now.id, "Open it again.")
        enact(log, Act(change=(now,)))
    return now


def drop(log: Log, ids: Sequence[str]) -> None:
    """Take records off the log as one act; all or none."""
    enact(log, Act(drop=tuple(ids)))


def enact(log: Log, act: Act) -> tuple[str, ...]:
    """Write an act; what would change nothing is left out.

    Returns:
        The ids of what was added, in order.

    Raises:
        InputError: when something to change is not in the log.
    """
    with log.transaction():
        now = revisions.moment(log.connection, log.clock, log.machine)
        bodies = [_text(each) for each in act.add]
        ids = tuple(
            revisions.digest(now.stamp, now.machine, place, body)[:16]
            for place, body in enumerate(bodies)
        )
        changes = [Change(entry, "", body) for entry, body in zip(ids, bodies, strict=True)]
        wanted: list[tuple[str, str | None]] = [(each.id, _text(each)) for each in act.edit]
        wanted += [(each.id, _text(each.thing)) for each in act.change]
        wanted += [(each, None) for each in act.drop]
        for entry, body in wanted:
            head = _head(log, entry)
            if head.body != body:
                changes.append(Change(entry, head.id, body))
        if changes:
            log.write(_kind(act), changes)
    return ids


def _kind(act: Act) -> str:
    if act.change or act.edit:
        return "edit"
    return "add" if act.add else "delete"


def _text(thing: Entry | Holding) -> str:
    return to_text(thing) if isinstance(thing, Entry) else sorts.to_text(thing)


def _head(log: Log, entry: str) -> revisions.Revision:
    head = revisions.current(log.connection, entry)
    if head is None or head.body is None:
        raise InputError(f"'{entry}' is not in the log")
    return head


def _read(body: str, sort: type[H]) -> H:
    with as_kept():
        thing = sorts.from_text(body)
    assert isinstance(thing, sort)
    return thing
