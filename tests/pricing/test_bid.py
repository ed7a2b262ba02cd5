from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.pricing.bid import (
    Terms,
    advise,
    ceiling,
    chance_to_win,
    expected_surplus,
    opening_offer,
    outlook,
)
from appraise.pricing.shade import overpaid, shade
from appraise.records.terms import PLAIN_LADDER, Band
from appraise.records.venue import Venue

D = Decimal

STALL = Venue("stall", "USD")
SALE = Venue("sale", "USD", (Band(None, D("0.25")),))


def usd(text: str) -> Money:
    return Money(D(text), "USD")


def test_at_a_stall_nothing_is_shaded() -> None:
    told = advise(41.0, 0.4, Terms(), STALL)
    assert told.ceiling == usd("41.00")
    assert told.walk_away == usd("40")
    assert told.bill is not None
    assert told.bill.total == usd("40")


def test_rivals_and_doubt_lower_the_ceiling() -> None:
    told = advise(100.0, 0.3, Terms(bidders=4), SALE)
    assert told.ceiling == usd("74.12")
    assert told.walk_away == usd("55")
    assert told.bill is not None
    assert told.bill.total == usd("68.75")


def test_extra_repair_margin_and_budget() -> None:
    terms = Terms(extra=D(10), repair=D("7.50"), margin=D(5))
    assert ceiling(40.0, 0.2, terms, "USD")[0] == usd("37.50")
    capped = Terms(extra=D(10), budget=D(20))
    assert ceiling(40.0, 0.2, capped, "USD")[0] == usd("20")
    assert ceiling(4.0, 0.2, Terms(repair=D(9)), "USD")[0] == usd("0")


def test_no_bid_when_nothing_is_left() -> None:
    told = advise(4.0, 0.2, Terms(repair=D(9)), SALE)
    assert told.walk_away is None
    assert told.bill is None


@pytest.mark.parametrize("worth", [-1.0, float("nan"), float("inf")])
def test_a_worth_that_is_no_amount_is_refused(worth: float) -> None:
    with pytest.raises(InputError, match="not an amount"):
        ceiling(worth, 0.1, Terms(), "USD")


@given(st.floats(0.0, 1.0), st.integers(1, 12))
def test_shade_falls_with_doubt_and_rivals(sigma: float, bidders: int) -> None:
    here = shade(sigma, bidders)
    assert 0.0 < here.middle <= 1.0
    assert shade(sigma + 0.05, bidders).middle <= here.middle
    assert shade(sigma, bidders + 1).middle <= here.middle + 1e-12


@pytest.mark.parametrize(("sigma", "bidders"), [(0.2, 0), (-0.1, 3), (float("nan"), 2)])
def test_a_shade_of_nonsense_is_refused(sigma: float, bidders: int) -> None:
    with pytest.raises(InputError, match="winner's curse"):
        shade(sigma, bidders)


def test_raw_estimates_overpay() -> None:
    assert overpaid(1) == 0.0
    assert overpaid(4) == pytest.approx(1.0 - 5 / 16)


@pytest.mark.parametrize(
    ("walk", "asking", "offer"),
    [("38", "45", "22"), ("38", "30", "18"), ("38", None, "22"), ("0.50", None, "0.50")],
)
def test_opening_offer(walk: str, asking: str | None, offer: str) -> None:
    told = opening_offer(usd(walk), usd(asking) if asking else None, D("0.6"), PLAIN_LADDER)
    assert told == usd(offer)


def even(price: float) -> float:
    """Prices even between 20 and 60."""
    return min(max((60.0 - price) / 40.0, 0.0), 1.0)


def test_chance_and_surplus_by_hand() -> None:
    """A maximum of 40 wins half the time and pays 30 on average."""
    assert chance_to_win(even, 40.0) == pytest.approx(0.5)
    assert chance_to_win(even, 10.0) == 0.0
    assert expected_surplus(even, 50.0, 40.0) == pytest.approx(0.5 * 20.0, rel=1e-3)
    assert expected_surplus(even, 50.0, 10.0) == 0.0


def test_bidding_more_than_the_worth_gains_nothing_on_average() -> None:
    gains = [expected_surplus(even, 45.0, cost) for cost in (30.0, 45.0, 60.0)]
    assert gains[1] == max(gains)


def test_outlook_goes_by_the_whole_bill() -> None:
    told = outlook(even, 50.0, SALE, [usd("0"), usd("16"), usd("32"), usd("48")])
    assert [one.cost for one in told] == [usd("0"), usd("20.00"), usd("40.00"), usd("60.00")]
    assert [one.win for one in told] == pytest.approx([0.0, 0.0, 0.5, 1.0])
    assert [one.surplus for one in told] == pytest.approx([0.0, 0.0, 10.0, 10.0], abs=0.01)
