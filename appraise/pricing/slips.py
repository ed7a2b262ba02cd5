"""An amount that is likely a slip of the hand: far from all that there is to compare it with."""

from __future__ import annotations

from typing import TYPE_CHECKING

from appraise.pricing.cost_basis import EMPTY, all_in_price, rate_day
from appraise.records.entry import Entry
from appraise.records.venuebook import VenueBook

if TYPE_CHECKING:
    from datetime import date

    from appraise.knowledge.records import Knowledge
    from appraise.pricing.estimate import Prices


def slip(
    entry: Entry, worth: float | None, currency: str, factor: float, book: VenueBook = EMPTY
) -> str:
    """What to ask about before an entry is logged, in one line; '' where its price is near enough.

    Asked is where the price is more than `factor` times, or less than that part of, both what
    such a piece goes for and what was asked for this one. Where only one of the two is known, it
    alone counts; where neither is, nothing is asked.

    Args:
        entry: The entry as it is to be logged.
        worth: What such a piece goes for, base currency; None: no opinion.
        currency: ISO 4217 code of the base currency.
        factor: See above; over 1, a judgement of `data/prices.yaml`.
        book: The user's venues and rates.
    """
    cost = all_in_price(entry, currency, book)
    if cost is None or entry.own_work:
        return ""
    known: list[tuple[float, str]] = []
    if worth is not None and worth > 0:
        known.append((worth, f"the {worth:,.2f} that such pieces go for in your log"))
    asked = entry.asked if entry.paid or entry.hammer or entry.offered else None
    turned = book.turned(asked, currency, rate_day(entry)) if asked else None
    if turned is not None and turned.amount > 0:
        known.append((float(turned.amount), f"the {asked} asked"))
    if not known or any(_near(float(cost.amount), value, factor) for value, _ in known):
        return ""
    return f"{entry.price} is far from {' and from '.join(says for _, says in known)}"


def _near(amount: float, value: float, factor: float) -> bool:
    return value / factor <= amount <= value * factor


def usual_price(
    entry: Entry,
    prices: Prices | None,
    knowledge: Knowledge,
    currency: str,
    on: date,
    book: VenueBook,
) -> float | None:
    """What a piece as an entry tells it goes for by the log, base currency; None: no opinion."""
    if prices is None:
        return None
    from appraise.pricing.price_rows import priced_rows

    rows = priced_rows([entry], knowledge, currency, on, book)
    return prices.estimate(rows[0]).median if rows else None
