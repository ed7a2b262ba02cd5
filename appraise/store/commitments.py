"""What is left to spend: the budget of the log, what was paid, and the bids that stand."""

import datetime as dt
from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.collection.budgets import Promise, Purse, period_of
from appraise.pricing.bill import all_in
from appraise.pricing.cost_basis import all_in_price
from appraise.records.budget import Budget
from appraise.records.entry import Entry
from appraise.records.lot import Lot
from appraise.records.venue import Venue, no_rate
from appraise.records.venuebook import SalePlace, VenueBook
from appraise.store.log import Log
from appraise.store.records import ChangeSet, Stored, commit, held
from appraise.store.venue_book import read_book


def sale_of_lot(lot: Lot) -> SalePlace:
    """Where a lot is sold."""
    return SalePlace(lot.venue, lot.channel, lot.currency, lot.shipping)


def terms_of_lot(lot: Lot, book: VenueBook, currency: str, on: dt.date) -> Venue | None:
    """The terms by which a lot's bid counts in sums; None where a rate is missing.

    As `lot_terms`, but a lot in another currency than its house has nothing but the shipping on
    top.
    """
    try:
        clash = _house_of(lot, book) is None
        return _bare_terms(lot, book, currency, on) if clash else lot_terms(lot, book, currency, on)
    except InputError:
        return None


def lot_terms(lot: Lot, book: VenueBook, currency: str, on: dt.date) -> Venue:
    """The terms of a lot's sale with the bill in the base currency.

    A sale of which no terms are noted has the shipping alone on top. The usual house of a channel
    stands in where its currency is the lot's.

    Args:
        lot: The lot.
        book: The user's venues and rates.
        currency: ISO 4217 code of the base currency.
        on: The day whose rate is wanted.

    Raises:
        InputError: where a rate is missing, with the way to enter it; where the lot is in another
            currency than its house.
    """
    house, named = _house_of(lot, book), book.venue(lot.venue)
    if house is not None:
        return book.sent(book.terms_at(house, currency, on), lot.shipping, on)
    if named is not None:
        code = named.currency
        raise InputError(
            f"the lot is in {lot.currency}, but {named.name} sells in {code}",
            lot.title,
            f"Edit the lot: currency={code}.",
        )
    return _bare_terms(lot, book, currency, on)


def _house_of(lot: Lot, book: VenueBook) -> Venue | None:
    """The house whose terms hold for a lot, in the lot's own currency."""
    house = book.for_sale(lot.venue, lot.channel)
    return house if house is not None and house.currency == lot.currency else None


def _bare_terms(lot: Lot, book: VenueBook, currency: str, on: dt.date) -> Venue:
    """A sale without a house, in the lot's currency; errors where a rate is missing."""
    venue = book.without_terms(sale_of_lot(lot), currency, on)
    if venue.currency != lot.currency:
        raise no_rate(lot.currency, currency, lot.title)
    return book.sent(venue, lot.shipping, on)


def cost_of(lot: Lot, bid: Money, book: VenueBook, currency: str, on: dt.date) -> Money | None:
    """What a bid on a lot costs in all if it wins, base currency; None where a rate is missing."""
    terms = terms_of_lot(lot, book, currency, on)
    return None if terms is None else all_in(terms, bid).total


def promises(
    lots: Iterable[Stored[Lot]], book: VenueBook, currency: str, on: dt.date
) -> tuple[Promise, ...]:
    """The bids that stand, each with its whole cost; a lot that has ended promises nothing."""
    return tuple(
        Promise(
            one.id,
            one.thing.title,
            one.thing.standing,
            cost_of(one.thing, one.thing.standing, book, currency, on),
            one.thing.chance,
        )
        for one in lots
        if one.thing.standing is not None
    )


def spent_on(
    entries: Iterable[Entry], currency: str, book: VenueBook
) -> tuple[Money, int, tuple[Money, ...]]:
    """What entries of pieces that were bought cost in all.

    Returns:
        The sum in the base currency, of how many entries, and the amounts without a rate.
    """
    total, count, without = Money(Decimal(0), currency), 0, []
    for entry in entries:
        if entry.record != "bought" or entry.price is None:
            continue
        count += 1
        cost = all_in_price(entry, currency, book)
        if cost is not None:
            total = total + cost
        elif entry.price.amount > 0:
            without.append(entry.price)
    return total, count, tuple(without)


def read_budget(log: Log) -> Budget | None:
    """The budget that counts: the one begun last; None where there is none."""
    known = held(log, Budget)
    return known[-1].thing if known else None


def keep_budget(log: Log, budget: Budget | None) -> None:
    """Let a budget count from now on, in place of any other; None: no budget. One act."""
    known: Sequence[Stored[Budget]] = held(log, Budget)
    if budget is None:
        commit(log, ChangeSet(drop=tuple(one.id for one in known)))
    elif known:
        kept, others = known[-1], tuple(one.id for one in known[:-1])
        commit(log, ChangeSet(change=(Stored(kept.id, budget),), drop=others))
    else:
        commit(log, ChangeSet(add=(budget,)))


def read_purse(log: Log, currency: str, on: dt.date) -> Purse:
    """What is left to spend in the period of the budget in which a day lies.

    Args:
        log: The open log.
        currency: ISO 4217 code of the base currency.
        on: The day.
    """
    with log.snapshot():
        book, budget = read_book(log), read_budget(log)
        per = budget.per if budget else ""
        first, last = period_of(on, per)
        entries = log.entries(f"record:bought date:{first}..{last}")
        standing = promises(held(log, Lot), book, currency, on)
    whole = book.turned(budget.amount, currency, on) if budget else None
    total, count, without = spent_on(entries, currency, book)
    unturned = budget.amount if budget and whole is None else None
    return Purse(currency, first, last, per, whole, total, count, without, standing, unturned)


def bid_warnings(held: Stored[Lot], book: VenueBook, purse: Purse, on: dt.date) -> Iterator[str]:
    """What to think of before the bid that stands on a lot is placed; nobody is held back.

    Args:
        held: The lot with the bid.
        book: The user's venues and rates.
        purse: What is left to spend; an earlier bid on this lot does not count against it.
        on: The day.
    """
    lot = held.thing
    if lot.standing is None:
        return
    cost = cost_of(lot, lot.standing, book, purse.currency, on)
    if cost is None:
        yield f"no rate from {lot.currency} to {purse.currency}, so the bid is in no sum"
        return
    most = lot.ceiling and book.turned(lot.ceiling, purse.currency, on)
    if most and most < cost:
        yield f"the total of {cost} is {cost - most} above your limit of {most}"
    yield from over_words(purse.without(held.id), cost)


def over_words(purse: Purse, cost: Money) -> Iterator[str]:
    """That a cost would go beyond the budget; nothing where it does not."""
    over = purse.over(cost)
    if over is not None:
        yield (
            f"{over} over this {purse.per}'s budget (total {cost}; {purse.left} left after "
            "purchases and open bids)"
        )
