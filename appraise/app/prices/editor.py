"""Editing in place: a line to type in that lies over one cell of the table."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from typing import ClassVar

from textual.binding import BindingType
from textual.suggester import SuggestFromList
from textual.widgets import Input

from appraise.app.actions import bindings_of
from appraise.app.discretion import holds_amount
from appraise.app.prices.actions import entry_with
from appraise.app.session import Session
from appraise.app.widgets.columns import ColumnPlace
from appraise.exchange.words import as_written
from appraise.records.entry import OPEN_WORDS, RECORDS, Entry
from appraise.records.fields import typed_fields
from appraise.records.values import Author


def words_for(session: Session) -> Words:
    """What understands words of the trade: the vocabulary, once the knowledge has been read."""
    if session.knowledge is None:
        return as_written
    from appraise.listing.cellwords import cell_words  # 30 ms, first time

    return cell_words(session.knowledge)


Words = Callable[[str, str], str]
"""Turns what was typed in a word field (field, text) into the field's word."""

SAYS_MOST = ("paid", "hammer", "asked", "offered")
"""The amounts in the order of `Entry.price`."""


def field_behind(entry: Entry, column: str) -> str:
    """The field that a column shows: of the amounts the one that says most, else what was paid."""
    if column != "price":
        return column
    return next((name for name in SAYS_MOST if getattr(entry, name)), SAYS_MOST[0])


def text_of(entry: Entry, column: str) -> str:
    """What stands in a cell when one begins to edit it."""
    return typed_fields(Entry)[field_behind(entry, column)].text(entry)


def choices_of(column: str) -> Sequence[str]:
    """The words that a cell may hold, where they are few."""
    return RECORDS if column == "record" else ()


def with_cell(
    entry: Entry, column: str, text: str, currency: str, words: Words = as_written
) -> Entry:
    """The entry with what was typed in a cell.

    Args:
        entry: As it was.
        column: The column's field.
        text: What was typed.
        currency: ISO 4217 code of an amount that names none.
        words: Understands words of the trade.

    Raises:
        InputError: one line, when it does not fit the field.
    """
    typed = " ".join(text.split())
    name = field_behind(entry, column)
    if not typed and name in ("date", "record"):
        return entry
    said = words(name, typed) if typed and name in OPEN_WORDS else typed
    return entry_with(entry, {name: said}, Author(currency, date.min))


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
