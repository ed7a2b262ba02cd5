"""Records in and out of the log: each change is a revision.

Whatever belongs to one act is written as one, prices and other records together, so that one undo
takes all of it back.
"""

from functools import lru_cache
from typing import TypeVar

from appraise.base.errors import InputError
from appraise.records.fields import Record, title_of
from appraise.records.record_types import from_text, name_of
from appraise.records.stored import ChangeSet, Stored
from appraise.store import current_state
from appraise.store.faults import as_kept
from appraise.store.log import Log

R = TypeVar("R", bound=Record)


def held(log: Log, sort: type[R]) -> tuple[Stored[R], ...]:
    """All records of a type, the one begun first in front; what cannot be read is left out."""
    with log.snapshot():
        rows = current_state.of_type(log.connection, name_of(sort))
        found = ((entry, _read(body)) for entry, body in rows)
        return tuple(Stored(entry, thing) for entry, thing in found if isinstance(thing, sort))


def keeps(log: Log, *names: str) -> bool:
    """Whether there is a record of any of these types; no dataclass is imported for it."""
    with log.snapshot():
        return any(current_state.of_type(log.connection, name) for name in names)


def one(log: Log, sort: type[R], ref: str) -> Stored[R]:
    """The record of that type whose id begins with `ref`, or whose title is `ref`.

    Raises:
        InputError: when there is none, or more than one.
    """
    name, start = name_of(sort), ref.strip().lower()
    known = held(log, sort)
    found = [each for each in known if start and each.id.startswith(start)]
    found = found or [each for each in known if title_of(each.thing).lower() == start]
    if len(found) == 1:
        return found[0]
    if not found:
        raise InputError(f"no {name} '{ref}' in the log", mend=f"'appraise {name} list' shows all.")
    ids = ", ".join(each.id for each in found[:3])
    raise InputError(f"'{ref}' is more than one {name} ({ids})", mend="Write more of its id.")


def keep(log: Log, thing: R) -> Stored[R]:
    """Keep a new record."""
    (entry,) = log.commit((thing,))
    return Stored(entry, thing)


def change(log: Log, now: Stored[R], was: R | None = None) -> Stored[R]:
    """Keep a record as it is now handed in, under its id.

    `was`: as the editor saw it; what another program changed meanwhile is not overwritten.

    Raises:
        InputError: when it is not in the log, or was changed meanwhile.
    """
    with log.transaction():
        if was is not None:
            log.unchanged(now.id, was)
        commit(log, ChangeSet(change=(now,)))
    return now


def commit(log: Log, act: ChangeSet) -> tuple[str, ...]:
    """Write an act as `Log.commit` does, and say the ids of what was added."""
    edits = ((each.id, each) for each in act.edit)
    return log.commit(act.add, (*edits, *((one.id, one.thing) for one in act.change)), act.drop)


def _read(body: str) -> Record:
    with as_kept():
        return _parsed(body)


@lru_cache(maxsize=4_096)
def _parsed(body: str) -> Record:
    """A record by its text, read once: records never change, and 500 take 70 ms to read."""
    return from_text(body)
