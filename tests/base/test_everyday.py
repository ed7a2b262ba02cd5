"""Days and hours as people write them; the weekdays are those of the Gregorian calendar."""

import datetime as dt

import pytest
from every import every

from appraise.base.ages import parse_ages
from appraise.base.errors import InputError
from appraise.base.everyday import day_typed, moment_typed
from appraise.base.logday import dating_typed

TODAY = dt.date(2026, 12, 1)  # a Tuesday


@every(
    ("text", "day"),
    [("14 days", "2026-12-15"), ("in two weeks", "2026-12-15"), ("a month", "2027-01-01"),
     ("6 December", "2026-12-06"), ("Sunday 6 December", "2026-12-06"), ("5 Jan", "2027-01-05"),
     ("tomorrow", "2026-12-02"), ("next sunday", "2026-12-06"), ("Dec 6th", "2026-12-06"),
     ("31/12/2026", "2026-12-31"), ("6 dicembre 2026", "2026-12-06"), ("29 February", "2028-02-29"),
     ("on Tuesday", "2026-12-08"), ("Tuesday", "2026-12-01")],
)  # fmt: skip
def test_a_day_to_come(text, day):
    assert day_typed(text, TODAY, ahead=True) == dt.date.fromisoformat(day)


@every(
    ("text", "day"),
    [("3 days ago", "2026-11-28"), ("yesterday", "2026-11-30"), ("last sunday", "2026-11-29"),
     ("6 December", "2025-12-06"), ("7 Nov", "2026-11-07"), ("12 May 2026", "2026-05-12"),
     ("today", "2026-12-01")],
)  # fmt: skip
def test_a_day_that_is_past(text, day):
    assert day_typed(text, TODAY) == dt.date.fromisoformat(day)


@every(
    "text",
    ["Monday 6 December", "6/12/2026", "30 February", "March 2026", "soon", "14 things", "", "400"],
)
def test_what_is_no_day_or_could_be_two_is_none(text):
    assert day_typed(text, TODAY, ahead=True) is None
    assert moment_typed(text, TODAY) == ""


def test_days_to_come_are_not_counted_for_one_that_is_past():
    assert day_typed("14 days", TODAY) is None


def test_without_a_today_nothing_is_counted():
    for text in ("tomorrow", "14 days", "6 December"):
        assert day_typed(text, dt.date.min, ahead=True) is None
    assert day_typed("6 December 2026", dt.date.min) == dt.date(2026, 12, 6)


def test_a_month_on_from_its_last_day_is_the_last_of_the_next():
    assert day_typed("a month", dt.date(2027, 1, 31), ahead=True) == dt.date(2027, 2, 28)


@every(
    ("text", "said"),
    [("Sunday 6 December 19:30", "2026-12-06 19:30"), ("6 Dec 7.30pm", "2026-12-06 19:30"),
     ("tomorrow at 12 am", "2026-12-02 00:00"), ("19:30 on 6 December", "2026-12-06 19:30"),
     ("Sun 6 Dec, 19:30 Europe/Berlin", "2026-12-06 19:30 Europe/Berlin"),
     ("6 December", "2026-12-06"), ("6 December 13pm", ""), ("6 December 19", "")],
)  # fmt: skip
def test_an_hour_to_come(text, said):
    assert moment_typed(text, TODAY) == said


@every(
    ("text", "ages"),
    [("about 70", (65, 75)), ("70s", (70, 79)), ("early 30s", (30, 34)),
     ("in his forties", (40, 49)),
     ("6 months", (0, 0)), ("18 months old", (1, 1)), ("about 8", (6, 10)), ("aged 30", (30, 30)),
     ("30 years old", (30, 30)), ("between 20 and 25", (20, 25)), ("about 20 to 25", (20, 25)),
     ("25..35", (25, 35)), ("about 1", (0, 2)), ("late sixties", (65, 69))],
)  # fmt: skip
def test_ages_in_words(text, ages):
    assert parse_ages(text) == ages


@every("text", ["old", "about", "1860s", "about 130", "35 to 25", ""])
def test_what_is_no_age_is_refused(text):
    with pytest.raises(InputError):
        parse_ages(text)


@every(
    ("text", "edtf"),
    [("March 1858", "1858-03"), ("about 1858", "1858~"), ("1850s", "185X"),
     ("spring 1858", "1858-21"),
     ("1855-1860", "[1855..1860]"), ("3 April 1859", "1859-04-03"), ("1858-03", "1858-03")],
)  # fmt: skip
def test_dates_of_objects_in_words(text, edtf):
    assert dating_typed(text).text == edtf


@every("text", ["5/6/1858", "1800s", "long ago"])
def test_what_could_be_two_dates_is_refused(text):
    with pytest.raises(InputError):
        dating_typed(text)
