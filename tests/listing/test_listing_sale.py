"""Figures of a sale: what is no price, and what they tell of a lot. Invented texts."""

import datetime as dt

import pytest
from every import every
from listing.listingkit import knowledge, said

from appraise.base.moments import Closing
from appraise.listing.first_look import understand
from appraise.listing.sale import told_of_lot

TODAY = dt.date(2026, 12, 1)
NO_PRICE = (
    "Bidding ends Sunday 6 December at 19:30. Sixth plate ambrotype of a lady.",
    "Ambrotype, sixth plate, cased. Sale starts at 10.30am, viewing from 9.",
    "Lot 88: ninth plate ambrotype in union case. Est. 120 - 180. Ends 20:00",
    "Sixth plate ambrotype. Buyer's premium 27 % plus VAT. Closing 12 March 2027, 18.45",
    "Tintype of a boy, 1/6 plate. Commission 25 percent.",
    "CDV of a lady, 62 x 101. Weighs 30 grams. Ends tonight at 9.",
    "Ambrotype in leather case. Auction ends 14/11 at 21.15 Uhr",
    "Daguerreotype of a girl, aged 7 or 8. Bidding ends on the 6th at 8 o'clock.",
    "Sixth plate ambrotype. Closes Dec 6, 7:30 PM EST. Lot no. 31",
    "Cased ambrotype. Gavel falls at 1830 hrs on 6.12.",
    "Tintype. Auction ends: 06.12.26 20:15 Uhr",
    "Tintype 1/9 plate, thickness 0.4, ends 10 pm",
)
PRICED = (
    ("Sixth plate ambrotype £45, ends 6 December 19:30", "45.00 GBP"),
    ("Sixth-plate ambrotype, 45 plus 5 post, closing 19.30 on Sunday", "45.00 GBP"),
    ("Tintype in paper sleeve 12. Pick up Saturday 10 to 4.", "12.00 GBP"),
    ("Ambrotype of a boy, asking 25 may ship tomorrow", "25.00 GBP"),
    ("Closing down: sixth plate ambrotype in case, 30", "30.00 GBP"),
)


@pytest.mark.parametrize("text", NO_PRICE)
def test_hours_days_shares_and_measures_are_no_price(text):
    assert said(text, "asking", "GBP") == ()


@every("text, price", PRICED)
def test_the_price_beside_them_is_still_read(text, price):
    assert said(text, "asking", "GBP") == (price,)


def test_an_hour_is_no_year_and_an_old_day_is_a_date():
    assert said("Ambrotype. Hammer falls at 1830 hrs.", "date") == ()
    assert said("Ambrotype, dated April 19, 1862", "date") == ("1862-04-19",)


@every(
    "line, price",
    [
        ("ambrotype sixth plate 45 closes 19:30", "45.00 USD"),
        ("tintype 12 sale ends 8 pm", "12.00 USD"),
    ],
)
def test_a_typed_line_reads_them_the_same_way(line, price):
    assert str(understand(line, knowledge(), "USD").piece.asking) == price


def closes(text):
    found = told_of_lot(text, TODAY, "GBP").get("closes")
    return found and found.written()


@every(
    "text, when",
    [
        ("Bidding ends Sunday 6 December at 19:30.", "2026-12-06 19:30"),
        ("Closes 12 March 2027, 18.45", "2027-03-12 18:45"),
        ("Auction closes 7 pm on Friday 12 March", "2027-03-12 19:00"),
        ("Auction ends: 06.12.26 20:15 Uhr", "2026-12-06 20:15"),
    ],
)
def test_when_it_closes(text, when):
    assert closes(text) == Closing.parse(when).written()


@every(
    "text, when",
    [
        ("ends Tuesday 8 Dec 7:30 PM EST", "2026-12-08"),  # a zone that is not the user's
        ("closing sale, tintype 40", None),
        ("ended 3 May 2026", None),
        ("Closing price 1.50 on Monday", None),
    ],
)
def test_an_hour_in_another_zone_and_a_day_that_was_are_left_unread(text, when):
    assert closes(text) == when


def test_number_and_estimate():
    told = told_of_lot("Lot 214. Estimate 180-250, premium 27%", TODAY, "GBP")
    assert (told["number"], str(told["low"]), str(told["high"])) == (
        "214",
        "180.00 GBP",
        "250.00 GBP",
    )
    assert "low" not in told_of_lot("Lot of 12, estimate €30-50", TODAY, "GBP")
    assert "number" not in told_of_lot("Lot 3 tintypes. Lot of 5.", TODAY, "GBP")
