"""Undo and redo as acts of their own, found in the record: they outlive the program."""

import re
import sqlite3
from collections.abc import Iterator
from itertools import islice

from appraise.base.dataclass import dataclass
from appraise.base.errors import AppraiseError, InputError
from appraise.records.record_types import from_text, type_of
from appraise.store import current_state, drafts, revisions
from appraise.store.machines import Machine
from appraise.store.revisions import Change, Clock, Revision

_OWN = re.compile(r"-[0-9a-f]{8}\Z")  # what a machine's own name has behind its host's
_BY_HAND = 1_000  # revisions of an act that are looked through for what was logged with a draft
_DONE = {"undo": "nothing to undo", "redo": "nothing to redo"}


@dataclass(frozen=True, slots=True)
class Step:
    """What an undo or a redo did.

    Attributes:
        kind: undo or redo.
        of: What the act concerned had done: add, edit, delete, settle or import.
        left: Ids of entries left as they are, since another machine changed them later.
        named: What the first thing of the act is called; empty where it has no title.
        record: What that tells, where it is a price: bought, refused and the like.
        draft: The piece that came back to the table, or left it again; empty for none.
        types: What it concerns: 'price', types of other records, 'table' for a logged piece.
    """

    kind: str
    of: str
    entries: tuple[str, ...]
    left: tuple[str, ...]
    named: str = ""
    record: str = ""
    draft: str = ""
    types: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class _Act:
    act: str
    stamp: int
    kind: str
    target: str


def next_step(connection: sqlite3.Connection, machine: Machine, kind: str) -> _Act | None:
    """The act that the next undo or redo on this machine concerns."""
    find = _standing if kind == "undo" else _taken_back
    return find(_backwards(connection, machine))


def take_step(connection: sqlite3.Connection, clock: Clock, machine: Machine, kind: str) -> Step:
    """Undo or redo one act of this machine, as a new act.

    `kind`: undo or redo.

    Raises:
        InputError: when there is nothing to do.
    """
    act = next_step(connection, machine, kind)
    if act is None:
        raise InputError(_DONE[kind])
    back = _Back(connection, act, kind)
    when = revisions.moment(connection, clock, machine.name)
    current_state.write(connection, when, kind, back, target=act.act)
    left = tuple(each for each, stands in back.stood.items() if not stands)
    changed = tuple(each for each, stands in back.stood.items() if stands)
    written = _first(connection, act)
    draft = act.target if act.kind == "add" and not left else ""
    if draft and not drafts.follow(connection, kind, draft, written, when.time):
        draft = ""
    about = _told(connection, written[0])
    return Step(kind, act.kind, changed, left, *about, draft, _types(connection, act))


def coming_step(connection: sqlite3.Connection, machine: Machine, kind: str) -> Step | None:
    """What the next undo or redo would concern, before it is done; None where there is none."""
    act = next_step(connection, machine, kind)
    if act is None:
        return None
    sql = "SELECT entry FROM revision WHERE stamp = ? AND act = ? ORDER BY number"
    entries = tuple(each for (each,) in connection.execute(sql, (act.stamp, act.act)))
    draft = act.target if act.kind == "add" else ""
    about = _told(connection, _first(connection, act)[0])
    return Step(kind, act.kind, entries, (), *about, draft, _types(connection, act))


class _Back:
    """What an undo or a redo makes of each entry of an act, gone through as often as wanted.

    Attributes:
        stood: Whether each entry was as the act, or what it took back, had left it.
    """

    def __init__(self, connection: sqlite3.Connection, act: _Act, kind: str) -> None:
        self._connection = connection
        self._act = act
        self._kind = kind
        self.stood: dict[str, bool] = {}

    def __iter__(self) -> Iterator[Change]:
        for revision in revisions.of_act(self._connection, self._act.act, self._act.stamp):
            now = revisions.current(self._connection, revision.entry) or revision
            before, after = _before(self._connection, revision), revision.body
            wanted, expected = (before, after) if self._kind == "undo" else (after, before)
            stands = now.body == expected
            self.stood[revision.entry] = stands
            yield Change(revision.entry, now.id, wanted if stands else now.body)


def _first(connection: sqlite3.Connection, act: _Act) -> tuple[Revision, ...]:
    """The first revisions of an act: all of one that a person did by hand."""
    return tuple(islice(revisions.of_act(connection, act.act, act.stamp), _BY_HAND))


def _types(connection: sqlite3.Connection, act: _Act) -> frozenset[str]:
    written = revisions.of_act(connection, act.act, act.stamp)
    found = {type_of(each.body or _before(connection, each) or "") for each in written}
    return frozenset(found | ({"table"} if act.kind == "add" and act.target else set()))


def _told(connection: sqlite3.Connection, revision: Revision) -> tuple[str, str]:
    """What the thing of a revision is called, and of a price what it tells; '' where unknown."""
    body = revision.body or _before(connection, revision)
    try:
        thing = from_text(body) if body else None
    except AppraiseError:
        return "", ""
    title = getattr(thing, "title", "") or getattr(thing, "motif", "")
    return str(title), str(getattr(thing, "record", ""))


def _before(connection: sqlite3.Connection, revision: Revision) -> str | None:
    """What an entry was before a revision: the body of the newest one that it replaced."""
    for parent in revision.parents.split():
        found = revisions.named(connection, parent)
        if found:
            return found.body
    return None


def _backwards(connection: sqlite3.Connection, machine: Machine) -> Iterator[_Act]:
    """Acts of this machine from the last one back, under whichever of its names."""
    names = {each for name in machine.names for each in (name, _OWN.sub("", name))}
    sql = (
        "SELECT act, stamp, kind, target FROM revision "
        f"WHERE machine IN ({', '.join('?' * len(names))}) AND stamp < ? "
        "ORDER BY stamp DESC LIMIT 1"
    )
    stamp = 2**63 - 1
    while row := connection.execute(sql, (*names, stamp)).fetchone():
        act = _Act(*row)
        yield act
        stamp = act.stamp


def _standing(acts: Iterator[_Act]) -> _Act | None:
    """The latest act that stands: each undo passed on the way back hides one act or redo."""
    hidden = 0
    redone = ""
    for act in acts:
        if act.act == redone:
            return act
        if redone:
            continue
        if act.kind == "undo":
            hidden += 1
        elif hidden:
            hidden -= 1
        elif act.kind == "redo":
            redone = act.target
        else:
            return act
    return None


def _taken_back(acts: Iterator[_Act]) -> _Act | None:
    """The act that the latest undo not yet redone took back; a new act ends the search."""
    redone = 0
    wanted = ""
    for act in acts:
        if act.act == wanted:
            return act
        if wanted:
            continue
        if act.kind == "undo" and redone:
            redone -= 1
        elif act.kind == "undo":
            wanted = act.target
        elif act.kind == "redo":
            redone += 1
        else:
            return None
    return None
