"""An amount far from all else is asked about; one that is near anything is not."""

from decimal import Decimal

import pytest
from store.logkit import bought, usd

from appraise.base.money import Money
from appraise.knowledge import load
from appraise.pricing.slips import slip, usual_price


@pytest.mark.parametrize(
    ("paid", "asked", "worth", "asks"),
    [
        ("4500.00", "45.00", 50.0, True),
        ("4.50", "45.00", 50.0, True),
        ("45.00", "45.00", 50.0, False),
        ("45.00", "450.00", 50.0, False),  # near the worth
        ("450.00", "450.00", 50.0, False),  # paid as asked
        ("430.00", "450.00", 50.0, False),  # near what was asked
        ("4500.00", None, 50.0, True),
        ("4500.00", "45.00", None, True),
        ("4500.00", None, None, False),
        ("4500.00", None, 0.0, False),  # a worth of nothing compares with nothing
        ("4500.00", None, 0.5, True),
        ("4500.00", "0.50", None, True),
        ("250.00", None, 50.0, False),  # five times, and no more
        ("250.01", None, 50.0, True),
        ("10.00", None, 50.0, False),
        ("9.99", None, 50.0, True),
    ],
)
def test_asked_where_it_is_far_from_both(paid, asked, worth, asks):
    entry = bought(price=paid, asked=usd(asked) if asked else None)
    assert bool(slip(entry, worth, "USD", 5.0)) == asks


def test_it_says_what_it_is_far_from_and_cuts_no_amount():
    told = slip(bought(price="123456789.00", asked=usd("45.00")), 50.0, "USD", 5.0)
    assert told == (
        "123456789.00 USD is far from the 50.00 that such pieces go for in your log and from the "
        "45.00 USD asked"
    )


def test_what_is_asked_is_held_against_the_worth_alone():
    asked = bought(paid=None, asked=usd("450.00"), record="asking")
    assert slip(asked, 50.0, "USD", 5.0)
    assert not slip(asked, 200.0, "USD", 5.0)


def test_what_cannot_be_converted_is_no_measure():
    abroad = bought(price="4500.00", asked=Money(Decimal(45), "EUR"))
    assert slip(abroad, None, "USD", 5.0) == ""


def test_without_prices_there_is_no_opinion():
    entry = bought()
    knowledge = load()
    from appraise.records.venuebook import VenueBook

    assert usual_price(entry, None, knowledge, "USD", entry.date, VenueBook()) is None
    assert knowledge.ratios.far == 5.0
