"""Undo and redo from any screen: what it takes back, by name, and where that is now."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, ClassVar, cast

from appraise.app.sheet import Question

if TYPE_CHECKING:
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


class Undoes:
    """What a screen is besides on which u undoes.

    `SHOWS` are the types of record that it shows; an act that concerns none of them is asked about.
    """

    SHOWS: ClassVar[frozenset[str]] = frozenset()

    def reread(self) -> None:
        """Show the log as it is after an undo or redo."""

    def action_undo(self) -> None:
        """Undo the last change to the log."""
        step_back(cast(Any, self), "undo")

    def action_redo(self) -> None:
        """Redo."""
        step_back(cast(Any, self), "redo")


def step_back(sheet: Any, kind: str) -> None:
    """Undo or redo the last change to the log; ask first where it is not one of this screen."""
    log = sheet.session.log
    coming: list[Step | None] = []

    def take() -> None:
        told: list[Step] = []
        if sheet.attempt(lambda: told.append(log.undo() if kind == "undo" else log.redo())):
            sheet.session.changes += 1
            sheet.session.read_book()
            sheet.reread()
            sheet.say(step_words(told[0]), "good")

    def answered(yes: bool | None) -> None:
        if yes:
            take()

    if not sheet.attempt(lambda: coming.append(log.coming(kind))):
        return
    step = coming[0]
    if step is None or step.types & sheet.SHOWS:
        take()
    else:
        asks = f"{WORDS[kind][0]} {_of(step)}? It was not done on this screen."
        sheet.app.push_screen(Question(asks, sheet.session.marks), answered)


def _of(step: Step) -> str:
    """What an act did, by name."""
    done = DID.get(step.of, step.of)
    if step.draft:
        done = LOGGED.get(step.record, OTHERWISE)
    many = len(step.entries) + len(step.left)
    more = f" and {many - 1} more" if many > 1 else ""
    return f"{done} {step.named or NAMELESS}{more}"


def step_words(step: Step) -> str:
    """One sentence on what was undone or redone; it names no amount."""
    told = f"{WORDS[step.kind][1]}: {_of(step)}."
    if step.draft:
        back = step.kind == "undo"
        told += " The piece is back on the table." if back else " The piece has left the table."
    if step.left:
        told += f" {len(step.left)} left as they are: changed on another computer since."
    return told
