"""Amounts as people write them, read by one parser. The ways of writing are common practice."""

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.base.moneytext import EXPONENTS, currency_named
from appraise.exchange.sheet_cells import amount
from appraise.knowledge import load
from appraise.listing.first_look import understand

FORMS = [
    ("45 dollars", "45 USD"),
    ("45 euro", "45 EUR"),
    ("45 Euros", "45 EUR"),
    ("A$45", "45 AUD"),
    ("AU$ 45.50", "45.50 AUD"),
    ("C$85", "85 CAD"),
    ("NZ$85", "85 NZD"),
    ("US$45", "45 USD"),
    ("18,- EUR", "18 EUR"),
    ("€ 85,-", "85 EUR"),
    ("85,-- €", "85 EUR"),
    ("Fr. 15.–", "15 CHF"),
    ("CHF 1’480.–", "1480 CHF"),
    ("1'480.50 CHF", "1480.50 CHF"),
    ("1.250,00 €", "1250 EUR"),
    ("€1,250.00", "1250 EUR"),
    ("1 250,50 EUR", "1250.50 EUR"),
    ("1\u202f250,50 €", "1250.50 EUR"),
    ("12,50 EUR", "12.50 EUR"),
    ("EUR 12.50", "12.50 EUR"),
    ("£45", "45 GBP"),
    ("45 pounds", "45 GBP"),
    ("1500 yen", "1500 JPY"),
]


def money(text):
    number, code = text.split()
    return Money(Decimal(number), code)


@pytest.mark.parametrize(("text", "wanted"), FORMS)
def test_a_typed_amount_and_a_cell_agree(text, wanted):
    assert Money.parse(text) == money(wanted)
    assert amount(text, ".", "GBP") == money(wanted)
    assert amount(text, ",", "GBP") == money(wanted)


@pytest.fixture(scope="module")
def knowledge():
    return load()


@pytest.mark.parametrize(("text", "wanted"), FORMS)
def test_a_first_look_agrees(text, wanted, knowledge):
    assert understand(f"sixth ambrotype {text}", knowledge).piece.asking == money(wanted)


@pytest.mark.parametrize(("text", "wanted"), [("18,-", "18"), ("1’480.–", "1480"), ("45", "45")])
def test_without_a_currency_it_is_the_default(text, wanted):
    assert Money.parse(text, "CHF") == Money(Decimal(wanted), "CHF")


@pytest.mark.parametrize("text", ["$45", "45 dollars", "45 $", "$ 45"])
def test_a_bare_dollar_is_the_users_own(text, knowledge):
    assert Money.parse(text, "AUD") == money("45 AUD")
    assert Money.parse(text, "GBP") == money("45 USD")
    assert understand(f"sixth ambrotype {text}", knowledge, "AUD").piece.asking == money("45 AUD")


def test_a_crown_is_the_users_own_or_refused():
    assert Money.parse("45 kr", "NOK") == money("45 NOK")
    with pytest.raises(InputError, match=r"'45 kr' could be in SEK, NOK, .* Write it as 45 SEK\."):
        Money.parse("45 kr", "EUR")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("1,250 EUR", "'1,250 EUR' reads two ways. Write 1250 EUR or 1.25 EUR."),
        ("1.250 EUR", "'1.250 EUR' reads two ways. Write 1250 EUR or 1.25 EUR."),
        ("£45 EUR", "'£45 EUR' has two currencies, EUR and GBP. Write one."),
        ("A$45 CAD", "'A$45 CAD' has two currencies, AUD and CAD. Write one."),
        ("$45 EUR", "'$45 EUR' has two currencies, $ and EUR. Write one."),
        ("45 ducats", "the currency 'ducats' is not known. Write USD, GBP, EUR."),
        ("₿45", "the sign '₿' is not known. Write USD, GBP, EUR."),
        ("45", "'45' has no currency. Example: 45.00 USD."),
        ("cheap", "'cheap' is not an amount of money. Example: 45.00 USD."),
    ],
)
def test_what_is_unclear_is_refused_with_what_to_type(text, told):
    with pytest.raises(InputError) as caught:
        Money.parse(text)
    assert str(caught.value) == told


def test_a_code_says_which_dollar():
    assert Money.parse("$45 AUD") == Money.parse("AUD $45") == money("45 AUD")


def test_three_decimals_belong_to_currencies_that_have_them():
    assert Money.parse("1.235 KWD") == money("1.235 KWD")


def test_words_for_currencies_are_those_of_the_vocabulary(knowledge):
    terms = [one for one in knowledge.terms.values() if one.field == "currency"]
    named = {word: one.value for one in terms if one.value in EXPONENTS for word in one.synonyms}
    assert len(named) > 10
    for word, code in named.items():
        assert currency_named(word) == ("$" if code == "USD" else code), word


@settings(deadline=None)
@given(st.text(max_size=30))
def test_any_text_is_money_or_one_line(text):
    line = ""
    try:
        Money.parse(text, "EUR")
    except InputError as error:
        line = str(error)
    assert "\n" not in line
