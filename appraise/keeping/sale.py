"""What a sale brings in after fees and carriage, and what it gains beside what the piece cost.

All amounts are in one currency, each rounded to its minor units, halves up, as a bill rounds its
lines. Nothing here is advice on tax.
"""

import datetime as dt
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation

from appraise.base.errors import InputError
from appraise.base.fieldchecks import check_amount, check_text
from appraise.base.money import Money
from appraise.keeping.kept import check_day

HUNDRED = Decimal(100)


@dataclass(frozen=True, slots=True)
class Sale:
    """A piece sold by its owner.

    Attributes:
        day: The day of the sale.
        price: What the buyer paid for the piece.
        percent: The seller's fee in per cent of the price, 0 to 100.
        fee: A further fee, as for the listing.
        postage: What sending it cost the owner, beyond what the buyer paid for that.
        costs: Other costs of the sale.
        to: Who bought it.
        venue: Where it was sold.
        channel: What sort of place that is; a word of the log.
    """

    day: dt.date
    price: Money
    percent: Decimal = Decimal(0)
    fee: Money | None = None
    postage: Money | None = None
    costs: Money | None = None
    to: str = ""
    venue: str = ""
    channel: str = ""

    def __post_init__(self) -> None:
        check_day("day", self.day)
        check_amount("price", self.price)
        if self.price.amount <= 0:
            raise InputError("a sale has a price above 0", "price", "Given away? Use 'give'.")
        if not (self.percent.is_finite() and 0 <= self.percent <= HUNDRED):
            raise InputError(
                f"{self.percent} is no share of the price", "percent", "Give 0 to 100."
            )
        for name in ("fee", "postage", "costs"):
            money = getattr(self, name)
            check_amount(name, money, optional=True)
            if money is not None and money.currency != self.price.currency:
                mend = f"Give it in {self.price.currency}."
                raise InputError(f"{money} at a sale in {self.price.currency}", name, mend)
        for name in ("to", "venue"):
            check_text(name, getattr(self, name), one_line=True)

    @property
    def taken(self) -> tuple[tuple[str, Money], ...]:
        """What comes off the price, line by line; lines of nothing are left out."""
        share = (self.price * (self.percent / HUNDRED)).rounded()
        lines = [(f"fee of {self.percent.normalize():f} per cent", share)]
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


def percent_of(text: str) -> Decimal:
    """A share in per cent as it was typed; nothing typed is 0.

    Raises:
        InputError: when it is no number.
    """
    try:
        return Decimal(text.strip().rstrip("%").strip() or "0")
    except InvalidOperation:
        raise InputError(
            f"'{text}' is no share of the price", "percent", "Give 0 to 100."
        ) from None
