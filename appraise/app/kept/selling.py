"""A sale from a screen: the form, what it gains, and one act that logs it."""

from __future__ import annotations

from appraise.app import record_actions
from appraise.app.form import Texts, ask, fields_of
from appraise.app.lists.sheet import RecordSheet
from appraise.base.errors import InputError
from appraise.collection.sale import Gain, Sale, begun, sale_typed
from appraise.commands import owned
from appraise.records.owned import GONE, OwnedPiece
from appraise.records.stored import Stored
from appraise.records.values import Author

HONEST = "Describe it honestly: r writes a description for the public, without prices or names."


def ask_sale(sheet: RecordSheet, one: Stored[OwnedPiece]) -> None:
    """A form for the sale; what it gains is told before it is logged."""
    session = sheet.session
    if one.thing.status in GONE:
        sheet.say(f"It is {one.thing.status} already. u: undo. e: edit.")
        return

    def take(texts: Texts) -> tuple[Sale, Gain]:
        sale = sale_in(texts, session.author())
        return sale, owned.gain(session, one, sale)

    fields = fields_of(begun(session.author()), session.author(), shown={"price": ""})
    title = f"Sold: {one.thing.title}"
    ask(sheet, title, fields, take, lambda made: _confirm(sheet, one, *made), HONEST)


def sale_in(values: Texts, by: Author) -> Sale:
    """The sale as typed.

    Raises:
        InputError: one line; its `where` is the field.
    """
    if not values["price"]:
        raise InputError("enter the price the buyer paid", "price", "Given away? Press v instead.")
    return sale_typed(values, by)


def _confirm(sheet: RecordSheet, one: Stored[OwnedPiece], sale: Sale, gain: Gain) -> None:
    """Tell what it brings, and log it when that is right."""

    def sold() -> None:
        sheet.read()
        sheet.say("Sale logged. u: undo everything.", "good")

    asks = f"Net {sale.net}, {gain_words(gain)}. Log the sale?"
    record_actions.confirm(sheet, asks, lambda: owned.sell(sheet.session, one, sale), sold)


def gain_words(gain: Gain) -> str:
    """The gain in a few words."""
    if gain.gain is None:
        return "gain not known: a cost or rate is missing"
    word = "gain" if gain.gain.amount >= 0 else "loss"
    left = "; some costs have no rate" if gain.uncounted else ""
    return f"{word} {gain.gain} on all it cost{left}"
