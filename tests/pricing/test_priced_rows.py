"""The row of a price that was met, field by field."""

import datetime as dt
import math
from dataclasses import replace

import pytest
from every import every
from store.logkit import bought, usd

from appraise.base.logday import LogDay, PartialDay, days_wide, read_log_day
from appraise.base.money import Money
from appraise.knowledge import load
from appraise.pricing.cost_basis import all_in_price, bill_of, rate_day
from appraise.pricing.features import PricedRow
from appraise.pricing.price_rows import priced_rows, stage_of
from appraise.pricing.shares import TAKEN_OFF
from appraise.records.entry import Entry
from appraise.records.rate import Rate
from appraise.records.venue import Venue
from appraise.records.venuebook import VenueBook

ON = dt.date(2026, 11, 30)
KNOWLEDGE = load()


def row(entry: Entry, book: VenueBook = VenueBook()) -> PricedRow | None:  # noqa: B008
    return next(iter(priced_rows([entry], KNOWLEDGE, "USD", ON, book)), None)


def test_a_row_says_what_its_entry_says() -> None:
    """A sixth plate of 2 3/4 by 3 1/4 inches has 57.7 square centimetres."""
    entry = bought(
        "a girl", process="tintype", motif="Vine", subjects=("child",), quality=4.0, appeal=2,
        identified="name", maker="R. Quíll", condition_factor=0.8, belonging=(("together", 1.0),),
        date=dt.date(2025, 11, 30),
    )  # fmt: skip
    told = row(entry)
    assert told is not None
    assert (told.price, told.kind, told.channel, told.record) == (45.0, "cased", "market", "bought")
    assert (told.process, told.housing) == ({"tintype": 1.0}, {"thermoplastic": 1.0})
    assert told.area == pytest.approx(2.75 * 3.25 * 2.54**2, rel=2e-2)
    assert (told.condition, told.quality, told.appeal) == (0.8, 4.0, 2)
    assert (told.identified, told.maker, told.maker_name) == (0.5, True, "r. quill")
    assert (told.subject, told.motif, told.belonging) == (("child",), "Vine", {"together": 1.0})
    assert told.age == pytest.approx(365 / 365.25)
    assert dict(told.ratios) == {"condition": pytest.approx(math.log(0.8))}


def test_of_what_an_entry_does_not_say_the_row_says_nothing() -> None:
    told = row(Entry("bought", read_log_day("unknown"), paid=usd("45.00"), maker_known=False))
    assert told is not None
    assert (told.kind, told.area, told.age, told.maker) == ("cased", None, None, False)
    assert (told.condition, told.quality, told.identified) == (None, None, None)
    assert (told.motif, told.maker_name, told.ratios) == ("", "", ())
    titled = row(bought("a girl", motif=""))
    assert titled is not None
    assert titled.motif == "a girl"


@every("record", ["swap", "gift", "returned"])
def test_what_was_no_sale_teaches_no_price(record) -> None:
    assert row(bought(record=record)) is None
    assert row(bought(own_work=True)) is None
    assert row(bought(price="0.00")) is None
    assert row(bought(price="0.50")) is not None
    assert row(bought(paid=Money.parse("45 EUR"))) is None


def test_a_state_of_belonging_takes_its_share_off() -> None:
    """A modern case leaves the image's share of the housing."""
    told = row(bought(belonging=(("modern-case", 1.0),)))
    assert told is not None
    share = KNOWLEDGE.housings["thermoplastic"].image
    assert dict(told.ratios)[TAKEN_OFF] == pytest.approx(math.log(share))
    assert TAKEN_OFF not in dict(row(bought(belonging=(("together", 1.0),))).ratios)


@every(
    ("day", "years"),
    [("2026-11-30", 0.0), ("2027-01-01", 0.0), ("2016-11-30", 3652 / 365.25),
     ("2025", (dt.date(2026, 11, 30) - dt.date(2025, 7, 2)).days / 365.25), ("201X", None),
     ("unknown", None), ("[..2014]", None)],
)  # fmt: skip
def test_years_are_counted_from_the_middle_of_a_day(day, years) -> None:
    told = row(bought(date=read_log_day(day)))
    assert told is not None
    assert told.age == (None if years is None else pytest.approx(years, abs=0.01))


def test_a_day_known_to_five_years_has_an_age_and_a_wider_one_has_none() -> None:
    """Five leap years, as wide as "about" a year may be, are 1,830 days."""
    about, wider = read_log_day("2015~"), read_log_day("2010/2015")
    assert days_wide(about) <= 5 * 366 < days_wide(wider)
    assert row(bought(date=about)).age is not None
    assert row(bought(date=wider)).age is None


@every(
    ("more", "stage"),
    [({"record": "unsold", "hammer": usd("9"), "paid": None}, "asking"), ({}, "bought"),
     ({"asked": usd("9"), "paid": None}, "asking"), ({"asked": usd("45")}, "bought"),
     ({"asked": usd("9"), "hammer": usd("9"), "paid": None}, "bought"),
     ({"offered": usd("9"), "paid": None}, "bought"),
     ({"offered": usd("9"), "asked": usd("9"), "paid": None}, "asking")],
)  # fmt: skip
def test_an_amount_that_was_only_asked_is_above_what_is_paid(more, stage) -> None:
    assert stage_of(bought(**more)) == stage
    ratios = dict(row(bought(**more)).ratios)
    assert ("record" in ratios) is (stage == "asking")


HALL = Venue("the hall", "USD", channel="auction", fee=usd("3").amount, carriage=usd("5").amount,
             travel=usd("100").amount)  # fmt: skip
BOOK = VenueBook((HALL,), (Rate("EUR", "USD", usd("1.5").amount, ON),))


def there(**more) -> Entry:
    told = {"venue": "the hall", "channel": "auction", "paid": None, "hammer": usd("10")}
    return bought(**{**told, **more})


@every(
    ("entry", "cost"),
    [(there(), "18"), (there(postage=usd("2")), "15"),
     (there(postage=Money.parse("2 EUR")), "16.00"), (there(premium=usd("1")), "11"),
     (there(tax=usd("1")), "11"), (there(fees=usd("1")), "11"), (there(hammer=usd("0")), None),
     (there(hammer=usd("0.01")), "8.01"), (there(paid=usd("10")), "10"),
     (there(paid=usd("10"), premium=usd("1"), tax=usd("2"), fees=usd("3"), postage=usd("4")), "20"),
     (bought(record="sold", fees=usd("3"), postage=usd("2")), "47"), (bought(fees=usd("3")), "48"),
     (bought(fees=Money.parse("2 EUR")), "48.00"), (bought(fees=Money.parse("2 GBP")), "45"),
     (there(hammer=Money.parse("10 EUR")), "15.00"), (there(hammer=Money.parse("1 GBP")), None),
     (there(hammer=Money.parse("10 EUR"), fees=Money.parse("2 EUR")), "18.00")],
)  # fmt: skip
def test_what_a_piece_cost_in_all(entry, cost) -> None:
    """Of what nobody has paid the venue's bill without the travel; else what was noted beside."""
    assert all_in_price(entry, "USD", BOOK) == (None if cost is None else usd(cost))


def test_a_bill_is_made_for_what_nobody_has_paid_alone() -> None:
    assert bill_of(there(), "USD", BOOK) is not None
    assert bill_of(there(paid=usd("10")), "USD", BOOK) is None
    assert bill_of(there(venue="a barn", channel="market"), "USD", BOOK) is None
    assert bill_of(there(), "GBP", BOOK) is None
    assert rate_day(bought(date=read_log_day("unknown"))) == dt.date.max
    day: LogDay = read_log_day("2019")
    assert isinstance(day, PartialDay)
    assert rate_day(replace(bought(), date=day)).year == 2019
