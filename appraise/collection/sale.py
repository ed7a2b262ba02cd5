"""What a sale brings in after fees and carriage, and what it gains beside what the piece cost.

All amounts are in one currency, each rounded to its minor units, halves up, as a bill rounds its
lines. Nothing here is advice on tax.
"""

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import replace
from decimal import Decimal
from typing import ClassVar

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.knowledge.records import CHANNELS
from appraise.pricing.cost_basis import all_in_price
from appraise.pricing.outcomes import Outcome, outcome_of
from appraise.records.entry import Entry
from appraise.records.fields import Field, Record, changed
from appraise.records.owned import OwnedPiece
from appraise.records.quantities import DAY, AmountKind, PercentKind
from appraise.records.values import Author, WordKind
from appraise.records.venuebook import VenueBook

HUNDRED = Decimal(100)


@dataclass(frozen=True, slots=True)
class Sale(Record):
    """A piece sold by its owner; all amounts are in the currency of its price."""

    day: dt.date
    price: Money
    percent: Decimal = Decimal(0)
    fee: Money | None = None
    postage: Money | None = None
    costs: Money | None = None
    to: str = ""
    venue: str = ""
    channel: str = ""

    FIELDS: ClassVar[tuple[Field, ...]] = (
        Field("price", "what the buyer paid, e.g. 80 or 80.00 USD", AmountKind()),
        Field("percent", "the seller's fee, in % of the price", PercentKind(), label="fee, %"),
        Field("fee", "for example a listing fee", AmountKind(), label="further fee"),
        Field("postage", "shipping you pay beyond what the buyer paid", AmountKind()),
        Field("costs", "box, travel, stall", AmountKind(), label="other costs"),
        Field("to", "the buyer's name; stored only in your log"),
        Field("venue", "place of sale, in your words", label="place"),
        Field("channel", "what sort of place that is", WordKind(CHANNELS), label="where"),
        Field("day", "e.g. 2026-11-25", DAY),
    )

    def check_whole(self) -> None:
        """It has a price, and all else is in its currency."""
        if self.price.amount <= 0:
            raise InputError("a sale needs a price above 0", "price", "Given away? Use 'give'.")
        for name in ("fee", "postage", "costs"):
            money = getattr(self, name)
            if money is not None and money.currency != self.price.currency:
                mend = f"Write it in {self.price.currency}."
                raise InputError(f"{money} at a sale in {self.price.currency}", name, mend)

    def read_by(self, by: Author, field: Field) -> Author:
        """What comes off is in the currency of the price."""
        return by if field.name == "price" else replace(by, currency=self.price.currency)

    @property
    def taken(self) -> tuple[tuple[str, Money], ...]:
        """What comes off the price, line by line; lines of nothing are left out."""
        share = (self.price * (self.percent / HUNDRED)).rounded()
        lines = [(f"fee of {self.percent.normalize():f}%", share)]
        told = (("further fee", self.fee), ("postage", self.postage), ("other costs", self.costs))
        lines += [(name, money) for name, money in told if money is not None]
        return tuple((name, money) for name, money in lines if money.amount)

    @property
    def net(self) -> Money:
        """What is left of the price; below 0 where the costs ate it up."""
        net = self.price
        for _, money in self.taken:
            net = net - money
        return net


@dataclass(frozen=True, slots=True)
class Gain:
    """A sale beside what the piece had cost, base currency throughout.

    Attributes:
        net: What the sale brought in; None where a rate is missing.
        cost: What the piece cost in all when it came; None where that is not known.
        mending: What was spent on it since.
        uncounted: Costs in currencies without a rate, in no sum here.
    """

    net: Money | None
    cost: Money | None
    mending: Money
    uncounted: tuple[Money, ...] = ()

    @property
    def gain(self) -> Money | None:
        """Net proceeds less all costs, below 0 for a loss; None where either is not known."""
        if self.net is None or self.cost is None:
            return None
        return self.net - self.cost - self.mending


def begun(by: Author) -> Sale:
    """A sale of today before anything of it is typed."""
    return Sale(by.today, Money(Decimal(1), by.currency))


def sale_typed(texts: Mapping[str, str], by: Author) -> Sale:
    """A sale as typed; its price first, since it settles the currency of all else.

    Raises:
        InputError: one line; its `where` is the field.
    """
    price = {"price": texts["price"]}
    return changed(changed(begun(by), price, by), texts, by)


def gain_of(
    costs: Iterable[Money], entry: Entry | None, sale: Sale, currency: str, book: VenueBook
) -> Gain:
    """What a sale gains, in the base currency.

    `entry`: its purchase; None where its cost is not known.
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


def sold_entry(kept: OwnedPiece, bought: Entry | None, sale: Sale) -> Entry:
    """The entry of a sale: what the purchase says of the piece, or the piece as it is kept."""
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


def outcome_of_sale(bought: Entry, sale: Sale) -> Outcome:
    """What the purchase is to say of what the piece fetched."""
    before = outcome_of(bought)
    if before is None:
        return Outcome(sale.day, price=sale.price)
    return replace(before, price=sale.price)
