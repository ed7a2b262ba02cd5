"""Hands for the tests of the log: a clock that ticks, open logs, invented entries."""

import datetime as dt
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

from hypothesis import strategies as st

from appraise.base.logday import read_log_day
from appraise.base.money import EXPONENTS, Money
from appraise.records.entry import (
    CHANNELS,
    KINDS,
    RECORDS,
    Entry,
    LoggedEstimate,
)
from appraise.records.fields import changed
from appraise.records.picture_file import PictureFile
from appraise.records.piece_words import IDENTIFIED, SUBJECTS
from appraise.records.values import Author
from appraise.store.log import Log, open_log

NOON = dt.datetime(2024, 5, 31, 12, 0, tzinfo=dt.UTC)


def ticking(start: dt.datetime = NOON, seconds: float = 1.0) -> Callable[[], dt.datetime]:
    """A clock that is one step later at every look."""
    state = [start - dt.timedelta(seconds=seconds)]

    def clock() -> dt.datetime:
        state[0] += dt.timedelta(seconds=seconds)
        return state[0]

    return clock


def opened(path: Path, machine: str = "desk", **more) -> Log:
    return open_log(path, ticking(), machine, **more)


def usd(amount: str) -> Money:
    return Money(Decimal(amount), "USD")


def bought(title: str = "girl with a basket", price: str = "45.00", **more) -> Entry:
    values = {
        "record": "bought",
        "date": dt.date(2024, 5, 30),
        "channel": "market",
        "kind": "cased",
        "process": "ambrotype",
        "housing": "thermoplastic",
        "format": "sixth",
        "title": title,
        "paid": usd(price),
    }
    return Entry(**{**values, **more})


_PRINTABLE = st.characters(blacklist_categories=("Cc", "Cs"), blacklist_characters="\u2028\u2029")
lines = st.text(_PRINTABLE, max_size=30)
pages = st.text(_PRINTABLE | st.sampled_from("\n\t"), max_size=60)
_syllables = st.text("abcxyz019", min_size=1, max_size=6)
slugs = st.lists(_syllables, max_size=3).map("-".join)
moneys = st.builds(
    lambda minor, code: Money.of_minor(minor, code),
    st.integers(0, 10**9),
    st.sampled_from(sorted(EXPONENTS)),
)


@st.composite
def estimates(draw):
    code = draw(st.sampled_from(sorted(EXPONENTS)))
    three = sorted(draw(st.lists(st.integers(0, 10**9), min_size=3, max_size=3)))
    return LoggedEstimate(*(Money.of_minor(minor, code) for minor in three))


json_values = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(2**63), 2**63 - 1)
    | st.floats(allow_nan=False, allow_infinity=False)
    | pages,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(lines, inner, max_size=3),
    max_leaves=6,
)
digests = st.text("0123456789abcdef", min_size=64, max_size=64)
belongings = st.lists(
    st.tuples(_syllables, st.floats(0, 1)), max_size=4, unique_by=lambda pair: pair[0]
).map(tuple)

entries = st.builds(
    Entry,
    record=st.sampled_from(RECORDS),
    date=st.dates()
    | st.sampled_from(("2018-08", "2019-21", "2015~", "unknown", "[..2014]")).map(read_log_day),
    channel=st.sampled_from(("", *CHANNELS)),
    kind=st.sampled_from(("", *KINDS)),
    process=slugs,
    housing=slugs,
    format=slugs,
    title=lines,
    motif=lines,
    subjects=st.lists(st.sampled_from(SUBJECTS), max_size=3, unique=True).map(tuple),
    quality=st.none() | st.floats(1, 5),
    appeal=st.none() | st.integers(1, 5),
    identified=st.sampled_from(("", *IDENTIFIED)),
    maker=lines,
    maker_known=st.none() | st.booleans(),
    condition_factor=st.none() | st.floats(0, 10, exclude_min=True),
    asked=st.none() | moneys,
    offered=st.none() | moneys,
    paid=st.none() | moneys,
    hammer=st.none() | moneys,
    premium=st.none() | moneys,
    tax=st.none() | moneys,
    fees=st.none() | moneys,
    postage=st.none() | moneys,
    venue=lines,
    note=pages,
    own_work=st.booleans(),
    belonging=belongings,
    estimate=st.none() | estimates(),
    piece=pages,
    pictures=st.lists(st.builds(PictureFile, digests, lines), max_size=2).map(tuple),
    extra=st.dictionaries(lines, json_values, max_size=3),
)


def terms(venue, texts):
    """A venue with some of its terms as typed."""
    return changed(venue, texts, Author("USD", dt.date(2026, 11, 7)))
