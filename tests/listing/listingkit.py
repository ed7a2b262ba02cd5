"""What the tests of listings share."""

from functools import cache

from appraise.knowledge import Knowledge, load
from appraise.listing.reader import read
from appraise.listing.records import Listing


@cache
def knowledge() -> Knowledge:
    return load()


def listing(text: str, currency: str = "USD") -> Listing:
    return read(text, knowledge(), currency)


def flags(text: str) -> set[str]:
    return {flag.id for flag in listing(text).flags}


def said(text: str, field: str, currency: str = "USD") -> tuple[str, ...]:
    return listing(text, currency).said(field)
