"""The page of every record: what is known of it, its photos, and its history."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from appraise.app.lines import EMPTY, Line, fold, line
from appraise.app.lists.sheet import RecordSheet
from appraise.app.lists.spec import RecordSpec
from appraise.app.page import Page
from appraise.app.photos import with_photos
from appraise.app.widgets.reading import Write
from appraise.commands.kinds import KINDS
from appraise.records.record_types import from_text
from appraise.records.stored import Stored
from appraise.store.changes import changes
from appraise.store.machines import Machine
from appraise.store.revisions import Revision

DONE = {
    "add": "added",
    "edit": "edited",
    "delete": "removed",
    "undo": "undone",
    "redo": "redone",
    "import": "imported",
    "settle": "resolved after a merge",
}
REMOVED = "This was removed. u: undo."


class RecordPage(RecordSheet, Page):
    """One record, as its spec has it."""

    def __init__(self, spec: RecordSpec[Any], one: Stored[Any]) -> None:
        super().__init__(KINDS[spec.name].called(one.thing), self.lines)
        self.be_for(spec, spec.page_area)
        self.stored = one
        self.there = True
        self._told: Write | None = None
        self._history: tuple[Revision, ...] = ()

    @property
    def here(self) -> Stored[Any] | None:
        """The record; None once it was removed."""
        return self.stored if self.there else None

    def on_mount(self) -> None:
        self.read()

    def read(self, seek: str = "") -> None:
        session, kind = self.session, KINDS[self.spec.name]

        def look() -> None:
            found = next((one for one in kind.every(session.log) if one.id == self.stored.id), None)
            self.there = found is not None
            self.stored = found or self.stored
            self._history = session.log.history(self.stored.id)
            self._told = self.spec.facts(session, self.stored)

        if self.attempt(look):
            self.heading = kind.called(self.stored.thing)
        self.redraw()

    def lines(self, width: int) -> Sequence[Line]:
        """What is known of it, and its history."""
        if not self.there:
            return [EMPTY, line((REMOVED, "doubt"))]

        def after(room: int) -> list[Line]:
            return history_lines(self._history, room, self.session.log.signs)

        album = self.spec.album(self.session, self.stored)
        return with_photos(self.session, album, width, self.size.height, self.facts, after)

    def facts(self, width: int) -> Sequence[Line]:
        return self._told(width) if self._told else ()

    def gone(self) -> None:
        """It was removed: back to where one was."""
        self.dismiss(None)


def history_lines(history: Sequence[Revision], width: int, own: Machine) -> list[Line]:
    """How a record came to be what it is, the latest change first; what others did says so."""
    out = [line(("history, the latest first", "head"))]
    for row in _history(history, own):
        out += fold(row, width, "  ")
    return out


def _history(history: Sequence[Revision], own: Machine) -> Iterator[str]:
    for place, one in enumerate(history):
        older = history[place + 1] if place + 1 < len(history) else None
        day, _, rest = one.time.partition("T")
        changed = _changed(older, one)
        says = f": {changed}" if changed else ""
        where = "" if one.machine in own.names else f" on {own.calls(one.machine)}"
        yield f"{day} {rest[:5]}{where}, {DONE.get(one.kind, one.kind)}{says}"


def _changed(older: Revision | None, newer: Revision) -> str:
    """What an edit changed, field by field."""
    if older is None or older.body is None or newer.body is None:
        return ""
    return ", ".join(changes(from_text(older.body), from_text(newer.body)))
