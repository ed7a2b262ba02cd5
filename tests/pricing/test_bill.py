from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.pricing.bill import (
    all_in,
    highest_hammer,
    on_ladder,
    premium,
    step_at,
    walk_away,
)
from appraise.records.terms import PLAIN_LADDER, Band, Rung, TaxForm
from appraise.records.venue import Venue

D = Decimal

rates = st.decimals("0", "0.35", places=3)


@st.composite
def venues(draw: st.DrawFn) -> Venue:
    """Invented venues of every form."""
    currency = draw(st.sampled_from(["USD", "JPY", "KWD"]))
    edges = draw(st.lists(st.integers(1, 3000), max_size=3, unique=True))
    bands = [Band(D(edge), draw(rates)) for edge in sorted(edges)]
    foreign = draw(st.booleans())
    return Venue(
        "somewhere",
        currency,
        (*bands, Band(None, draw(rates))),
        whole=draw(st.booleans()),
        surcharge=draw(rates),
        tax_form=draw(st.sampled_from(TaxForm)),
        tax=draw(rates),
        insurance=draw(rates),
        carriage=D(draw(st.integers(0, 50))),
        import_tax=draw(rates),
        payment=draw(rates),
        exchange=D("0.79") if foreign else None,
        base="GBP" if foreign else "",
        exchange_fee=draw(rates),
        travel=D(draw(st.integers(0, 20))),
    )


def total(venue: Venue, amount: D) -> D:
    return all_in(venue, Money(amount, venue.currency)).total.amount


@given(venues(), st.integers(0, 300_000))
def test_lines_add_up_and_are_whole_minor_units(venue: Venue, minor: int) -> None:
    bill = all_in(venue, Money.of_minor(minor, venue.currency))
    there = sum(
        (x.amount.amount for x in bill.lines if x.name not in ("exchange fee", "travel")), D(0)
    )
    assert there == bill.invoice.amount
    here = sum((x.amount.amount for x in bill.lines if x.name in ("exchange fee", "travel")), D(0))
    changed = (bill.invoice * (venue.exchange or D(1))).amount
    assert abs(bill.total.amount - here - changed) <= D("0.5").scaleb(
        0 if venue.home == "JPY" else -2
    )
    assert all(line.amount == line.amount.rounded() for line in bill.lines)


@given(venues(), st.integers(1, 4000))
def test_the_inverse_is_the_largest_bid_within_the_sum(venue: Venue, ceiling: int) -> None:
    cap = Money(D(ceiling), venue.home)
    found = highest_hammer(venue, cap)
    if found is None:
        assert total(venue, D(0)) > cap.amount
        return
    assert total(venue, found.amount) <= cap.amount
    for more in (1, 2, 7, 100, 2500):
        above = Money.of_minor(found.minor + more, venue.currency)
        assert total(venue, above.amount) > cap.amount


@given(venues(), st.integers(1, 3000))
def test_walk_away_is_a_legal_bid_within_the_sum_and_the_next_is_not(
    venue: Venue, ceiling: int
) -> None:
    cap = Money(D(ceiling), venue.home)
    bid = walk_away(venue, cap)
    if bid is None:
        assert total(venue, D("0.5")) > cap.amount
        return
    assert on_ladder(venue.ladder, bid.amount) == bid.amount > 0
    assert total(venue, bid.amount) <= cap.amount
    assert total(venue, bid.amount + step_at(venue.ladder, bid.amount)) > cap.amount


@given(st.decimals("0", "9000", places=2), st.decimals("0", "9000", places=2))
def test_a_marginal_premium_never_falls(one: D, other: D) -> None:
    bands = (Band(D(1000), D("0.25")), Band(D(5000), D("0.20")), Band(None, D("0.12")))
    venue = Venue("v", "USD", bands)
    low, high = sorted((one, other))
    assert premium(venue, low) <= premium(venue, high)


def test_a_rate_on_the_whole_falls_at_the_edge_and_the_inverse_minds_it() -> None:
    bands = (Band(D(100), D("0.30")), Band(None, D("0.10")))
    venue = Venue("v", "USD", bands, whole=True)
    assert total(venue, D("100.00")) == D("130.00")
    assert total(venue, D("100.01")) == D("110.01")
    found = highest_hammer(venue, Money(D(120), "USD"))
    assert found == Money(D("109.09"), "USD")
    assert highest_hammer(venue, Money(D(105), "USD")) == Money(D("80.77"), "USD")


def test_above_the_last_band_its_rate_goes_on() -> None:
    assert premium(Venue("v", "USD", (Band(D(100), D("0.2")),)), D(300)) == D(60)


@pytest.mark.parametrize(
    ("bid", "legal", "step"),
    [
        ("0.49", "0", "0.50"),
        ("9.99", "9.5", "0.50"),
        ("10", "10", "1"),
        ("49", "48", "2"),
        ("99", "95", "5"),
        ("1999", "1900", "100"),
        ("2399", "2200", "200"),
    ],
)
def test_plain_ladder(bid: str, legal: str, step: str) -> None:
    assert on_ladder(PLAIN_LADDER, D(bid)) == D(legal)
    assert step_at(PLAIN_LADDER, D(bid)) == D(step)


def test_a_ladder_with_an_end_goes_on_and_none_at_all_takes_any_bid() -> None:
    ladder = (Rung(D(20), D(3)),)
    assert on_ladder(ladder, D(50)) == D(48)
    assert step_at(ladder, D(50)) == D(3)
    assert on_ladder((), D("7.77")) == D("7.77")
    assert step_at((), D(5)) == 0


def test_nothing_to_bid_with() -> None:
    fixed = Venue("v", "USD", carriage=D(30))
    assert highest_hammer(fixed, Money(D(29), "USD")) is None
    assert walk_away(fixed, Money(D(29), "USD")) is None
    assert walk_away(fixed, Money(D("30.20"), "USD")) is None
    assert walk_away(fixed, Money(D("30.50"), "USD")) == Money(D("0.50"), "USD")


@pytest.mark.parametrize(
    "terms",
    [
        {"currency": "XYZ"},
        {"base": "GBP"},
        {"base": "GBP", "exchange": D(0)},
        {"tax": D("-0.1")},
        {"carriage": D("NaN")},
        {"bands": (Band(None, D("0.2")), Band(D(5), D("0.1")))},
        {"bands": (Band(D(5), D("0.2")), Band(D(5), D("0.1")))},
        {"bands": (Band(None, D("-0.2")),)},
        {"ladder": (Rung(None, D(0)),)},
    ],
)
def test_terms_that_make_no_sense_are_refused(terms: dict[str, object]) -> None:
    with pytest.raises(InputError, match=r"venue v|currency|tax:|carriage:|premium:|ladder:"):
        Venue(**{"name": "v", "currency": "USD", **terms})


def test_sums_in_the_wrong_currency_are_refused() -> None:
    venue = Venue("v", "USD")
    with pytest.raises(InputError, match="Bid in USD"):
        all_in(venue, Money(D(5), "GBP"))
    with pytest.raises(InputError, match="Write it in USD"):
        highest_hammer(venue, Money(D(5), "GBP"))
