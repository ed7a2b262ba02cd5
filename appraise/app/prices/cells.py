"""One cell of the table as it is edited in place: its text, and the entry with what was typed."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date

from appraise.app.prices.actions import entry_with
from appraise.exchange.words import as_written
from appraise.records.entry import OPEN_WORDS, RECORDS, Entry
from appraise.records.fields import typed_fields
from appraise.records.values import Author

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
