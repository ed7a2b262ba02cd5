"""Undo and redo, told by what was done; and the act by which a piece leaves the table."""

from __future__ import annotations

from typing import TYPE_CHECKING

from appraise.base.dataclass import dataclass

if TYPE_CHECKING:
    from appraise.commands.workspace import Workspace
    from appraise.records.entry import Entry
    from appraise.store.undo import Step

DID = {
    "add": "the new entry",
    "edit": "an edit of",
    "delete": "the removal of",
    "import": "the import of",
    "settle": "the resolved entry of",
}
LOGGED = {"bought": "the purchase of"}
OTHERWISE = "the decision not to buy"
"""How an act is told by which an examined piece was logged."""
NAMELESS = "an untitled record"
WORDS = {"undo": ("Undo", "Undone"), "redo": ("Redo", "Redone")}


@dataclass(frozen=True, slots=True)
class Stepped:
    """What was undone or redone.

    Attributes:
        says: A sentence that names it, and no amount.
    """

    says: str
    step: Step


def asks(work: Workspace, kind: str, shown: frozenset[str]) -> str:
    """A question before an undo or redo of what is not shown; '' where it may be done at once.

    `shown`: the types of record that are in sight.
    """
    with work.opened() as log:
        step = log.coming(kind)
    if step is None or step.types & shown:
        return ""
    return f"{WORDS[kind][0]} {_of(step)}? It was not done on this screen."


def take(work: Workspace, kind: str) -> Stepped:
    """Undo or redo the last act; all that belongs to it comes back, a logged piece to the table.

    Raises:
        InputError: when there is nothing to undo or redo.
    """
    with work.opened() as log:
        step = log.undo() if kind == "undo" else log.redo()
    return Stepped(_told(step), step)


def _of(step: Step) -> str:
    """What an act did, by name."""
    done = DID.get(step.of, step.of)
    if step.draft:
        done = LOGGED.get(step.record, OTHERWISE)
    many = len(step.entries) + len(step.left)
    more = f" and {many - 1} more" if many > 1 else ""
    return f"{done} {step.named or NAMELESS}{more}"


def _told(step: Step) -> str:
    told = f"{WORDS[step.kind][1]}: {_of(step)}."
    if step.draft:
        back = step.kind == "undo"
        told += " The piece is back on the table." if back else " The piece has left the table."
    if step.left:
        told += f" {len(step.left)} left as they are: changed on another computer since."
    return told


def log_piece(work: Workspace, entry: Entry, draft: str) -> Entry:
    """Log a piece as bought or as not bought; it leaves the table in the same act.

    `entry`: the price without an id; `record` says what became of the piece.
    """
    from appraise.store.drafts import settle

    with work.opened() as log:
        return settle(log, entry, draft)
