"""What can be done to a record of any type: add, list, find, edit, remove, and its history."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import field
from typing import TYPE_CHECKING, Generic, TypeVar

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.records.fields import Record, changed, written

if TYPE_CHECKING:
    from appraise.commands.kinds import RecordCommands
    from appraise.commands.workspace import Workspace
    from appraise.records.stored import Stored
    from appraise.store.revisions import Revision

R = TypeVar("R", bound=Record)


@dataclass(frozen=True, slots=True)
class Done(Generic[R]):
    """What a use case did.

    Attributes:
        says: A sentence, or the head of what is shown.
        stored: The record as it is now; of one that was removed, as it was.
        notes: What there is to think of.
    """

    says: str
    stored: Stored[R]
    notes: Sequence[str] = field(default=())


def add(
    work: Workspace, kind: RecordCommands[R], begun: R, texts: Mapping[str, str], own: bool = False
) -> Done[R]:
    """Add a record.

    `own`: whether its piece's entry is to be marked as the user's own work.

    Raises:
        InputError: one line; its `where` is the field.
    """
    by = work.author(kind.knows)
    with work.opened() as log:
        thing = changed(begun, kind.whole(log, _new(begun, texts)), by)
        stored = kind.keep(log, kind.checked(thing), own)
    return Done(f"{kind.added}: {stored.id[:8]}", stored)


def _new(thing: Record, texts: Mapping[str, str]) -> dict[str, str]:
    """The texts that say something else than the record does."""
    before = written(thing)
    return {name: text for name, text in texts.items() if text != before.get(name)}


def found(work: Workspace, kind: RecordCommands[R], ref: str) -> Stored[R]:
    """The record that is meant."""
    with work.opened() as log:
        return kind.find(log, ref)


def listed(work: Workspace, kind: RecordCommands[R], every: bool = True) -> tuple[Stored[R], ...]:
    """The records of a type; those that matter less stand last, or are left out."""
    with work.opened() as log:
        rows = sorted(kind.every(log), key=lambda one: not kind.first(one.thing))
    return tuple(one for one in rows if every or kind.shown(one.thing))


def edit(
    work: Workspace,
    kind: RecordCommands[R],
    one: Stored[R] | str,
    texts: Mapping[str, str],
    own: bool = False,
    then: Callable[[R], R] = lambda thing: thing,
) -> Done[R]:
    """Change fields of a record.

    `one`: the record as its editor saw it, or what names it.
    `own`: whether its piece's entry is to be marked as the user's own work.

    Raises:
        InputError: when it was changed meanwhile, or a text does not fit.
    """
    from appraise.records.stored import Stored

    by = work.author(kind.knows)
    with work.opened() as log:
        was = kind.meant(log, one)
        thing = then(changed(was.thing, kind.whole(log, _new(was.thing, texts)), by))
        now = kind.change(log, Stored(was.id, kind.checked(thing)), was.thing, own)
    return Done("", now)


def remove(work: Workspace, kind: RecordCommands[R], one: Stored[R] | str) -> Done[R]:
    """Take a record off the log; undo restores it."""
    with work.opened() as log:
        gone = kind.meant(log, one)
        kind.drop(log, gone)
    return Done(f"removed: {kind.called(gone.thing)}", gone)


def history(work: Workspace, kind: RecordCommands[R], ref: str) -> tuple[Revision, ...]:
    """Every state that a record has had, newest first; one that was removed is named by its id."""
    with work.opened() as log:
        try:
            return log.history(kind.find(log, ref).id)
        except InputError:
            return log.history(ref)
