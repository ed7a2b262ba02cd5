from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.pricing.bid import Terms
from appraise.pricing.lot import LotPiece, Plan, lot_ceiling, share_out


def usd(text: str) -> Money:
    return Money(Decimal(text), "USD")


def test_plans_add_up() -> None:
    pieces = [
        LotPiece(40.0, 0.2, Plan.KEEP, extra=Decimal(10)),
        LotPiece(30.0, 0.2, Plan.RESELL, extra=Decimal(99)),
        LotPiece(25.0, 0.2, Plan.PARTS, parts=8.0),
    ]
    told, _ = lot_ceiling(pieces, Terms(repair=Decimal(5)), 0.1, "USD")
    assert told == usd("79.20")  # 40 + 27 + 7.20 + 10 - 5


def test_doubt_is_the_mean_by_value() -> None:
    pieces = [LotPiece(30.0, 0.1), LotPiece(10.0, 0.5)]
    told, factors = lot_ceiling(pieces, Terms(bidders=4), 0.0, "USD")
    assert factors.middle == pytest.approx(2.718281828 ** (-0.2 * 0.998149), abs=1e-5)
    assert told == Money(Decimal(repr(40.0 * factors.middle)), "USD").floored()


def test_a_lot_of_nothing() -> None:
    assert lot_ceiling([LotPiece(0.0, 0.3)], Terms(), 0.1, "USD")[0] == usd("0")


@pytest.mark.parametrize(("pieces", "selling"), [([], 0.1), ([LotPiece(1.0, 0.1)], 1.5)])
def test_nonsense_is_refused(pieces: list[LotPiece], selling: float) -> None:
    with pytest.raises(InputError, match="a lot needs"):
        lot_ceiling(pieces, Terms(), selling, "USD")


@given(
    st.integers(0, 10**9),
    st.lists(st.floats(0.0, 1e9, allow_subnormal=False), min_size=1, max_size=12),
)
def test_shares_add_up_exactly_and_stay_near(minor: int, weights: list[float]) -> None:
    total = Money.of_minor(minor, "USD")
    parts = share_out(total, weights)
    assert sum(part.minor for part in parts) == minor
    whole = sum(weights)
    if whole > 1e-3:
        for part, weight in zip(parts, weights, strict=True):
            assert abs(part.minor - minor * (weight / whole)) <= 1.001


def test_shares_by_hand() -> None:
    assert share_out(usd("10.00"), [1, 1, 1]) == (usd("3.34"), usd("3.33"), usd("3.33"))
    assert share_out(usd("0.05"), [0, 0]) == (usd("0.03"), usd("0.02"))
    assert share_out(usd("100"), [55.0, 30.0, 15.0]) == (usd("55"), usd("30"), usd("15"))


@pytest.mark.parametrize("weights", [[], [-1.0], [float("nan")], [float("inf")]])
def test_weights_that_are_none_are_refused(weights: list[float]) -> None:
    with pytest.raises(InputError, match="shared out"):
        share_out(usd("5"), weights)
