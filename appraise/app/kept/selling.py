"""A sale from a screen: the form, what it gains, and one act that logs it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from appraise.app.fieldwords import Values
from appraise.app.form import Form, fields_of
from appraise.app.kept.deeds import Then
from appraise.app.sheet import Question
from appraise.base.errors import InputError
from appraise.collection.sale import Gain, Sale, begun, gain_of, sale_typed
from appraise.records.owned import GONE, OwnedPiece
from appraise.records.stored import Stored
from appraise.store.owned_pieces import entry_behind, sell, spent_since
from appraise.store.venue_book import read_book

if TYPE_CHECKING:
    from appraise.app.sheet import Sheet
    from appraise.records.values import Author

HONEST = "Describe it honestly: r writes a description for the public, without prices or names."


def ask_sale(sheet: Sheet[Any], one: Stored[OwnedPiece], then: Then) -> None:
    """A form for the sale; what it gains is told before it is logged."""
    session = sheet.session
    if one.thing.status in GONE:
        sheet.say(f"It is {one.thing.status} already. u: undo. e: edit.")
        return
    made: list[tuple[Sale, Gain]] = []

    def keep(values: Values) -> None:
        sale = sale_in(values, session.author())
        log = session.log
        entry, costs = entry_behind(log, one.thing), spent_since(log, one)
        gain = gain_of(costs, entry, sale, session.settings.currency, read_book(log))
        made[:] = [(sale, gain)]

    def done(kept: bool | None) -> None:
        if kept:
            _confirm(sheet, one, *made[0], then)

    fields = fields_of(begun(session.author()), session.knowledge, {"price": ""})
    title = f"Sold: {one.thing.title}"
    sheet.app.push_screen(Form(title, fields, keep, HONEST), done)


def sale_in(values: Values, by: Author) -> Sale:
    """The sale as typed.

    Raises:
        InputError: one line; its `where` is the field.
    """
    if not values["price"]:
        raise InputError("enter the price the buyer paid", "price", "Given away? Press v instead.")
    return sale_typed(values, by)


def _confirm(
    sheet: Sheet[Any], one: Stored[OwnedPiece], sale: Sale, gain: Gain, then: Then
) -> None:
    """Tell what it brings, and log it when that is right."""

    def done(yes: bool | None) -> None:
        if yes and sheet.attempt(lambda: sell(sheet.session.log, one, sale)):
            sheet.session.changes += 1
            then()
            sheet.say("Sale logged. u: undo everything.", "good")

    asks = f"Net {sale.net}, {gain_words(gain)}. Log the sale?"
    sheet.app.push_screen(Question(asks, sheet.session.marks), done)


def gain_words(gain: Gain) -> str:
    """The gain in a few words."""
    if gain.gain is None:
        return "gain not known: a cost or rate is missing"
    word = "gain" if gain.gain.amount >= 0 else "loss"
    left = "; some costs have no rate" if gain.uncounted else ""
    return f"{word} {gain.gain} on all it cost{left}"
