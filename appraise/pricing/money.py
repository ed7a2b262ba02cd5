"""What to pay for a piece at hand: ceiling, walk-away price, first offer, and the chance."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from appraise.base.dataclass import dataclass
from appraise.base.money import Money
from appraise.base.settings import Settings
from appraise.pricing.bid import Advice, Terms, advise, opening_offer
from appraise.pricing.bill import all_in
from appraise.records.venue import AUCTIONS, Venue

if TYPE_CHECKING:
    from appraise.pricing.worth import Worth


@dataclass(frozen=True, slots=True)
class MoneyAdvice:
    """What to pay.

    Attributes:
        venue: The terms under which it is bought.
        advice: Ceiling, walk-away bid and its bill.
        opening: What to offer first at a stall; None at an auction or without a walk-away price.
        cost: What is asked, all in, base currency; None unasked, or without a rate.
        worth_its_cost: The chance that the piece is worth that; None as above.
        at_a_sale: Whether bids are made there, so that the most to pay is a maximum bid.
    """

    venue: Venue
    advice: Advice
    opening: Money | None
    cost: Money | None
    worth_its_cost: float | None
    at_a_sale: bool


def terms_of(settings: Settings, channel: str) -> Terms:
    """What the buyer decided beforehand: rivals are met at auctions only."""
    return Terms(
        extra=settings.extra,
        repair=settings.repair,
        margin=settings.margin,
        budget=settings.budget,
        bidders=settings.bidders if channel in AUCTIONS else 1,
    )


def money_advice(
    worth: Worth, channel: str, asking: Money | None, settings: Settings, venue: Venue
) -> MoneyAdvice:
    """What to pay for a piece.

    Args:
        worth: What it is worth, base currency.
        channel: Where it is met.
        asking: What is asked, if known, in the currency of the venue or the base one.
        settings: What the buyer decided, base currency.
        venue: The terms; its bill ends in the base currency.
    """
    advice = advise(worth.median, worth.estimate.doubt, terms_of(settings, channel), venue)
    asked = in_currency_of(venue, asking)
    opening = None
    if advice.walk_away is not None and channel not in AUCTIONS:
        opening = opening_offer(advice.walk_away, asked, settings.opening)
    cost = all_in(venue, asked).total if asked is not None else None
    chance = None if cost is None else worth.prob_at_least(float(cost.amount))
    return MoneyAdvice(venue, advice, opening, cost, chance, channel in AUCTIONS)


def in_currency_of(venue: Venue, amount: Money | None) -> Money | None:
    """An amount of the venue's or the base currency in the venue's; None for any other."""
    if amount is None or amount.currency not in (venue.currency, venue.home):
        return None
    if amount.currency == venue.currency:
        return amount
    return Money(amount.amount / (venue.exchange or Decimal(1)), venue.currency).rounded()
