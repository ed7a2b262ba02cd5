"""Instants and closings: zones, days on which clocks change, and how long it still is."""

import datetime as dt
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from appraise.base.errors import InputError
from appraise.base.moments import (
    Closing,
    end_of,
    left_words,
    on_day,
    parse_moment,
    told_moment,
    zone_named,
)

BERLIN, YORK = ZoneInfo("Europe/Berlin"), ZoneInfo("America/New_York")


def utc(text):
    return dt.datetime.fromisoformat(text).replace(tzinfo=dt.UTC)


@pytest.mark.parametrize(
    ("text", "instant"),
    [
        ("2026-11-08 20:00", "2026-11-08T19:00"),
        ("2026-11-08T20:00", "2026-11-08T19:00"),
        ("2026-11-08 20:00:00", "2026-11-08T19:00"),
        ("2026-11-08 20:00 America/New_York", "2026-11-09T01:00"),
        ("2026-11-08 20:00Z", "2026-11-08T20:00"),
        ("2026-11-08 20:00 +05:30", "2026-11-08T14:30"),
        ("2026-11-08 20:00-0800", "2026-11-09T04:00"),
        ("2026-11-08 20:00 UTC", "2026-11-08T20:00"),
        # Summer time ends in the EU at 01:00 UTC on the last Sunday of October (Directive
        # 2000/84/EC, article 3): 25 October 2026.
        ("2026-10-25 01:59", "2026-10-24T23:59"),
        ("2026-10-25 03:00", "2026-10-25T02:00"),
        ("2026-10-25 02:30 +02:00", "2026-10-25T00:30"),
        ("2026-10-25 02:30 +01:00", "2026-10-25T01:30"),
        # It begins at 01:00 UTC on the last Sunday of March (the same, article 2): 29 March.
        ("2026-03-29 01:59", "2026-03-29T00:59"),
        ("2026-03-29 03:00", "2026-03-29T01:00"),
        # In the United States it ends at 2:00 on the first Sunday of November and begins at 2:00
        # on the second Sunday of March (15 U.S.C. 260a): 1 November and 8 March 2026.
        ("2026-11-01 00:59 America/New_York", "2026-11-01T04:59"),
        ("2026-11-01 02:00 America/New_York", "2026-11-01T07:00"),
        ("2026-03-08 03:00 America/New_York", "2026-03-08T07:00"),
    ],
)
def test_an_hour_is_one_instant(text, instant):
    assert parse_moment(text, BERLIN)[0] == utc(instant)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("2026-10-25 02:30", "comes twice: the clocks go back. Write 2026-10-25 02:30+0200 or"),
        ("2026-11-01 01:30 America/New_York", "Write 2026-11-01 01:30-0400 or 01:30-0500."),
        ("2026-03-29 02:30", "does not exist: the clocks go forward over it"),
        ("2026-03-08 02:00 America/New_York", "does not exist"),
        ("2026-11-08 20:00 Europe/Berln", "Did you mean 'Europe/Berlin'?"),
        ("2026-11-08 20:00 CEST", "Write Europe/Berlin or +01:00."),
        ("2026-11-08 Europe/Berln", "Did you mean 'Europe/Berlin'?"),
        ("2026-11-08 20:00 ../etc", "zone '../etc' is not known"),
        ("2026-02-30 20:00", "is not a date or time"),
        ("2026-11-08 24:30", "is not a date or time"),
        ("sunday", "is not a date or time"),
        ("", "is not a date or time"),
        ("0001-01-01 00:00 +12:00", "is out of reach"),
    ],
)
def test_what_is_no_one_instant_is_refused_in_a_line(text, told):
    with pytest.raises(InputError) as caught:
        parse_moment(text, BERLIN)
    assert told in str(caught.value)
    assert "\n" not in str(caught.value)


def test_a_day_alone_has_no_hour():
    assert parse_moment("2026-11-08", BERLIN) == (None, dt.date(2026, 11, 8), "")
    assert Closing.parse("2026-11-08") == Closing(on=dt.date(2026, 11, 8))


def test_a_day_is_over_at_midnight_where_it_is_told():
    day = dt.date(2026, 10, 25)  # 25 hours long in Berlin
    assert end_of(day, BERLIN) == utc("2026-10-25T23:00")
    assert end_of(day, BERLIN) - end_of(dt.date(2026, 10, 24), BERLIN) == dt.timedelta(hours=25)
    assert Closing.parse("2026-11-08 America/New_York").end(BERLIN) == utc("2026-11-09T05:00")
    assert Closing.parse("2026-11-08").end(BERLIN) == utc("2026-11-08T23:00")


def test_days_are_counted_where_the_sale_is():
    day = Closing.parse("2026-11-08 America/New_York")
    assert day.days_left(utc("2026-11-09T04:30"), BERLIN) == 0  # 23:30 on the 8th there
    assert day.days_left(utc("2026-11-08T04:30"), BERLIN) == 1
    here = Closing.parse("2026-11-08")
    assert here.days_left(utc("2026-11-08T04:30"), BERLIN) == 0
    assert (
        Closing.parse("2026-11-08 20:00", BERLIN).days_left(utc("2026-11-08T04:30"), YORK) is None
    )


def test_the_sales_own_clock_is_told_where_it_is_known():
    there = Closing.parse("2026-11-08 14:30 America/New_York", BERLIN).there()
    assert there == "Sun 8 Nov 14:30 America/New_York"
    assert Closing.parse("2026-11-08 14:30", BERLIN).there() == ""


@pytest.mark.parametrize("name", ["", "Z", "UTC", "+01:00", "-03:30", "Europe/Berlin"])
def test_zones_have_names(name):
    assert (zone_named(name) is None) == (not name)


def test_the_sale_in_its_zone_is_told_in_the_readers():
    closing = Closing.parse("2026-11-08 14:30", YORK, "America/New_York")
    assert closing.told(BERLIN) == "Sun 8 Nov 2026 20:30 CET"
    assert closing.written() == "2026-11-08 14:30 America/New_York"
    assert told_moment(utc("2026-07-01T12:00"), BERLIN, year=False) == "Wed 1 Jul 14:00 CEST"


ZONES = ("", "UTC", "+05:45", "Europe/Berlin", "America/New_York", "Australia/Lord_Howe")
instants = st.datetimes(
    dt.datetime(1970, 1, 1), dt.datetime(2100, 1, 1), timezones=st.just(dt.UTC)
).map(lambda one: one.replace(second=0, microsecond=0))


@given(instants, st.sampled_from(ZONES))
def test_a_closing_is_written_as_it_is_read(at, zone):
    closing = Closing(at, None, zone)
    again = Closing.parse(closing.written(), BERLIN)
    assert again.at == at
    assert Closing.parse(again.written(), YORK) == again


@given(st.dates(dt.date(1900, 1, 1), dt.date(2999, 12, 31)), st.sampled_from(ZONES))
def test_a_closing_day_is_written_as_it_is_read(on, zone):
    closing = Closing(None, on, zone)
    assert Closing.parse(closing.written()) == closing


@pytest.mark.parametrize(
    ("at", "on"), [(None, None), (dt.datetime(2026, 1, 1, tzinfo=dt.UTC), dt.date(2026, 1, 1))]
)
def test_a_closing_is_an_instant_or_a_day(at, on):
    with pytest.raises(InputError, match="an instant or a day"):
        Closing(at, on)


def test_an_instant_is_kept_in_utc_to_the_second():
    for wrong in (dt.datetime(2026, 1, 1), dt.datetime(2026, 1, 1, 0, 0, 0, 1, tzinfo=dt.UTC)):
        with pytest.raises(InputError, match="in UTC to the second"):
            Closing(wrong)
    with pytest.raises(InputError, match="year 1026"):
        Closing(None, dt.date(1026, 1, 1))


@pytest.mark.parametrize(
    ("minutes", "words"),
    [
        (0.5, "under a minute"),
        (1, "1 min"),
        (59.9, "59 min"),
        (60, "1 h"),
        (200, "3 h 20 min"),
        (24 * 60, "1 day"),
        (24 * 60 + 59, "1 day"),
        (26 * 60, "1 day 2 h"),
        (47 * 60 + 59, "1 day 23 h"),
        (48 * 60, "2 days"),
        (20 * 24 * 60, "20 days"),
        (21 * 24 * 60, "3 weeks"),
    ],
)
def test_how_long_it_still_is(minutes, words):
    assert left_words(dt.timedelta(minutes=minutes)) == words


@given(instants, st.dates(dt.date(2020, 1, 1), dt.date(2030, 1, 1)))
def test_another_day_keeps_the_time_of_day_within_an_hour(at, day):
    moved = on_day(at, day)
    assert (moved - at) % dt.timedelta(days=1) == dt.timedelta(0)
    assert abs((moved.astimezone().date() - day).days) <= 1
