"""A lot of several pieces: one ceiling before the sale, a fair cost for each piece after it."""

from collections.abc import Sequence
from decimal import Decimal
from enum import StrEnum

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.pricing.bid import Terms, ceiling
from appraise.pricing.shade import Shade


class Plan(StrEnum):
    """What is to become of a piece."""

    KEEP = "keep"
    RESELL = "resell"
    PARTS = "parts"


@dataclass(frozen=True, slots=True)
class LotPiece:
    """One piece of a lot; amounts in the base currency, 0 or more.

    Attributes:
        worth: Its resale worth.
        doubt: Standard uncertainty of the log of that worth.
        plan: What is to become of it.
        extra: What I would pay for it beyond resale when I keep it.
        parts: What its parts are worth when it is taken apart.
    """

    worth: float
    doubt: float
    plan: Plan = Plan.KEEP
    extra: Decimal = Decimal(0)
    parts: float = 0.0

    def value(self, selling: float) -> float:
        """What it brings under its plan, without `extra`.

        Args:
            selling: Share of a sale that selling costs, 0..1.
        """
        if self.plan is Plan.KEEP:
            return self.worth
        gross = self.worth if self.plan is Plan.RESELL else self.parts
        return gross * (1.0 - selling)


def lot_ceiling(
    pieces: Sequence[LotPiece], terms: Terms, selling: float, currency: str
) -> tuple[Money, Shade]:
    """The most that a whole lot may cost in all, and the shade behind it.

    Worths are added up. Their doubts are taken to point the same way, as those of pieces judged
    by one log do: the doubt of the sum is the mean of the doubts by value, which is the careful
    side.

    Args:
        pieces: The pieces, at least one.
        terms: What the buyer decides for the lot; the pieces' extras come on top of its extra.
        selling: Share of a sale that selling costs, 0..1.
        currency: ISO 4217 code of the base currency.

    Raises:
        InputError: when there is no piece or `selling` is not a share.
    """
    if not pieces or not 0.0 <= selling <= 1.0:
        raise InputError("a lot needs a piece, and a cost of selling between 0 and 1")
    values = [piece.value(selling) for piece in pieces]
    total = sum(values)
    doubt = sum(v * p.doubt for v, p in zip(values, pieces, strict=True)) / total if total else 0.0
    extras = (piece.extra for piece in pieces if piece.plan is Plan.KEEP)
    whole = Terms(
        terms.extra + sum(extras, Decimal(0)),
        terms.repair,
        terms.margin,
        terms.budget,
        terms.bidders,
    )
    return ceiling(total, doubt, whole, currency)


def share_out(total: Money, weights: Sequence[float]) -> tuple[Money, ...]:
    """A cost shared out in proportion to weights, in minor units that add up to it exactly.

    Largest remainders; on a tie the earlier one. Equal shares where all weights are 0.

    Args:
        total: The whole cost, 0 or more.
        weights: One for each piece, 0 or more, such as hammer prices or worths.

    Raises:
        InputError: when there is no weight, or one is below 0 or not a number.
    """
    if not weights or not all(0.0 <= weight < float("inf") for weight in weights):
        raise InputError("a cost cannot be shared out by these weights")
    exact = [Decimal(repr(float(weight))) for weight in weights]
    if not sum(exact):
        exact = [Decimal(1)] * len(exact)
    due = [total.minor * weight / sum(exact) for weight in exact]
    minor = [int(amount) for amount in due]
    order = sorted(range(len(due)), key=lambda i: (minor[i] - due[i], i))
    for i in order[: total.minor - sum(minor)]:
        minor[i] += 1
    return tuple(Money.of_minor(amount, total.currency) for amount in minor)
