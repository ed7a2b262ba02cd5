"""An entry as a page, with its history and pictures; it can be edited and removed from here."""

from __future__ import annotations

from typing import ClassVar

from textual.binding import BindingType

from appraise.app.actions import bindings_of
from appraise.app.lines import Line
from appraise.app.page import Page
from appraise.app.prices import album, deeds
from appraise.app.prices.entrylines import entry_lines
from appraise.app.prices.standing import standing_lines
from appraise.app.prices.turnout import tell_outcome
from appraise.app.reports import tell_entry
from appraise.records.entry import Entry
from appraise.store.revisions import Revision


class EntryPage(Page, inherit_bindings=False):
    """One entry."""

    AREA = "entry"
    BINDINGS: ClassVar[list[BindingType]] = bindings_of("entry")

    def __init__(self, entry: Entry, history: tuple[Revision, ...]) -> None:
        super().__init__(
            entry.title or entry.motif or "entry",
            self.lines,
        )
        self._entry = entry
        self._history = history

    def lines(self, width: int) -> list[Line]:
        """How its price stands, then the entry and its history."""
        hides = self.session.discreet
        standing = [] if hides else standing_lines(self.session, self._entry, width)
        return [*standing, *entry_lines(self._entry, self._history, width)]

    def action_edit(self) -> None:
        """Edit the entry."""
        deeds.edit(self, self._entry, self._again)

    def action_remove(self) -> None:
        """Delete the entry (u: undo)."""
        deeds.remove(self, self._entry, self._gone)

    def action_outcome(self) -> None:
        """Record what became of the piece."""
        tell_outcome(self, self._entry, self._again)

    def action_hold(self) -> None:
        """Keep the piece of the purchase."""
        deeds.hold(self, self._entry)

    def action_picture(self) -> None:
        """Show a picture."""
        album.show_picture(self, self._entry)

    def action_attach(self) -> None:
        """Add a picture."""
        album.add_picture(self, self._entry, self._again)

    def action_report(self) -> None:
        """A report on its piece, for one sort of reader."""
        tell_entry(self, self._entry)

    def action_detach(self) -> None:
        """List a picture no more."""
        album.drop_picture(self, self._entry, self._again)

    def _gone(self) -> None:
        self.dismiss(None)

    def _again(self) -> None:
        log = self.session.log

        def read() -> None:
            self._entry = log.entry(self._entry.id)
            self._history = log.history(self._entry.id)

        self.attempt(read)
        self.redraw()
