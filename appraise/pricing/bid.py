"""How much to bid: one maximum, decided beforehand, and what to expect of it.

Ceiling = shade x worth + extra - repair - margin, capped by the budget left; the walk-away bid is
what the venue's bill leaves of it (`bill`). At a stall there are no rivals and no shade.
"""

from collections.abc import Callable, Sequence
from decimal import Decimal

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.pricing.bill import Bill, all_in, on_ladder, walk_away
from appraise.pricing.shade import Shade, shade
from appraise.records.terms import PLAIN_LADDER, Rung
from appraise.records.venue import Venue

STRIPS = 100
"""Strips of equal width over which an expectation is taken."""


@dataclass(frozen=True, slots=True)
class Terms:
    """What the buyer decides beforehand, in the base currency.

    Attributes:
        extra: What I would pay beyond resale.
        repair: What mending will cost.
        margin: What should be left over.
        budget: What is left to spend; None: no limit.
        bidders: How many bid, me included: 1 at a stall, 4 at auction when nothing is known.
    """

    extra: Decimal = Decimal(0)
    repair: Decimal = Decimal(0)
    margin: Decimal = Decimal(0)
    budget: Decimal | None = None
    bidders: int = 1


@dataclass(frozen=True, slots=True)
class Advice:
    """One maximum and what to expect of it.

    Attributes:
        ceiling: The most that it may cost in all, base currency, 0 or more.
        walk_away: The largest legal bid within it, venue's currency; None: do not bid.
        bill: The bill at that bid, or None.
        shade: The winner's curse factors behind the ceiling.
    """

    ceiling: Money
    walk_away: Money | None
    bill: Bill | None
    shade: Shade


def ceiling(worth: float, doubt: float, terms: Terms, currency: str) -> tuple[Money, Shade]:
    """The most that a piece may cost in all, rounded down, and the shade behind it.

    Args:
        worth: Resale worth in the base currency, 0 or more.
        doubt: Standard uncertainty of its log.
        terms: What the buyer decides.
        currency: ISO 4217 code of the base currency.

    Raises:
        InputError: when the worth is not an amount.
    """
    if not 0.0 <= worth < 1e15:
        raise InputError(f"a worth of {worth} is not an amount")
    factors = shade(doubt, terms.bidders)
    value = Decimal(repr(worth * factors.middle)) + terms.extra - terms.repair - terms.margin
    if terms.budget is not None:
        value = min(value, terms.budget)
    return Money(max(value, Decimal(0)), currency).floored(), factors


def advise(worth: float, doubt: float, terms: Terms, venue: Venue) -> Advice:
    """The ceiling, the walk-away bid at `venue` and its bill; errors as in `ceiling`."""
    most, factors = ceiling(worth, doubt, terms, venue.home)
    bid = walk_away(venue, most)
    return Advice(most, bid, None if bid is None else all_in(venue, bid), factors)


def opening_offer(
    walk: Money, asking: Money | None, share: Decimal, ladder: tuple[Rung, ...] = PLAIN_LADDER
) -> Money:
    """What to offer first at a stall: a share of the asked and of the walk-away price.

    Args:
        walk: The walk-away price.
        asking: What is asked, in the same currency; None: not known.
        share: The share of the lower of the two that is offered first, 0..1 (a judgement).
        ladder: Offers are round figures.

    The offer is never above the walk-away price nor above what is asked.
    """
    low = walk if asking is None or walk <= asking else asking
    offer = on_ladder(ladder, low.amount * share)
    return Money(offer if offer > 0 else low.amount, walk.currency)


def chance_to_win(prob_at_least: Callable[[float], float], cost: float) -> float:
    """The chance that such a piece goes for less than one's maximum would cost in all.

    Args:
        prob_at_least: The chance that a sale reaches a price, from the log.
        cost: The whole bill at one's maximum, base currency.
    """
    return min(max(1.0 - prob_at_least(cost), 0.0), 1.0)


def expected_surplus(prob_at_least: Callable[[float], float], worth: float, cost: float) -> float:
    """What a bid gains on average: worth less price where the price stays below one's maximum.

    Integrated by parts, with F the chance of a lower price:
    (worth - cost) F(cost) + integral of F over 0..cost.

    Args:
        prob_at_least: The chance that a sale reaches a price, from the log.
        worth: Worth to the buyer, base currency.
        cost: The whole bill at one's maximum, base currency, 0 or more.
    """
    width = cost / STRIPS
    below = sum(1.0 - prob_at_least((i + 0.5) * width) for i in range(STRIPS)) * width
    return (worth - cost) * (1.0 - prob_at_least(cost)) + below


@dataclass(frozen=True, slots=True)
class Outlook:
    """What to expect of one maximum.

    Attributes:
        bid: The maximum, venue's currency.
        cost: Its whole bill, base currency.
        win: The chance that such a piece goes for less.
        surplus: What the bid gains on average, base currency.
    """

    bid: Money
    cost: Money
    win: float
    surplus: float


def outlook(
    prob_at_least: Callable[[float], float], worth: float, venue: Venue, bids: Sequence[Money]
) -> tuple[Outlook, ...]:
    """What to expect of each of several maxima at a venue, in their order.

    Args:
        prob_at_least: The chance that a sale reaches a price in all, base currency.
        worth: Worth to the buyer, base currency.
        venue: The venue's terms.
        bids: Maxima in the venue's currency, 0 or more.
    """
    out = []
    for bid in bids:
        cost = all_in(venue, bid).total
        amount = float(cost.amount)
        out.append(
            Outlook(
                bid,
                cost,
                chance_to_win(prob_at_least, amount),
                expected_surplus(prob_at_least, worth, amount),
            )
        )
    return tuple(out)
