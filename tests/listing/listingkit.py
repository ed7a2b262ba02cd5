"""What the tests of listings share."""

import datetime as dt
from functools import cache

from appraise.knowledge import Knowledge, load
from appraise.listing.days import Day, days_in
from appraise.listing.reader import read
from appraise.listing.records import Listing


def day_in(text: str, today: dt.date, region: str = "unknown") -> Day | None:
    """The first day that a line names."""
    return next((day for day in days_in(text, today, region) if day.date is not None), None)


@cache
def knowledge() -> Knowledge:
    return load()


def listing(text: str, currency: str = "USD") -> Listing:
    return read(text, knowledge(), currency)


def flags(text: str) -> set[str]:
    return {flag.id for flag in listing(text).flags}


def said(text: str, field: str, currency: str = "USD") -> tuple[str, ...]:
    return listing(text, currency).said(field)
