"""A kept piece sold: what it gained, and the sale, its status and its outcome as one act."""

from collections.abc import Iterable
from dataclasses import replace

from appraise.base.money import Money
from appraise.collection.sale import Gain, Sale
from appraise.collection.transitions import happened
from appraise.pricing.cost_basis import all_in_price
from appraise.pricing.outcomes import Outcome, outcome_of, with_outcome
from appraise.records.entry import Entry
from appraise.records.owned import Event, OwnedPiece
from appraise.records.venuebook import VenueBook
from appraise.store.log import Log
from appraise.store.owned_pieces import entry_behind
from appraise.store.records import ChangeSet, Stored, commit, held, keeps


def spent_since(log: Log, piece: Stored[OwnedPiece]) -> tuple[Money, ...]:
    """What was spent on a piece since it came: on what happened to it, and on works at the bench.

    Parts from one's own stock are left out.
    """
    costs = [event.cost for event in piece.thing.events]
    if keeps(log, "work"):
        from appraise.records.repair import Repair

        ids = {piece.id, piece.thing.entry} - {""}
        costs += [one.thing.cost for one in held(log, Repair) if one.thing.piece in ids]
    return tuple(cost for cost in costs if cost is not None)


def gain_of(
    costs: Iterable[Money], entry: Entry | None, sale: Sale, currency: str, book: VenueBook
) -> Gain:
    """What a sale gains, in the base currency.

    Args:
        costs: What was spent on the piece since it came.
        entry: Its purchase; None where its cost is not known.
        sale: The sale.
        currency: ISO 4217 code of the base currency.
        book: The user's venues and rates; the rate of the day of the sale counts.
    """
    mending, uncounted = Money.of_minor(0, currency), []
    for money in costs:
        turned = book.turned(money, currency, sale.day)
        if turned is None:
            uncounted.append(money)
        else:
            mending = mending + turned
    cost = all_in_price(entry, currency, book) if entry is not None else None
    return Gain(book.turned(sale.net, currency, sale.day), cost, mending, tuple(uncounted))


def sell(log: Log, piece: Stored[OwnedPiece], sale: Sale) -> tuple[Entry, Stored[OwnedPiece]]:
    """Log a sale, note on the purchase what the piece fetched, and change its status: one act.

    Raises:
        InputError: when the piece is not there to be sold.
    """
    kept = piece.thing
    bought = entry_behind(log, kept)
    event = Event(sale.day, "sold", sale.to or sale.venue)
    now = Stored(piece.id, happened(kept, event))
    sold = _sold(kept, bought, sale)
    edits: tuple[Entry, ...] = ()
    if bought is not None:
        edits = (with_outcome(bought, _outcome(bought, sale)),)
    (entry_id,) = commit(log, ChangeSet(add=(sold,), change=(now,), edit=edits))
    return sold.named(entry_id), now


def _sold(kept: OwnedPiece, bought: Entry | None, sale: Sale) -> Entry:
    like = bought or Entry(
        "bought",
        sale.day,
        kind=kept.kind,
        process=kept.process,
        housing=kept.housing,
        format=kept.format,
    )
    return replace(
        like,
        id="",
        record="sold",
        date=sale.day,
        title=kept.title,
        channel=sale.channel,
        venue=sale.venue,
        paid=sale.price,
        piece="",
        note="",
        pictures=(),
        estimate=None,
        belonging=(),
        extra={},
        asked=None,
        offered=None,
        hammer=None,
        postage=None,
    )


def _outcome(bought: Entry, sale: Sale) -> Outcome:
    before = outcome_of(bought)
    if before is None:
        return Outcome(sale.day, price=sale.price)
    return replace(before, price=sale.price)
