"""Editing in place: a line to type in that lies over one cell of the table."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.binding import BindingType
from textual.suggester import SuggestFromList
from textual.widgets import Input

from appraise.app.actions import bindings_of
from appraise.app.discretion import holds_amount
from appraise.app.prices.cells import Words, choices_of, text_of, with_cell
from appraise.app.session import Session
from appraise.app.widgets.columns import ColumnPlace
from appraise.exchange.words import as_written
from appraise.records.entry import Entry


def words_for(session: Session) -> Words:
    """What understands words of the trade: the vocabulary, once the knowledge has been read."""
    if session.knowledge is None:
        return as_written
    from appraise.listing.cellwords import cell_words  # 30 ms, first time

    return cell_words(session.knowledge)


class Cell(Input):
    """The line over the cell that is edited."""

    BINDINGS: ClassVar[list[BindingType]] = bindings_of("cell")

    def __init__(self) -> None:
        super().__init__(id="cell", disabled=True)
        self.styles.layer = "over"
        self.styles.display = "none"


class Editing:
    """An entry being edited cell by cell; nothing is kept until all of it is right."""

    def __init__(self, entry: Entry, currency: str, words: Words) -> None:
        self.was = entry
        self.entry = entry
        self.column = ""
        self._currency = currency
        self._words = words

    def show(
        self,
        typed: Cell,
        places: Sequence[ColumnPlace],
        column: str,
        at: tuple[int, int],
        hides: bool,
    ) -> None:
        """Lay the line over a cell.

        Args:
            typed: The line.
            places: The columns that are on the screen.
            column: The column wanted; the first one where it is not shown.
            at: Where the entry's row begins on the screen.
            hides: Whether amounts are hidden.
        """
        place = next((one for one in places if one.column.name == column), places[0])
        self.column = place.column.name
        words = choices_of(self.column)
        typed.suggester = SuggestFromList(words, case_sensitive=False) if words else None
        typed.value = text_of(self.entry, self.column)
        typed.password = hides and holds_amount(typed.value)
        typed.styles.offset = (at[0] + place.start - 1, at[1])
        typed.styles.width = place.width + 3  # a cell of its own on either side, and the cursor's
        typed.styles.display = "block"
        typed.disabled = False
        typed.screen.set_focus(typed)  # at once: the next key is for the cell
        typed.action_end()

    def take(self, typed: Cell) -> None:
        """Understand what stands in the line.

        Raises:
            InputError: one line, when it does not fit.
        """
        if typed.value != text_of(self.entry, self.column):
            self.entry = with_cell(
                self.entry, self.column, typed.value, self._currency, self._words
            )

    def beside(self, places: Sequence[ColumnPlace], by: int) -> str:
        """The column so many further on, round and round."""
        names = [one.column.name for one in places]
        return names[(names.index(self.column) + by) % len(names)]
