"""Drafts: pieces under examination, kept at each answer so that nothing is lost.

A piece that is logged leaves the table, and undo puts it back: the act that logs it names its draft
as its target, and the entry holds the piece file with every finding. So the record alone says what
lay on the table before, and nothing is kept twice.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from typing import TYPE_CHECKING

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.records.entry import Entry
from appraise.records.record_types import from_text
from appraise.store.revisions import Revision

if TYPE_CHECKING:
    from appraise.store.log import Log


@dataclass(frozen=True, slots=True)
class Draft:
    """A piece that is being looked at.

    Attributes:
        id: The caller's name for it.
        time: When it was kept last, ISO 8601 in UTC.
        text: The piece file as it stands.
    """

    id: str
    time: str
    text: str


def save(connection: sqlite3.Connection, draft: Draft) -> None:
    """Keep a draft over the one of the same id.

    Raises:
        InputError: when its id or text cannot be written as UTF-8.
    """
    try:
        f"{draft.id}{draft.text}".encode()
    except UnicodeEncodeError as error:
        raise InputError("the draft holds a character that cannot be saved") from error
    connection.execute(
        "INSERT OR REPLACE INTO draft (id, time, text) VALUES (?, ?, ?)",
        (draft.id, draft.time, draft.text),
    )


def kept(connection: sqlite3.Connection) -> tuple[Draft, ...]:
    """All drafts, the one kept last first, whatever the clock said.

    A draft that is kept anew becomes the last row: a clock that was put back, or the demo's day
    moved under a running clock, changes no order.
    """
    rows = connection.execute("SELECT id, time, text FROM draft ORDER BY rowid DESC")
    return tuple(Draft(*row) for row in rows)


def drop(connection: sqlite3.Connection, draft_id: str) -> bool:
    """Forget a draft; False when there was none."""
    return connection.execute("DELETE FROM draft WHERE id = ?", (draft_id,)).rowcount > 0


def settle(log: Log, entry: Entry, draft: str) -> Entry:
    """Log a piece and take its draft off the table: one act, which one undo takes back.

    `entry`: without an id; its piece file is what undo puts back.

    Returns:
        The entry under its id.
    """
    with log.transaction():
        (given,) = log.commit((entry,), target=draft)
        drop(log.connection, draft)
    return entry.named(given)


def follow(
    connection: sqlite3.Connection, kind: str, draft: str, act: Sequence[Revision], time: str
) -> bool:
    """Let a draft follow the act that logged it, which was undone or done again.

    A draft that was changed after an undo stays on the table when the act is done again.

    `act`: the revisions of the act that logged it.

    Returns:
        Whether the draft was put back, or taken off.
    """
    text = _piece_in(act)
    if not text:
        return False
    if kind == "undo":
        save(connection, Draft(draft, time, text))
        return True
    known = {one.id: one.text for one in kept(connection)}
    return known.get(draft) == text and drop(connection, draft)


def _piece_in(act: Sequence[Revision]) -> str:
    """The piece file in the entry that an act added; empty where it cannot be read."""
    for each in act:
        try:
            thing = from_text(each.body or "")
        except InputError:
            continue
        if isinstance(thing, Entry):
            return thing.piece
    return ""
