"""One all-in footing for every price of the log: what the piece cost this buyer, or would have.

What was paid is what it cost, with the premium, tax, fees and carriage that were noted beside it.
An asking price, an offer or a hammer price goes through the bill of the venue where it was met, the
travel left out, since that is no part of a piece's price. Without a venue the amount stands as it
was noted, with what was noted beside it. Amounts in other currencies are turned by the user's own
rate of the nearest day.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from decimal import Decimal

from appraise.base.money import Money
from appraise.pricing.bill import Bill, all_in
from appraise.pricing.met import Met
from appraise.records.entry import BESIDE, Entry
from appraise.records.venuebook import VenueBook

EMPTY = VenueBook()


def rate_day(entry: Met) -> date:
    """The day whose rate holds for an entry: of a partial day the middle, else the latest rate."""
    return entry.middle_day or date.max


def all_in_price(entry: Met, currency: str, book: VenueBook = EMPTY) -> Money | None:
    """What the piece cost or would have cost this buyer in all; None if unknown."""
    amount, bill = entry.price, bill_of(entry, currency, book)
    if bill is not None:
        return _with_foreign(entry, bill.total, currency, book)
    if amount is None or amount.amount <= 0:
        return None
    beside = (one for one in _beside(entry) if one.currency == amount.currency)
    whole = book.turned(sum(beside, amount), currency, rate_day(entry))
    return whole and _with_foreign(entry, whole, currency, book)


def bill_of(entry: Met, currency: str, book: VenueBook) -> Bill | None:
    """The venue's bill for an amount that nobody has paid yet; None where there is none to make.

    The entry's own carriage takes the place of what the venue usually asks. Where the entry tells
    premium, tax or fees itself, they are its bill.
    """
    amount = entry.price
    venue = book.for_sale(entry.venue, entry.channel)
    told = entry.paid or entry.premium or entry.tax or entry.fees
    if amount is None or amount.amount <= 0 or told or venue is None:
        return None
    terms = book.terms(venue, currency, rate_day(entry))
    if terms is None or amount.currency != terms.currency:
        return None
    carriage = terms.carriage
    if entry.postage is not None:
        same = entry.postage.currency == terms.currency
        carriage = entry.postage.amount if same else Decimal(0)
    return all_in(replace(terms, travel=Decimal(0), carriage=carriage), amount)


def _beside(entry: Met) -> tuple[Money, ...]:
    """What came on top of the price; the fees of a sale of one's own are the seller's."""
    names = [name for name in BESIDE if name != "fees" or entry.record != "sold"]
    return tuple(one for name in names if (one := getattr(entry, name)) is not None)


def _with_foreign(entry: Met, whole: Money, currency: str, book: VenueBook) -> Money:
    """The sum with what was noted in other currencies than the price."""
    price = entry.price.currency if entry.price else ""
    for one in _beside(entry):
        turned = book.turned(one, currency, rate_day(entry)) if one.currency != price else None
        whole = whole + turned if turned else whole
    return whole


def unbilled(entries: Iterable[Entry], currency: str, book: VenueBook) -> dict[str, int]:
    """Hammer prices that no venue's bill completes: how many, by venue, the most first.

    They stand in the price model as they were noted, below what they would have cost.
    """
    found = Counter(
        entry.venue
        for entry in entries
        if entry.hammer and not entry.paid and bill_of(entry, currency, book) is None
    )
    return dict(found.most_common())
