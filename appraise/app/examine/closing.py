"""The end of an examination: the piece as a line of the log, bought or passed."""

from __future__ import annotations

from datetime import date
from typing import Any

from appraise.app.fieldwords import Values, log_day_in, money_in, written
from appraise.app.form import FormField
from appraise.base.errors import InputError
from appraise.base.logday import LogDay
from appraise.collection.judged import entry_of
from appraise.records.entry import Entry
from appraise.records.piece import Piece
from appraise.records.venue import AUCTIONS
from appraise.verdict import Verdict


def bought_fields(piece: Piece, as_of: date) -> list[FormField]:
    """What is asked when a piece is bought; the price asked stands in for the price paid."""
    posted = [_amount("postage", "shipping", written(piece.shipping), "In addition to the price.")]
    return [
        _amount("paid", "paid", written(piece.asking), "The price paid, e.g. 45 or 45.00 USD."),
        *(posted if piece.channel in AUCTIONS else ()),
        *_common(as_of),
    ]


def passed_fields(piece: Piece, as_of: date) -> list[FormField]:
    """What is asked when a piece is passed: what was asked and what one offered."""
    return [
        _amount("asked", "asked", written(piece.asking), "The asking price."),
        _amount("offered", "offered", "", "Your offer; leave empty if you made none."),
        *_common(as_of),
    ]


def _amount(name: str, label: str, value: str, hint: str) -> FormField:
    return FormField(name, label, value, hint, amount=True)


def _common(as_of: date) -> list[FormField]:
    return [
        FormField("date", "day", as_of.isoformat(), "Example: 2026-11-25, 2018-08, unknown."),
        FormField("venue", "place", "", "The market, fair, shop or site, in your words."),
        FormField("note", "note", "", "Anything else."),
    ]


def bought(verdict: Verdict, values: Values, as_of: date, text: str) -> Entry:
    """The entry of a piece that was bought.

    Args:
        verdict: Of the piece as it stands.
        values: What was typed.
        as_of: The day when none was typed.
        text: The piece file.

    Raises:
        InputError: one line; its `where` is the field.
    """
    paid = money_in(values, "paid", verdict.currency)
    if paid is None:
        raise InputError("enter the price paid", "paid", "Press x instead if you did not buy it.")
    postage = money_in(values, "postage", verdict.currency)
    day = log_day_in(values, "date", as_of)
    return _entry(verdict, "bought", day, values, text, paid=paid, postage=postage)


def passed(verdict: Verdict, values: Values, as_of: date, text: str) -> Entry:
    """The entry of a piece that was passed: refused when an offer was made, else asking."""
    asked = money_in(values, "asked", verdict.currency)
    offered = money_in(values, "offered", verdict.currency)
    if asked is None and offered is None:
        raise InputError("enter the asking price", "asked", "Or press d to discard the piece.")
    day = log_day_in(values, "date", as_of)
    record = "refused" if offered else "asking"
    posted = verdict.piece.shipping
    return _entry(verdict, record, day, values, text, asked=asked, offered=offered, postage=posted)


def _entry(
    verdict: Verdict, record: str, day: LogDay, values: Values, text: str, **amounts: Any
) -> Entry:
    venue = " ".join(values["venue"].split())
    return entry_of(verdict, record, day, venue=venue, note=values["note"], piece=text, **amounts)
