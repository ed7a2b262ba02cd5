"""The end of an examination: the piece as a line of the log, bought or passed."""

from __future__ import annotations

from datetime import date

from appraise.base.errors import InputError
from appraise.collection.judged import entry_of
from appraise.records.entry import Entry
from appraise.records.piece import Piece
from appraise.records.venue import AUCTIONS
from appraise.verdict import Verdict

MET = ("date", "venue", "note")


def bought_form(piece: Piece, as_of: date) -> tuple[Entry, tuple[str, ...]]:
    """What is asked when a piece is bought; the price asked stands in for the price paid."""
    posted = ("postage",) if piece.channel in AUCTIONS else ()
    begun = Entry("bought", as_of, paid=piece.asking, postage=piece.shipping if posted else None)
    return begun, ("paid", *posted, *MET)


def passed_form(piece: Piece, as_of: date) -> tuple[Entry, tuple[str, ...]]:
    """What is asked when a piece is passed: what was asked and what one offered."""
    return Entry("asking", as_of, asked=piece.asking), ("asked", "offered", *MET)


def bought(verdict: Verdict, told: Entry, text: str) -> Entry:
    """The entry of a piece that was bought.

    Args:
        verdict: Of the piece as it stands.
        told: What was typed.
        text: The piece file.

    Raises:
        InputError: one line; its `where` is the field.
    """
    _above_nothing(told)
    if told.paid is None:
        raise InputError("enter the price paid", "paid", "Press x instead if you did not buy it.")
    return entry_of(
        verdict, "bought", told.date, paid=told.paid, postage=told.postage, venue=told.venue,
        note=told.note, piece=text,
    )  # fmt: skip


def passed(verdict: Verdict, told: Entry, text: str) -> Entry:
    """The entry of a piece that was passed: refused when an offer was made, else asking."""
    _above_nothing(told)
    if told.price is None:
        raise InputError("enter the asking price", "asked", "Or press d to discard the piece.")
    return entry_of(
        verdict, "refused" if told.offered else "asking", told.date, asked=told.asked,
        offered=told.offered, postage=verdict.piece.shipping, venue=told.venue, note=told.note,
        piece=text,
    )  # fmt: skip


def _above_nothing(told: Entry) -> None:
    for name in ("paid", "asked", "offered"):
        money = getattr(told, name)
        if money is not None and money.amount <= 0:
            raise InputError("an amount must be above 0", name)
