"""Hands for the tests of lots: invented lots, and every sort of them."""

import datetime as dt
from decimal import Decimal

from hypothesis import strategies as st
from store.logkit import lines, pages

from appraise.base.moments import Closing
from appraise.base.money import EXPONENTS, Money
from appraise.knowledge.records import CHANNELS
from appraise.records.lot import ENDED, STATES, Lot, LotItem
from appraise.records.piece import PLANS

DAY = dt.date(2026, 11, 7)
NOW = dt.datetime(2026, 11, 7, 12, tzinfo=dt.UTC)


def usd(amount):
    return Money(Decimal(str(amount)), "USD")


def lot(title="two cased pieces", **more):
    return Lot(**{"title": title, "since": DAY, "currency": "USD", **more})


def closing(text):
    return Closing(dt.datetime.fromisoformat(text).replace(tzinfo=dt.UTC))


titles = lines.filter(str.strip)
amounts = st.integers(1, 10**9)
days = st.dates(dt.date(1900, 1, 1), dt.date(2999, 12, 31))
instants = st.datetimes(
    dt.datetime(1970, 1, 1), dt.datetime(2100, 1, 1), timezones=st.just(dt.UTC)
).map(lambda one: one.replace(microsecond=0))
closings = st.builds(Closing, at=instants, zone=lines) | st.builds(Closing, on=days, zone=lines)


def money_of(code):
    return amounts.map(lambda minor: Money.of_minor(minor, code))


any_money = st.sampled_from(sorted(EXPONENTS)).flatmap(money_of)
items = st.builds(
    LotItem,
    title=lines,
    piece=pages,
    plan=st.sampled_from(PLANS),
    worth=st.none() | any_money,
    extra=st.none() | any_money,
    parts=st.none() | any_money,
)


@st.composite
def lots(draw):
    code = draw(st.sampled_from(sorted(EXPONENTS)))
    money, state = money_of(code), draw(st.sampled_from(STATES))
    maybe = st.none() | money
    low = draw(maybe)
    return Lot(
        title=draw(titles),
        since=draw(days),
        currency=code,
        venue=draw(lines),
        channel=draw(st.sampled_from(("", *CHANNELS))),
        number=draw(lines),
        where=draw(lines),
        closes=draw(st.none() | closings),
        asking=draw(maybe),
        shipping=draw(st.none() | any_money | st.just(Money(Decimal(0), code))),
        low=low,
        high=low and draw(money.map(lambda more: low + more)),
        selling=draw(st.integers(0, 100)),
        items=tuple(draw(st.lists(items, max_size=3))),
        ceiling=draw(st.none() | any_money),
        ceiling_on=draw(st.none() | days),
        bid=draw(money if state == "bid" else maybe),
        bid_at=draw(st.none() | instants),
        chance=draw(st.none() | st.integers(0, 100)),
        state=state,
        hammer=draw(money if state == "won" else maybe),
        ended=draw(days) if state in ENDED else None,
        note=draw(pages),
    )
