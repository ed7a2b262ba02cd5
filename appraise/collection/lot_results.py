"""A lot's result as one act of the log: what each piece cost, or what somebody else paid."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.collection.budget_status import terms_of_lot
from appraise.collection.judged import entry_of
from appraise.collection.lotsteps import ended
from appraise.pricing.bill import all_in
from appraise.pricing.lot import share_out
from appraise.records.entry import Entry
from appraise.records.lot import Lot, LotItem
from appraise.records.stored import ChangeSet, Stored
from appraise.records.terms import NOTHING
from appraise.records.venuebook import VenueBook
from appraise.verdict import Verdict

KEY = "lot"
"""Under this name an entry says in `extra` of which lot it was."""

SEVERAL = "A hammer price for several pieces says little about each, so none is logged."

Judged = Sequence[Verdict | None]
"""A verdict for each piece of a lot, in order; None where nothing of it was noted."""


def whole_cost(lot: Lot, hammer: Money, book: VenueBook, currency: str, on: dt.date) -> Money:
    """What a lot cost in all by its venue's bill: what its pieces share.

    The travel is left out, since that is no part of a piece's price. Where a rate is missing the
    invoice stands in the sale's own currency; nothing is guessed.

    Raises:
        InputError: when the hammer price is in another currency than the sale.
    """
    terms = terms_of_lot(lot, book, currency, on)
    if terms is not None:
        return all_in(replace(terms, travel=NOTHING), hammer).total
    venue = book.for_sale(lot.venue, lot.channel)
    if venue is None or venue.currency != lot.currency:
        return hammer
    return all_in(replace(venue, base="", travel=NOTHING), hammer).invoice


def won_act(
    held: Stored[Lot],
    hammer: Money,
    on: dt.date,
    total: Money,
    weights: Sequence[float],
    judged: Judged,
) -> ChangeSet:
    """A lot won: its state, and a `bought` entry for each piece with its share of the cost.

    Args:
        held: The lot as it is kept.
        hammer: What it went for.
        on: The day.
        total: What it cost in all; the shares add up to it exactly.
        weights: One for each piece, in which the cost is shared out; one for a lot of no piece.
        judged: What was thought of each piece.

    Raises:
        InputError: when it has ended already, or the weights are none.
    """
    lot = held.thing
    after = ended(lot, "won", on, hammer)
    items = lot.items or (LotItem(lot.title),)
    verdicts = judged if lot.items else (None,)
    if len(weights) != len(items):
        raise InputError(f"{len(weights)} shares for {len(items)} pieces", "share")
    single = {"hammer": hammer, "asked": lot.asking} if len(items) == 1 else {"asked": None}
    entries = tuple(
        _entry(held, item, verdict, "bought", on, paid=share, **single)
        for item, verdict, share in zip(items, verdicts, share_out(total, weights), strict=True)
    )
    return ChangeSet(add=entries, change=(Stored(held.id, after),))


def lost_act(
    held: Stored[Lot],
    hammer: Money | None,
    on: dt.date,
    judged: Judged,
    weights: Sequence[float] | None = None,
    carriage: Money | None = None,
) -> ChangeSet:
    """A lot lost: its state, and what the log learns of it.

    Of one piece the hammer price is a price like any other. Of several pieces it says little
    about each: nothing is logged unless the user gives their shares in it.

    Args:
        held: The lot as it is kept.
        hammer: What it went for; None: not known.
        on: The day.
        judged: What was thought of each piece.
        weights: The shares of several pieces, as the user states them; None: log nothing.
        carriage: What the venue asks for the whole lot, which several pieces share likewise.

    Raises:
        InputError: when it has ended already, or the weights are none.
    """
    lot = held.thing
    change = (Stored(held.id, ended(lot, "lost", on, hammer)),)
    if hammer is None or hammer.amount <= 0:
        return ChangeSet(change=change)
    if len(lot.items) <= 1:
        item = lot.items[0] if lot.items else LotItem(lot.title)
        verdict = judged[0] if lot.items else None
        entry = _entry(held, item, verdict, "hammer", on, hammer=hammer, asked=lot.asking)
        return ChangeSet(add=(entry,), change=change)
    shared = _shared(held, hammer, on, judged, weights, carriage) if weights is not None else ()
    return ChangeSet(add=shared, change=change)


def _shared(
    held: Stored[Lot],
    hammer: Money,
    on: dt.date,
    judged: Judged,
    weights: Sequence[float],
    carriage: Money | None,
) -> tuple[Entry, ...]:
    """A hammer entry for each piece, with its share of the price and of the carriage."""
    posted = share_out(carriage, weights) if carriage else (None,) * len(weights)
    shares = zip(held.thing.items, judged, share_out(hammer, weights), posted, strict=True)
    return tuple(
        _entry(held, item, verdict, "hammer", on, hammer=share, postage=post, asked=None)
        for item, verdict, share, post in shares
    )


def carriage_of(lot: Lot, book: VenueBook) -> Money | None:
    """What is asked for shipping: by the listing, else by the lot's venue; None where not noted."""
    if lot.shipping is not None:
        return lot.shipping if lot.shipping.amount else None
    venue = book.for_sale(lot.venue, lot.channel)
    if venue is None or venue.currency != lot.currency or not venue.carriage:
        return None
    return Money(venue.carriage, lot.currency).rounded()


def passed_act(held: Stored[Lot], on: dt.date) -> ChangeSet:
    """A lot passed over: its state alone; errors as in `lost_act`."""
    return ChangeSet(change=(Stored(held.id, ended(held.thing, "passed", on)),))


def _entry(
    held: Stored[Lot], item: LotItem, verdict: Verdict | None, record: str, on: dt.date, **more: Any
) -> Entry:
    """An entry for one piece, which says of which lot it was."""
    lot = held.thing
    known = {KEY: held.id, "lot number": lot.number, "pieces in lot": len(lot.items)}
    extra = {name: value for name, value in known.items() if value}
    told = {"venue": lot.venue, "piece": item.piece, "extra": extra, **more}
    if verdict is None:
        return Entry(record, on, channel=lot.channel, title=item.title, **told)
    return entry_of(verdict, record, on, title=item.title, **told)
