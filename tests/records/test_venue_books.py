"""Which terms hold for a sale, and what an amount is worth: by the user's own venues and rates."""

import datetime as dt
from dataclasses import replace
from decimal import Decimal

import pytest
from every import every

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.records.base_currency import BaseCurrency
from appraise.records.fields import changed
from appraise.records.piece import Origin, Piece
from appraise.records.rate import HIGHEST, Rate
from appraise.records.values import Author
from appraise.records.venue import Venue
from appraise.records.venuebook import SalePlace, VenueBook, sale_of

DAY = dt.date(2026, 11, 7)
ROOM = Venue("Quay Rooms", "GBP", channel="auction", usual=True)
HALL = Venue("the hall", "USD", channel="auction")


def rate(day, worth, currency="GBP"):
    return Rate(currency, "USD", Decimal(worth), dt.date.fromisoformat(day))


RATES = (rate("2026-11-11", "1.40"), rate("2026-11-01", "1.20"), rate("2026-10-01", "1.10"))
BOOK = VenueBook((ROOM, HALL), RATES)


def money(amount, currency="USD"):
    return Money(Decimal(amount), currency)


@every(
    ("day", "worth"),
    [("2026-09-01", "1.10"), ("2026-10-01", "1.10"), ("2026-10-16", "1.10"),
     ("2026-10-17", "1.20"), ("2026-11-01", "1.20"), ("2026-11-06", "1.20"),
     ("2026-11-07", "1.40"), ("2030-01-01", "1.40")],
)  # fmt: skip
def test_the_nearest_rate_counts_and_of_two_the_earlier(day, worth):
    """16 October lies 15 days after the first and 16 before the second; 6 November 5 and 5."""
    assert BOOK.rate("GBP", "USD", dt.date.fromisoformat(day)).rate == Decimal(worth)


def test_a_rate_counts_for_its_own_pair_alone():
    assert BOOK.rate("EUR", "USD", DAY) is None
    assert BOOK.rate("USD", "GBP", DAY) is None
    assert BOOK.turned(money(10, "EUR"), "USD", DAY) is None
    assert BOOK.turned(money(10), "USD", DAY) == money(10)


def test_an_amount_is_turned_and_rounded_half_up_to_the_cent():
    book = VenueBook((), (rate("2026-11-07", "1.205"),))
    assert book.turned(money(1, "GBP"), "USD", DAY) == money("1.21")
    assert book.turned(money(10, "GBP"), "USD", DAY) == money("12.05")


@every("name", ["quay rooms", "QUAY ROOMS", "Quáy Rooms"])
def test_a_venue_is_known_in_any_case_and_with_any_accent(name):
    assert BOOK.venue(name) == ROOM
    assert BOOK.named(name) == ROOM
    assert BOOK.sells(name) == "GBP"


def test_a_venue_that_is_not_there_is_told_with_the_nearest():
    assert BOOK.venue("a barn") is None
    assert BOOK.sells("a barn") == ""
    with pytest.raises(InputError, match="the hall"):
        BOOK.named("the hal")
    with pytest.raises(InputError, match="venues edit"):
        VenueBook().named("zzz")


def test_of_two_venues_of_one_name_the_first_counts():
    second = replace(ROOM, name="QUAY ROOMS", currency="USD")
    assert VenueBook((ROOM, second)).venue("quay rooms") == ROOM


@every(
    ("venue", "channel", "found"),
    [("the hall", "auction", HALL), ("", "auction", ROOM), (" ", "auction", ROOM),
     ("elsewhere", "auction", ROOM), ("", "market", None), ("the hall", "market", HALL)],
)  # fmt: skip
def test_the_named_venue_holds_before_the_usual_one(venue, channel, found):
    assert BOOK.for_sale(venue, channel) == found


def test_terms_end_in_the_base_currency_or_tell_what_is_missing():
    assert BOOK.terms(ROOM, "USD", DAY).exchange == Decimal("1.40")
    assert BOOK.terms(ROOM, "USD", DAY).home == "USD"
    assert BOOK.terms(ROOM, "GBP", DAY).exchange is None
    assert BOOK.terms(ROOM, "EUR", DAY) is None
    with pytest.raises(InputError, match="no rate from GBP to EUR") as told:
        BOOK.terms_at(ROOM, "EUR", DAY)
    assert "appraise rates GBP RATE" in str(told.value)
    terms, why = BOOK.terms_or_why(SalePlace("quay rooms"), "EUR", DAY)
    assert terms is None
    assert "no rate from GBP to EUR" in why
    assert BOOK.terms_or_why(SalePlace("the hall"), "USD", DAY)[1] == ""


def test_no_fee_for_exchanging_where_nothing_is_exchanged():
    dear = replace(HALL, exchange_fee=Decimal("0.03"))
    assert BOOK.terms(dear, "USD", DAY).exchange_fee == 0
    abroad = replace(ROOM, exchange_fee=Decimal("0.03"))
    assert BOOK.terms(abroad, "USD", DAY).exchange_fee == Decimal("0.03")


def test_without_a_venue_the_price_is_in_the_currency_asked():
    here = BOOK.venue_for(SalePlace(channel="market", currency="GBP"), "USD", DAY)
    assert (here.currency, here.home, here.exchange) == ("GBP", "USD", Decimal("1.40"))
    assert here.name == "market"
    unknown = BOOK.venue_for(SalePlace(currency="EUR"), "USD", DAY)
    assert (unknown.currency, unknown.exchange, unknown.name) == ("USD", None, "no venue")


def test_what_a_listing_asks_to_send_it_replaces_the_usual():
    usual = replace(HALL, carriage=Decimal(12))
    book = VenueBook((usual, ROOM), RATES)
    assert book.venue_for(SalePlace("the hall"), "USD", DAY).carriage == Decimal(12)
    asked = book.venue_for(SalePlace("the hall", shipping=money(7)), "USD", DAY)
    assert (asked.carriage, asked.listed) == (Decimal(7), True)
    free = book.venue_for(SalePlace("the hall", shipping=money(0, "EUR")), "USD", DAY)
    assert (free.carriage, free.listed) == (Decimal(0), True)


def test_shipping_in_another_currency_goes_by_the_rates():
    """14 USD at 1.40 USD a pound are 10 pounds of a bill in pounds; 10 pounds are 14 USD."""
    abroad = BOOK.venue_for(SalePlace("quay rooms", shipping=money(14)), "USD", DAY)
    assert abroad.carriage == Decimal(10)
    at_home = BOOK.venue_for(SalePlace("the hall", shipping=money(10, "GBP")), "USD", DAY)
    assert at_home.carriage == Decimal(14)
    with pytest.raises(InputError, match="no rate from EUR to USD"):
        BOOK.venue_for(SalePlace("the hall", shipping=money(10, "EUR")), "USD", DAY)


def test_one_venue_of_a_channel_is_the_usual_one():
    stall = Venue("the stall", "USD", channel="market", usual=True)
    book = BOOK.with_venue(stall).with_venue(replace(HALL, usual=True))
    assert [(one.name, one.usual) for one in book.venues] == [
        ("Quay Rooms", False), ("the hall", True), ("the stall", True)
    ]  # fmt: skip
    assert book.rates == RATES
    changed = BOOK.with_venue(replace(ROOM, name="quay rooms", usual=False))
    assert [one.name for one in changed.venues] == ["quay rooms", "the hall"]


def test_a_piece_tells_where_it_is_met():
    piece = Piece(channel="online", asking=money(40, "GBP"), shipping=money(5, "GBP"))
    assert sale_of(piece) == SalePlace("", "online", "GBP", money(5, "GBP"))
    from_hall = replace(piece, asking=None, origin=Origin(where="the hall"))
    assert sale_of(from_hall) == SalePlace("the hall", "online", "", money(5, "GBP"))


@every(
    ("worth", "why"),
    [("0", "above 0"), ("-1", "below 0"), ("NaN", "not a number"), ("Infinity", "not a number"),
     ("100001", "is not a rate of"), ("0.000009", "is not a rate of")],
)  # fmt: skip
def test_a_rate_out_of_all_measure_is_refused(worth, why):
    with pytest.raises(InputError, match=why):
        rate("2026-11-07", worth)


def test_a_rate_at_its_bounds_and_to_itself():
    assert rate("2026-11-07", HIGHEST).title == "1 GBP on 2026-11-07"
    assert rate("2026-11-07", 1 / HIGHEST).key == "GBP USD 2026-11-07"
    with pytest.raises(InputError, match="no rate to itself"):
        rate("2026-11-07", 1, currency="USD")
    assert (BaseCurrency("EUR").title, BaseCurrency("EUR").key) == ("currency EUR", "base")


@every(
    ("change", "why"),
    [({"name": " "}, "name of one line"), ({"name": "a\nb"}, "line break"),
     ({"usual": True, "channel": ""}, "without a channel"), ({"base": "EUR"}, "no rate from USD"),
     ({"base": "XYZ"}, "is not known"), ({"exchange": Decimal(0)}, "not above 0"),
     ({"exchange": Decimal("Infinity")}, "not above 0")],
    ids=str,
)  # fmt: skip
def test_a_venue_that_cannot_be_is_refused(change, why):
    with pytest.raises(InputError, match=why):
        replace(HALL, **change)


@every(
    "text",
    ["tax=101 on hammer", "tax=5 on hammer, 101 on premium", "payment=101", "import=200"],
)
def test_no_rate_is_above_the_whole_of_what_it_is_charged_on(text):
    """What is charged may be all of it again, as duties of 100 % are, and no more."""
    field, _, told = text.partition("=")
    by = Author("USD", DAY)
    whole = told.replace("101", "100").replace("200", "100")
    assert changed(HALL, {field: whole}, by) != HALL
    with pytest.raises(InputError, match=field):
        changed(HALL, {field: told}, by)
