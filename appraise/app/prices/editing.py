"""An entry with what was typed into its form."""

from __future__ import annotations

from appraise.app.fieldwords import Values
from appraise.base.errors import InputError
from appraise.records.entry import Entry
from appraise.records.fields import changed
from appraise.records.values import Author

PRICES = ("asked", "offered", "paid", "hammer")


def entry_with(entry: Entry, values: Values, by: Author) -> Entry:
    """The entry with what was typed.

    Raises:
        InputError: one line; its `where` is the field.
    """
    return priced(entry, changed(entry, values, by))


def priced(entry: Entry, after: Entry) -> Entry:
    """The entry as it is to be; its amounts are above 0, and one that had a price keeps one."""
    for name in PRICES:
        money = getattr(after, name)
        if money != getattr(entry, name) and money is not None and money.amount <= 0:
            raise InputError("an amount must be above 0", name)
    if after.price is None and entry.price is not None:
        raise InputError("an entry needs an amount", "paid", "Remove it instead.")
    return after
