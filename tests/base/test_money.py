"""Money adds up, in its own minor units."""

from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from appraise.base.errors import InputError
from appraise.base.money import EXPONENTS, Money, as_json


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("45.00 USD", "45.00 USD"),
        ("45 usd", "45.00 USD"),
        ("£12.5", "12.50 GBP"),
        ("$ 3", "3.00 USD"),
        ("€1.9995", "2.00 EUR"),
        ("1500 JPY", "1500 JPY"),
        ("1.2345 KWD", "1.235 KWD"),
    ],
)
def test_read(text, shown):
    assert str(Money.parse(text)) == shown


@pytest.mark.parametrize("text", ["", "USD", "-4 USD", "1,200 USD", "12 XXX", "1e3 USD", "nan USD"])
def test_refused(text):
    with pytest.raises(InputError):
        Money.parse(text)


def test_a_default_currency_fills_in():
    assert Money.parse("45", "GBP") == Money(Decimal(45), "GBP")
    with pytest.raises(InputError, match="has no currency"):
        Money.parse("45")


def test_currencies_do_not_mix():
    with pytest.raises(InputError, match="cannot be added"):
        _ = Money.parse("1 USD") + Money.parse("1 EUR")


# ISO 4217 exponents: 2 for most, 0 for JPY and KRW, 3 for KWD and BHD (International Organization
# for Standardization; the list as the currency library py-moneyed 3.0 reports it).
@pytest.mark.parametrize(("code", "digits"), [("USD", 2), ("JPY", 0), ("KRW", 0), ("KWD", 3)])
def test_minor_units(code, digits):
    assert EXPONENTS[code] == digits


# Ties go up on each line of a bill: .125 becomes .13 and 2.665 becomes 2.67 (arithmetic).
@pytest.mark.parametrize(("amount", "rounded"), [("0.125", "0.13"), ("2.665", "2.67")])
def test_half_up(amount, rounded):
    assert Money(Decimal(amount), "USD").rounded().amount == Decimal(rounded)


@given(st.integers(0, 10**12), st.sampled_from(sorted(EXPONENTS)))
def test_minor_units_round_trip(minor, code):
    money = Money.of_minor(minor, code)
    assert money.minor == minor
    assert Money.parse(str(money)) == money


@given(st.decimals(0, 10**9, places=5), st.decimals(0, 10**9, places=5))
def test_sums_are_exact(a, b):
    total = Money(a, "USD") + Money(b, "USD")
    assert total.amount == a + b
    unit = Decimal("0.01")
    assert total.rounded().amount == (a + b).quantize(unit, ROUND_HALF_UP)
    assert total.floored() <= total


def test_json():
    assert as_json(Money.parse("45 USD")) == {"amount": "45.00", "currency": "USD"}
    assert as_json(None) is None
