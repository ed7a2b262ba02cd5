"""A budget: so much in a calendar month or year, and what of it is spent and promised."""

import datetime as dt
from calendar import monthrange
from collections.abc import Iterable
from dataclasses import dataclass, replace
from decimal import Decimal

from appraise.base.money import Money


@dataclass(frozen=True, slots=True)
class Promise:
    """A bid that stands, and what it costs if it wins.

    Attributes:
        id: The lot's id.
        title: The lot.
        bid: The bid, in the sale's currency.
        cost: The whole bill in the base currency; None where a rate is missing.
        chance: How likely it wins by the user's own word, in 100; None: not said.
    """

    id: str
    title: str
    bid: Money
    cost: Money | None
    chance: int | None


@dataclass(frozen=True, slots=True)
class Purse:
    """What is left to spend.

    Attributes:
        currency: ISO 4217 code of all sums.
        first, last: The days of the period, both included.
        per: 'month' or 'year'; '' where there is no budget, and the period is a month.
        budget: The whole; None where there is no budget.
        spent: What was paid in the period, all in.
        bought: How many entries that is.
        without_rate: What was paid in currencies without a rate, in no sum here.
        promises: The bids that stand.
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

    def without(self, lot: str) -> "Purse":
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
