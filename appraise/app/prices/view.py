"""The Prices screen: the table, and what is done to its entries."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType

from appraise.app.actions import bindings_of
from appraise.app.prices import deeds
from appraise.app.prices.disagreements import open_disagreements
from appraise.app.prices.editor import Cell, Editing, words_for
from appraise.app.prices.entry import EntryPage
from appraise.app.prices.pricetable import ABOVE, PriceTable
from appraise.app.prices.rows import columns
from appraise.app.undoing import Undoes
from appraise.records.entry import Entry
from appraise.store.search import EntryQuery, place_of

FIRST = "price"
"""The cell in which editing in place begins."""


class PricesScreen(Undoes, PriceTable, inherit_bindings=False):
    """The log of prices."""

    SHOWS = frozenset({"price"})
    BINDINGS: ClassVar[list[BindingType]] = bindings_of("prices")

    def __init__(self) -> None:
        super().__init__()
        self._editing: Editing | None = None

    def compose(self) -> ComposeResult:
        """The table, and the line that lies over a cell being edited."""
        yield from super().compose()
        yield Cell(self.move_on, self.keep_cells, self.end_editing)

    def as_edited(self, entry: Entry) -> Entry:
        """The entry one is at, with what was typed into it so far."""
        return self._editing.entry if self._editing else entry

    def on_screen_suspend(self) -> None:
        """Another screen comes over this one: editing in place ends, and nothing is changed."""
        self.end_editing()

    # Editing in place

    def action_edit(self) -> None:
        """Edit the entry where it stands."""
        if self.here is not None:
            self._editing = Editing(
                self.here, self.session.settings.currency, words_for(self.session)
            )
            self.keys_of("cell")
            self._edit(FIRST)

    def _edit(self, column: str) -> None:
        if self._editing is not None:
            row = ABOVE + self._ledger.at - self._ledger.top
            self._editing.show(self.query_one(Cell), columns(self.size.width), column, row)
            self.redraw()

    def move_on(self, by: int) -> None:
        """To another cell, unless this one holds a mistake."""
        editing = self._editing
        if editing is not None and self.attempt(lambda: editing.take(self.query_one(Cell))):
            self._edit(editing.beside(columns(self.size.width), by))

    def keep_cells(self) -> None:
        """Keep the entry as it was edited."""
        editing, log = self._editing, self.session.log
        if editing is None or not self.attempt(lambda: editing.take(self.query_one(Cell))):
            return
        if editing.entry == editing.was:
            self.end_editing()
        elif self.attempt(lambda: log.edit(editing.entry, was=editing.was)):
            self.session.changes += 1
            self.end_editing()
            self.read()

    def end_editing(self) -> None:
        """Back to the table; what was not kept stays as it was."""
        if self._editing is not None:
            self._editing = None
            cell = self.query_one(Cell)
            cell.styles.display = "none"
            cell.disabled = True
            self.set_focus(None)
            self.keys_of(self.AREA)
            self.redraw()

    # Entries

    def action_open(self) -> None:
        """The entry with its history; in an empty table, what the filter may have meant."""
        entry = self.here
        if entry is None:
            self.take_meant()
            return

        def open_page() -> None:
            page = EntryPage(entry, self.session.log.history(entry.id))
            self.app.push_screen(page, lambda _: self.read())

        self.attempt(open_page)

    def action_log(self) -> None:
        """Log a price in one line."""
        deeds.log_price(self, self._logged)

    def action_duplicate(self) -> None:
        """Log another entry like this one."""
        if self.here is not None:
            deeds.duplicate(self, self.here, self._logged)

    def _logged(self, entry: Entry) -> None:
        """Go to a new entry, unless the filter leaves it out."""
        self.read()
        log = self.session.log

        def find() -> None:
            with log.snapshot():
                place = place_of(
                    log.connection, EntryQuery(self._query, self._order.sort), entry.id
                )
            self._ledger.at = self._ledger.at if place is None else place

        if self.attempt(find):
            self.redraw()
            self.say("Logged. u: undo.", "good")

    def action_fields(self) -> None:
        """Edit every field of the entry."""
        if self.here is not None:
            deeds.edit(self, self.here, self.read)

    def action_hold(self) -> None:
        """Keep the piece of a purchase."""
        deeds.hold(self, self.here)

    def action_remove(self) -> None:
        """Delete the entry (u: undo)."""
        if self.here is not None:
            deeds.remove(self, self.here, self.read)

    def action_disagree(self) -> None:
        """Resolve entries changed on two computers."""
        open_disagreements(self, self.read)

    def reread(self) -> None:
        """Show the log as it is now."""
        self.read()
