"""Undo and redo from any screen: what it takes back, by name, and where that is now."""

from __future__ import annotations

from typing import Any, cast

from appraise.app.sheet import Question
from appraise.commands import undo


class Undoes:
    """What a screen is besides on which u undoes.

    `SHOWS` are the types of record that it shows; an act that concerns none of them is asked about.
    """

    SHOWS: frozenset[str] = frozenset()

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
    session = sheet.session
    asked: list[str] = []

    def take() -> None:
        told: list[str] = []
        if sheet.attempt(lambda: told.append(undo.take(session, kind).says)):
            session.changes += 1
            session.read_book()
            sheet.reread()
            sheet.say(told[0], "good")

    def answered(yes: bool | None) -> None:
        if yes:
            take()

    if not sheet.attempt(lambda: asked.append(undo.asks(session, kind, sheet.SHOWS))):
        return
    if asked[0]:
        sheet.app.push_screen(Question(asked[0], session.marks), answered)
    else:
        take()
