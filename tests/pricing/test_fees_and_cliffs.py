"""Fees with bounds, taxes on any line, and the maximum bid against counting every legal bid."""

import datetime as dt
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.pricing.bill import Exchange, all_in, next_above, on_ladder, walk_away
from appraise.records.terms import Band, Bounds, Rung, Tax, TaxForm
from appraise.records.venue import Venue

D = Decimal
MOST = 400  # whole units that are counted one by one


def lines(venue: Venue, hammer: str) -> dict[str, str]:
    bill = all_in(venue, Money(D(hammer), venue.currency))
    return {line.name: line.amount.plain for line in bill.lines} | {"total": bill.total.plain}


@st.composite
def cliffs(draw: st.DrawFn) -> Venue:
    """Venues in yen, whose rate holds for the whole price or not, with a ladder of their own."""
    edges = sorted(draw(st.lists(st.integers(1, MOST), max_size=4, unique=True)))
    shares = st.integers(0, 60).map(lambda n: D(n) / 100)
    bands = [Band(D(edge), draw(shares)) for edge in edges]
    rises = sorted(draw(st.lists(st.integers(1, MOST), max_size=4, unique=True)))
    rungs = [Rung(D(edge), D(draw(st.integers(1, 40)))) for edge in rises]
    least = draw(st.integers(0, 30))
    most = draw(st.none() | st.integers(least, 60))
    return Venue(
        "v", "JPY", (*bands, Band(None, draw(shares))),
        whole=draw(st.booleans()), fee=D(draw(st.integers(0, 20))),
        tax_form=draw(st.sampled_from(TaxForm)), tax=draw(shares),
        ladder=draw(st.sampled_from([(), (*rungs, Rung(None, D(draw(st.integers(1, 40)))))])),
        bounds={"premium": Bounds(D(least), None if most is None else D(most))},
    )  # fmt: skip


@settings(deadline=None)
@given(cliffs(), st.integers(1, MOST))
def test_every_legal_bid_up_to_the_maximum_is_within_and_the_next_is_not(
    venue: Venue, ceiling: int
) -> None:
    """By counting: the maximum is the last legal bid before the first that costs too much."""
    best = None
    for bid in range(1, ceiling + 2):
        if on_ladder(venue.ladder, D(bid)) != bid:
            continue
        if all_in(venue, Money(D(bid), "JPY")).total.amount > ceiling:
            break
        best = Money(D(bid), "JPY")
    assert walk_away(venue, Money(D(ceiling), "JPY")) == best


@given(cliffs(), st.integers(1, MOST))
def test_the_next_bid_is_the_lowest_legal_one_above(venue: Venue, start: int) -> None:
    bid = on_ladder(venue.ladder, D(start))
    above = next_above(venue.ladder, bid)
    if not venue.ladder:
        assert above == bid
        return
    legal = (D(n) for n in range(int(bid) + 1, int(bid) + 42))
    assert above == next(n for n in legal if on_ladder(venue.ladder, n) == n)


def test_a_cheaper_stretch_above_a_dear_one_is_not_bid_into() -> None:
    """30% up to 100, 10% above: 95 costs 123.50, 105 costs 115.50. A bid of 105 may win at 95."""
    venue = Venue("v", "USD", (Band(D(100), D("0.30")), Band(None, D("0.10"))), whole=True)
    assert walk_away(venue, Money(D(120), "USD")) == Money(D(90), "USD")
    assert walk_away(venue, Money(D(130), "USD")) == Money(D(110), "USD")


def test_a_least_and_a_most_hold_a_fee() -> None:
    """Worked by hand: 20% of 30 is 6, raised to 10; of 5,000 it is 1,000, held at 900."""
    venue = Venue(
        "v", "USD", (Band(None, D("0.2")),), payment=D("0.03"),
        bounds={"premium": Bounds(D(10), D(900)), "payment": Bounds(D("1.50"))},
    )  # fmt: skip
    assert lines(venue, "30") == {
        "hammer": "30.00", "premium": "10.00", "payment fee": "1.50", "total": "41.50",
    }  # fmt: skip
    assert lines(venue, "5000")["premium"] == "900.00"


def test_taxes_on_lines_of_their_own() -> None:
    """Worked by hand: 5% of 200 is 10; 20% of a premium of 50, a fee of 3 and shipping of 12 is 13.

    Tax on the hammer price at one rate and on the premium at another: common practice with
    imported lots, no source.
    """
    venue = Venue(
        "v", "GBP", (Band(None, D("0.25")),), fee=D(3), carriage=D(12),
        tax_form=TaxForm.HAMMER, tax=D("0.05"),
        taxes=(Tax(D("0.20"), TaxForm.PREMIUM | TaxForm.FEE | TaxForm.SHIPPING),),
    )  # fmt: skip
    bill = all_in(venue, Money(D(200), "GBP"))
    taxed = [(one.amount.plain, one.note) for one in bill.lines if one.name == "tax"]
    assert taxed == [("10.00", "5% on hammer"), ("13.00", "20% on premium and fee and shipping")]
    assert bill.total.plain == "288.00"


def test_the_rate_stands_on_the_bill_with_its_day() -> None:
    day = dt.date(2026, 5, 3)
    venue = Venue("v", "EUR", exchange=D("1.10"), exchange_on=day, base="USD")
    assert all_in(venue, Money(D(10), "EUR")).exchange == Exchange("EUR", "USD", D("1.10"), day)
    assert all_in(Venue("v", "USD"), Money(D(10), "USD")).exchange is None


def test_free_shipping_is_told_and_the_usual_kind_of_nothing_is_not() -> None:
    listed = all_in(Venue("v", "USD", listed=True), Money(D(10), "USD"))
    assert [(one.name, one.note) for one in listed.lines[1:]] == [("carriage", "as listed")]
    assert len(all_in(Venue("v", "USD"), Money(D(10), "USD")).lines) == 1


@pytest.mark.parametrize(
    ("terms", "told"),
    [
        ({"insurance": D("1.5")}, "insurance: 150% is above 100%"),
        ({"payment": D(3)}, "payment: 300% is above 100%"),
        ({"fee": D(-1)}, "fee: -1 is below 0"),
        ({"carriage": D(10) ** 10}, "carriage: 10000000000 is above 1000000000"),
        ({"bands": (Band(None, D(25)),)}, "premium: 2500% is above 1000%"),
        ({"taxes": (Tax(D(2), TaxForm.ALL),)}, "tax: 200% is above 100%"),
        ({"bounds": {"premium": Bounds(D(9), D(5))}}, "at most 5 is below at least 9"),
        ({"bounds": {"tax": Bounds(D(9))}}, "tax: has no least and no most"),
    ],
)
def test_charges_out_of_all_measure_are_refused(terms: dict[str, object], told: str) -> None:
    with pytest.raises(InputError) as error:
        Venue(**{"name": "v", "currency": "USD", **terms})
    assert told in str(error.value)
    assert "\n" not in str(error.value)
