"""A piece that was examined and is logged: it leaves the table, and undo puts it back.

The act that logs it names its draft as its target, and the entry holds the piece file with every
finding; so the record alone says what lay on the table before, and nothing is kept twice.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from typing import TYPE_CHECKING

from appraise.base.errors import InputError
from appraise.records.entry import Entry
from appraise.records.record_types import from_text, to_text
from appraise.store import current_state, drafts, revisions
from appraise.store.drafts import Draft
from appraise.store.revisions import Change, Revision

if TYPE_CHECKING:
    from appraise.store.log import Log


def settle(log: Log, entry: Entry, draft: str) -> Entry:
    """Log a piece and take its draft off the table: one act, which one undo takes back.

    Args:
        log: The log to write to.
        entry: Without an id; its piece file is what undo puts back.
        draft: The draft's id.

    Returns:
        The entry under its id.
    """
    body = to_text(entry)
    with log.transaction():
        now = revisions.moment(log.connection, log.clock, log.machine)
        given = revisions.digest(now.stamp, now.machine, 0, body)[:16]
        written = revisions.made(now, "add", [Change(given, "", body)], target=draft)
        revisions.insert(log.connection, written)
        current_state.follow(log.connection, written)
        drafts.drop(log.connection, draft)
    return entry.named(given)


def follow_draft(
    connection: sqlite3.Connection, kind: str, draft: str, act: Sequence[Revision], time: str
) -> bool:
    """Let a draft follow the act that logged it, which was undone or done again.

    A draft that was changed after an undo stays on the table when the act is done again.

    Args:
        connection: Inside a writing transaction.
        kind: undo or redo.
        draft: The draft's id.
        act: The revisions of the act that logged it.
        time: Now, ISO 8601 in UTC.

    Returns:
        Whether the draft was put back, or taken off.
    """
    text = _piece_in(act)
    if not text:
        return False
    if kind == "undo":
        drafts.save(connection, Draft(draft, time, text))
        return True
    known = {one.id: one.text for one in drafts.kept(connection)}
    return known.get(draft) == text and drafts.drop(connection, draft)


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
