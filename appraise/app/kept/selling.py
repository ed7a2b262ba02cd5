"""A sale from a screen: the form, what it gains, and one act that logs it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from appraise.app.fieldwords import Values, money_in, word_in
from appraise.app.form import Field, Form
from appraise.app.kept.deeds import Then, day_field
from appraise.app.sheet import Question
from appraise.base.errors import InputError
from appraise.keeping.kept import GONE, Kept
from appraise.keeping.keptedit import day_of
from appraise.keeping.sale import Gain, Sale, percent_of
from appraise.log.bookkeeping import read_book
from appraise.log.entries import CHANNELS
from appraise.log.holdings import Held
from appraise.log.keptbook import entry_behind
from appraise.log.keptsales import gain_of, sell, spent_since

if TYPE_CHECKING:
    from appraise.app.sheet import Sheet

HONEST = "Tell it truthfully: r writes a report for the public, without prices or names."


def ask_sale(sheet: Sheet[Any], one: Held[Kept], then: Then) -> None:
    """A form for the sale; what it gains is told before it is logged."""
    session = sheet.session
    if one.thing.status in GONE:
        sheet.say(f"It is {one.thing.status} already; u undoes, e edits.")
        return
    made: list[tuple[Sale, Gain]] = []

    def keep(values: Values) -> None:
        sale = sale_in(values, session.settings.currency)
        log = session.log
        entry, costs = entry_behind(log, one.thing), spent_since(log, one)
        gain = gain_of(costs, entry, sale, session.settings.currency, read_book(log))
        made[:] = [(sale, gain)]

    def done(kept: bool | None) -> None:
        if kept:
            _confirm(sheet, one, *made[0], then)

    fields = [
        Field("price", "price", "", "What the buyer paid for it, as 80 or 80.00 USD."),
        Field("percent", "fee, per cent", "", "The seller's fee in per cent of the price."),
        Field("fee", "further fee", "", "As for the listing."),
        Field("postage", "postage", "", "What sending it costs you beyond what the buyer paid."),
        Field("costs", "other costs", "", "The box, the way, the stall."),
        Field("to", "to", "", "Who bought it; it stays in your log."),
        Field("venue", "place", "", "Where it was sold, in your words."),
        Field("channel", "where", "", choices=CHANNELS),
        day_field(session),
    ]
    title = f"Sold: {one.thing.title}"
    sheet.app.push_screen(Form(title, fields, keep, HONEST), done)


def sale_in(values: Values, currency: str) -> Sale:
    """The sale as typed.

    Raises:
        InputError: one line; its `where` is the field.
    """
    price = money_in(values, "price", currency)
    if price is None:
        raise InputError("write what the buyer paid", "price", "Given away? v notes that.")
    return Sale(
        day_of("day", values["day"]),
        price,
        percent_of(values["percent"]),
        money_in(values, "fee", price.currency),
        money_in(values, "postage", price.currency),
        money_in(values, "costs", price.currency),
        values["to"],
        values["venue"],
        word_in(values, "channel", CHANNELS),
    )


def _confirm(sheet: Sheet[Any], one: Held[Kept], sale: Sale, gain: Gain, then: Then) -> None:
    """Tell what it brings, and log it when that is right."""

    def done(yes: bool | None) -> None:
        if yes and sheet.attempt(lambda: sell(sheet.session.log, one, sale)):
            sheet.session.changes += 1
            then()
            sheet.say("Sold and logged; u takes all of it back.", "good")

    asks = f"Net {sale.net}, {gain_words(gain)}. Log the sale?"
    sheet.app.push_screen(Question(asks, sheet.session.marks), done)


def gain_words(gain: Gain) -> str:
    """The gain in a few words."""
    if gain.gain is None:
        return "gain not known: its cost or a rate is missing"
    word = "gain" if gain.gain.amount >= 0 else "loss"
    left = "; some costs have no rate" if gain.uncounted else ""
    return f"{word} {gain.gain} on all it cost{left}"
