"""A budget, what of it is spent and promised, and what a bid on a lot costs in all."""

import datetime as dt
from calendar import monthrange
from collections.abc import Iterable, Iterator
from dataclasses import replace
from decimal import Decimal

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.pricing.bill import all_in
from appraise.pricing.cost_basis import all_in_price
from appraise.records.entry import Entry
from appraise.records.lot import Lot
from appraise.records.stored import Stored
from appraise.records.venue import Venue, no_rate
from appraise.records.venuebook import SalePlace, VenueBook


@dataclass(frozen=True, slots=True)
class Promise:
    """A bid that stands, and what it costs if it wins.

    Attributes:
        bid: The bid, in the sale's currency.
        cost: The whole bill in the base currency; None where a rate is missing.
        chance: How likely it wins by the user's own word, as a percentage; None: not said.
    """

    id: str
    title: str
    bid: Money
    cost: Money | None
    chance: int | None


@dataclass(frozen=True, slots=True)
class BudgetStatus:
    """What is left to spend.

    Attributes:
        currency: ISO 4217 code of all sums.
        first, last: The days of the period, both included.
        per: 'month' or 'year'; '' where there is no budget, and the period is a month.
        budget: The whole; None where there is no budget.
        spent: What was paid in the period, all in.
        bought: How many entries that is.
        without_rate: What was paid in currencies without a rate, in no sum here.
        unturned: The budget, where a rate from its currency is missing.
    """

    currency: str
    first: dt.date
    last: dt.date
    per: str
    budget: Money | None
    spent: Money
    bought: int
    without_rate: tuple[Money, ...]
    promises: tuple[Promise, ...]
    unturned: Money | None = None

    @property
    def if_all_win(self) -> Money:
        """What the bids that stand cost if every one of them wins."""
        return _total((one.cost for one in self.promises), self.currency)

    @property
    def expected(self) -> Money | None:
        """What they cost on average, by the user's own chances; None where one is not said."""
        counted = [one for one in self.promises if one.cost is not None]
        if not counted or any(one.chance is None for one in counted):
            return None
        costs = (one.cost * (Decimal(one.chance or 0) / 100) for one in counted if one.cost)
        return _total(costs, self.currency).rounded()

    @property
    def uncounted(self) -> tuple[Promise, ...]:
        """The bids for which a rate is missing, so that they stand in no sum here."""
        return tuple(one for one in self.promises if one.cost is None)

    @property
    def left(self) -> Money | None:
        """Budget less spent less all bids that stand, below 0 when it is overdrawn."""
        return None if self.budget is None else self.budget - self.spent - self.if_all_win

    def over(self, cost: Money) -> Money | None:
        """By how much a further cost would go beyond what is left; None where it does not."""
        if self.left is None or cost <= self.left:
            return None
        return cost - self.left

    def without(self, lot: str) -> "BudgetStatus":
        """The purse as if no bid stood on a lot, so that another one can be weighed for it."""
        kept = tuple(one for one in self.promises if one.id != lot)
        return replace(self, promises=kept)


def period_of(day: dt.date, per: str) -> tuple[dt.date, dt.date]:
    """First and last day of the calendar month or year in which a day lies."""
    if per == "year":
        return dt.date(day.year, 1, 1), dt.date(day.year, 12, 31)
    return day.replace(day=1), day.replace(day=monthrange(day.year, day.month)[1])


def _total(amounts: Iterable[Money | None], currency: str) -> Money:
    """The sum of what is known, in one currency."""
    return sum((one for one in amounts if one is not None), Money(Decimal(0), currency))


def terms_of_lot(lot: Lot, book: VenueBook, currency: str, on: dt.date) -> Venue | None:
    """The terms by which a lot's bid counts in sums; None where a rate is missing.

    As `lot_terms`, but a lot in another currency than its venue has nothing but the shipping on
    top.
    """
    try:
        clash = _venue_of(lot, book) is None
        return _bare_terms(lot, book, currency, on) if clash else lot_terms(lot, book, currency, on)
    except InputError:
        return None


def lot_terms(lot: Lot, book: VenueBook, currency: str, on: dt.date) -> Venue:
    """The terms of a lot's sale with the bill in the base currency.

    A sale of which no terms are noted has the shipping alone on top. The usual venue of a channel
    stands in where its currency is the lot's.

    `on`: the day whose rate is wanted.

    Raises:
        InputError: where a rate is missing, with the way to enter it; where the lot is in another
            currency than its venue.
    """
    venue, named = _venue_of(lot, book), book.venue(lot.venue)
    if venue is not None:
        return book.sent(book.terms_at(venue, currency, on), lot.shipping, on)
    if named is not None:
        code = named.currency
        raise InputError(
            f"the lot is in {lot.currency}, but {named.name} sells in {code}",
            lot.title,
            f"Edit the lot: currency={code}.",
        )
    return _bare_terms(lot, book, currency, on)


def _venue_of(lot: Lot, book: VenueBook) -> Venue | None:
    """The venue whose terms hold for a lot, in the lot's own currency."""
    venue = book.for_sale(lot.venue, lot.channel)
    return venue if venue is not None and venue.currency == lot.currency else None


def _bare_terms(lot: Lot, book: VenueBook, currency: str, on: dt.date) -> Venue:
    """A sale without a venue, in the lot's currency; errors where a rate is missing."""
    sale = SalePlace(lot.venue, lot.channel, lot.currency, lot.shipping)
    venue = book.without_terms(sale, currency, on)
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


def bid_warnings(
    held: Stored[Lot], book: VenueBook, purse: BudgetStatus, on: dt.date
) -> Iterator[str]:
    """What to think of before the bid that stands on a lot is placed; nobody is held back.

    `purse`: what is left to spend; an earlier bid on this lot does not count against it.
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


def over_words(purse: BudgetStatus, cost: Money) -> Iterator[str]:
    """That a cost would go beyond the budget; nothing where it does not."""
    over = purse.over(cost)
    if over is not None:
        yield (
            f"{over} over this {purse.per}'s budget (total {cost}; {purse.left} left after "
            "purchases and open bids)"
        )
