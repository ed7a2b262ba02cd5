"""Undo and redo from any screen: what it takes back, by name, and where that is now."""

from __future__ import annotations

from typing import Any, cast

from appraise.commands import undo


class Undoes:
    """What a screen is besides on which u undoes.

    `SHOWS` are the types of record that it shows; an act that concerns none of them is asked about.
    """

    SHOWS: frozenset[str] = frozenset()

    def read(self) -> None:
        """Read the log as it is after an undo or redo, and show it."""

    def action_undo(self) -> None:
        self._step("undo")

    def action_redo(self) -> None:
        self._step("redo")

    def _step(self, kind: str) -> None:
        """Undo or redo the last change to the log; ask first where it is not one of this screen."""
        sheet = cast(Any, self)
        session = sheet.session

        def take() -> None:
            done = sheet.tried(lambda: undo.take(session, kind))
            if done is not None:
                session.changes += 1
                session.read_book()
                sheet.read()
                sheet.say(done.says, "good")

        asks = sheet.tried(lambda: undo.asks(session, kind, self.SHOWS))
        if asks:
            sheet.confirm(asks, take)
        elif asks is not None:
            take()
