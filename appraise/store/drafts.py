"""Drafts: pieces under examination, kept at each answer so that nothing is lost."""

import sqlite3
from dataclasses import dataclass

from appraise.base.errors import InputError


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
    """All drafts, the one kept last first."""
    rows = connection.execute("SELECT id, time, text FROM draft ORDER BY time DESC, id")
    return tuple(Draft(*row) for row in rows)


def drop(connection: sqlite3.Connection, draft_id: str) -> bool:
    """Forget a draft; False when there was none."""
    return connection.execute("DELETE FROM draft WHERE id = ?", (draft_id,)).rowcount > 0
