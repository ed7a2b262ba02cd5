"""What is done to entries from a screen: log, edit, duplicate, remove, undo, redo."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from appraise.app import record_actions
from appraise.app.fieldwords import Values
from appraise.app.form import Form, FormField, fields_of
from appraise.app.prices.editing import entry_with, priced
from appraise.base.errors import InputError
from appraise.base.money import EXPONENTS
from appraise.records.entry import Entry
from appraise.records.stored import Stored

if TYPE_CHECKING:
    from appraise.app.sheet import Sheet

CURRENCY_NOTE = "Asked once; amounts without a currency are in it. Esc: leave it unchanged."


def with_currency(sheet: Sheet[Any], then: Callable[[], object]) -> None:
    """Go on, after asking once and for all which currency prices are in."""
    session = sheet.session
    if session.demo or session.log.currency_chosen:
        then()
        return
    usual = session.settings.currency

    def keep(values: Values) -> None:
        code = values["currency"].upper()
        if code not in EXPONENTS:
            raise InputError(
                f"'{code}' is not an ISO 4217 code", "currency", "Write USD, GBP, EUR."
            )
        session.choose_currency(code)

    def done(kept: bool | None) -> None:
        if kept or sheet.attempt(lambda: session.choose_currency(usual)):
            then()

    field = FormField("currency", "currency", usual, choices=tuple(EXPONENTS))
    title = "Which currency are your prices in?"
    sheet.app.push_screen(Form(title, [field], keep, CURRENCY_NOTE), done)


def log_price(sheet: Sheet[Any], then: Callable[[Entry], None]) -> None:
    """Log a price in one line."""

    def done(entry: Entry | None) -> None:
        if entry is not None:
            then(entry)

    def ask() -> None:
        from appraise.app.prices.quickline import QuickLine  # 5 ms

        sheet.app.push_screen(QuickLine(), done)

    with_currency(sheet, ask)


def edit(sheet: Sheet[Any], entry: Entry, then: Callable[[], None]) -> None:
    """A form with the entry's simple fields."""
    one = Stored(entry.id, entry)
    record_actions.edit(sheet, one, then, checked=lambda after: priced(entry, after))


def duplicate(sheet: Sheet[Any], entry: Entry, then: Callable[[Entry], None]) -> None:
    """A form for another entry like this one, of today."""
    session = sheet.session
    twin = replace(like(entry), date=session.as_of)
    made: list[Entry] = []

    def take(values: Values) -> None:
        made.append(session.log.add(entry_with(twin, values, session.author())))

    title, fields = f"Another like: {_named(entry)}", fields_of(twin, session.knowledge)
    record_actions.ask(sheet, title, fields, take, lambda: then(made[0]))


def like(entry: Entry) -> Entry:
    """What another piece has in common with this one: not its file, pictures or estimates."""
    return replace(
        entry, id="", piece="", pictures=(), estimate=None, belonging=(), extra={}, note=""
    )


def remove(sheet: Sheet[Any], entry: Entry, then: Callable[[], None]) -> None:
    """Take an entry off the log, once that was confirmed."""
    record_actions.remove(sheet, Stored(entry.id, entry), then)


def hold(sheet: Sheet[Any], entry: Entry | None) -> None:
    """Add this purchase to the pieces you own."""
    if entry is None:
        return
    from appraise.app.kept.deeds import take_bought  # 20 ms

    take_bought(sheet, entry.id)


def _named(entry: Entry) -> str:
    return entry.title or entry.motif or "the entry"
