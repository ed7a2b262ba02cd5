"""What is done to entries from a screen: edit, remove, undo, redo."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from appraise.app.fieldwords import Values
from appraise.app.form import Form
from appraise.app.prices.editing import entry_with, fields_of
from appraise.app.sheet import Question
from appraise.log.entries import Entry
from appraise.log.steps import Step

if TYPE_CHECKING:
    from appraise.app.sheet import Sheet

DID = {"add": "logging", "edit": "an edit", "delete": "a removal", "settle": "a settling"}


def edit(sheet: Sheet[Any], entry: Entry, then: Callable[[], None]) -> None:
    """A form with the entry's simple fields."""
    session = sheet.session

    def keep(values: Values) -> None:
        session.log.edit(entry_with(entry, values, session.settings.currency), was=entry)
        session.changes += 1

    def done(kept: bool | None) -> None:
        if kept:
            then()

    sheet.app.push_screen(Form(f"Edit: {_named(entry)}", fields_of(entry), keep), done)


def remove(sheet: Sheet[Any], entry: Entry, then: Callable[[], None]) -> None:
    """Take an entry off the log, once that was confirmed."""

    def take() -> None:
        sheet.session.log.remove(entry.id)
        sheet.session.changes += 1

    def done(yes: bool | None) -> None:
        if yes and sheet.attempt(take):
            then()

    sheet.app.push_screen(
        Question(f"Remove {_named(entry)}? u brings it back.", sheet.session.marks), done
    )


def step_back(sheet: Sheet[Any], kind: str) -> bool:
    """Undo or redo the last change to the log, and say what that was."""
    told: list[Step] = []
    log = sheet.session.log
    if not sheet.attempt(lambda: told.append(log.undo() if kind == "undo" else log.redo())):
        return False
    sheet.session.changes += 1
    step = told[0]
    left = f"; {len(step.left)} left, changed elsewhere" if step.left else ""
    word = "Undid" if kind == "undo" else "Did again"
    sheet.say(f"{word} {DID.get(step.of, step.of)}{left}.", "good")
    return True


def _named(entry: Entry) -> str:
    return entry.title or entry.motif or "the entry"
