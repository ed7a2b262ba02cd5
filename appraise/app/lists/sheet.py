"""What a list of records and the page of one have in common: being at a record."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from textual import events
from textual.binding import BindingsMap

from appraise.app.actions import bindings_of
from appraise.app.photos import drop_on
from appraise.app.session import READING
from appraise.app.sheet import Sheet
from appraise.app.undoing import Undoes

if TYPE_CHECKING:
    from appraise.app.lists.spec import RecordSpec
    from appraise.records.stored import Stored


class RecordSheet(Undoes, Sheet[None]):
    """A screen on which one is at a record of some type, or at none."""

    AUTO_FOCUS = ""
    spec: RecordSpec[Any]
    _begun = False

    def be_for(self, spec: RecordSpec[Any], area: str) -> None:
        """Let this be the screen of a type of record, with the keys of a place."""
        self.spec, self.AREA, self.SHOWS = spec, area, spec.undoes
        self._bindings = BindingsMap(bindings_of(area))

    @property
    def here(self) -> Stored[Any] | None:
        return None

    def read(self, seek: str = "") -> None:
        """Read the log anew; `seek` is the id of the record to be at."""

    def on_screen_resume(self) -> None:
        """Read the log again: something may have been done on another screen."""
        if self._begun:
            self.read()
        self._begun = True

    def ready(self) -> None:
        self.read()

    def changed(self) -> None:
        """The record one is at was changed."""
        self.session.changes += 1
        self.read()

    def on_paste(self, event: events.Paste) -> None:
        """A photo that is dropped here is one of the record one is at."""
        here = self.here
        if here is not None:
            drop_on(self, self.spec.album(self.session, here), event.text, self.changed)

    def gone(self) -> None:
        self.read()

    def show(self, one: Stored[Any]) -> None:
        """Show a record in full."""

    def action_act(self, name: str) -> None:
        act, here = self.spec.acts[name], self.here
        if act.knows and self.session.knowledge is None:
            self.say(READING)
        elif here is not None or act.free:
            act.do(self, here)
