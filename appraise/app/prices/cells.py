"""One cell of the table as it is edited in place: its text, and the entry with what was typed."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from appraise.app.fieldwords import log_day_in, money_in, word_in, written
from appraise.base.errors import InputError
from appraise.exchange.words import as_written
from appraise.records.entry import MONEY_FIELDS, OPEN_WORDS, RECORDS, Entry

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
    value = getattr(entry, field_behind(entry, column))
    return written(value) if column == "price" else str(value)


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
    if name in MONEY_FIELDS:
        return _with_amount(entry, name, typed, currency)
    if name == "date":
        return replace(entry, date=log_day_in({name: typed}, name, entry.date))
    if name == "record":
        return replace(entry, record=word_in({name: typed}, name, RECORDS, entry.record))
    said = words(name, typed) if typed and name in OPEN_WORDS else typed
    changed: dict[str, str] = {name: said}
    return replace(entry, **changed)  # type: ignore[arg-type]


def _with_amount(entry: Entry, name: str, typed: str, currency: str) -> Entry:
    money = money_in({name: typed}, name, currency)
    changed = replace(entry, **{name: money})  # type: ignore[arg-type]
    if changed.price is None and entry.price is not None:
        raise InputError("an entry needs an amount", name, "Remove it instead.")
    return changed
