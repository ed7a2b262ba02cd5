"""The demo's invented price log as the price model takes it."""

from datetime import date

from appraise.cli.demo import demo_book, demo_entries
from appraise.knowledge.records import Knowledge
from appraise.pricing.estimate import Prices, learn
from appraise.pricing.price_rows import priced_rows


def learnt(knowledge: Knowledge, as_of: date) -> Prices:
    """Learn from the demo's entries, in US dollars."""
    rows = priced_rows(demo_entries(), knowledge, "USD", as_of, demo_book())
    return learn(rows)
