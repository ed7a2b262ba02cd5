"""Prices that fit nothing else in the log: marked in lists, told in full beside one entry."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from appraise.cli.context import Context

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.records.entry import Entry
    from appraise.store.log import Log

LEARNT_UNASKED = 1_000
"""Entries up to which a command learns the log (under a second) without being asked to."""
MARK = "   ? check this price"


def slip_of(context: Context, log: Log, entry: Entry, knowledge: Knowledge, currency: str) -> str:
    """What to ask about an entry's price before it is logged; '' where it is near enough.

    A log that takes long to learn is not learnt for that.
    """
    if entry.price is None:
        return ""
    from appraise.pricing.price_rows import priced_rows
    from appraise.pricing.slips import slip, usual_price
    from appraise.store.venue_book import read_book

    book, worth = read_book(log), None
    if 0 < log.summary().count <= LEARNT_UNASKED:
        from appraise.pricing.estimate import learn  # 60 ms with numpy

        prices = learn(priced_rows(log.entries(), knowledge, currency, context.as_of, book))
        worth = usual_price(entry, prices, knowledge, currency, context.as_of, book)
    return slip(entry, worth, currency, knowledge.ratios.far, book)


def odd_prices(context: Context, log: Log, asked: bool) -> Mapping[str, str]:
    """The entries whose price fits nothing else in the log, with what the others say, by id.

    Args:
        context: The command's surroundings.
        log: The open log.
        asked: Whether the user wants it for a log of any length.
    """
    if not asked and log.summary().count > LEARNT_UNASKED:
        return {}
    from appraise.pricing.estimate import learn  # 60 ms with numpy
    from appraise.pricing.price_rows import priced_rows
    from appraise.store.venue_book import read_book

    currency = log.base_currency if log.currency_chosen else context.settings().currency
    entries, book = log.entries(), read_book(log)
    rows = priced_rows(entries, context.knowledge(), currency, context.as_of, book)
    return {one.id: one.says(currency) for one in learn(rows).doubtful()}
