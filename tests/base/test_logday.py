"""Days known in part: EDTF (Library of Congress, 2019) and everyday words in six tongues."""

import datetime as dt

import pytest
from every import every
from hypothesis import given
from hypothesis import strategies as st

from appraise.base.errors import InputError
from appraise.base.logday import (
    UNKNOWN_DAY,
    PartialDay,
    bounds,
    day_in_words,
    days_wide,
    log_day_of,
    middle,
    read_log_day,
    sorting,
    within,
)


@every(
    ("typed", "written", "first", "last"),
    [
        ("2018-08-15", "2018-08-15", "2018-08-15", "2018-08-15"),
        ("2018-08", "2018-08", "2018-08-01", "2018-08-31"),
        # EDTF level 1: seasons 21 to 24; their months are the meteorological ones.
        ("spring 2019", "2019-21", "2019-03-01", "2019-05-31"),
        ("2019-21", "2019-21", "2019-03-01", "2019-05-31"),
        ("printemps 2019", "2019-21", "2019-03-01", "2019-05-31"),
        ("Sommer 2018", "2018-22", "2018-06-01", "2018-08-31"),
        ("otoño 2018", "2018-23", "2018-09-01", "2018-11-30"),
        ("herfst 2018", "2018-23", "2018-09-01", "2018-11-30"),
        ("estate 2018", "2018-22", "2018-06-01", "2018-08-31"),
        ("2015", "2015", "2015-01-01", "2015-12-31"),
        ("about 2015", "2015~", "2013-01-01", "2017-12-31"),
        ("c. 2015", "2015~", "2013-01-01", "2017-12-31"),
        ("um 2015", "2015~", "2013-01-01", "2017-12-31"),
        ("2015~", "2015~", "2013-01-01", "2017-12-31"),
        ("August 2018", "2018-08", "2018-08-01", "2018-08-31"),
        ("août 2018", "2018-08", "2018-08-01", "2018-08-31"),
        ("08/2018", "2018-08", "2018-08-01", "2018-08-31"),
        ("ca. Mai 2017", "2017-05~", "2017-03-01", "2017-07-31"),
        # EDTF level 2: thirds of a year 37 to 39.
        ("early 2019", "2019-37", "2019-01-01", "2019-04-30"),
        ("2018-2019", "[2018..2019]", "2018-01-01", "2019-12-31"),
        ("before 2015", "[..2014]", None, "2014-12-31"),
        ("3 May 2018", "2018-05-03", "2018-05-03", "2018-05-03"),
        ("unknown", "unknown", None, None),
        ("?", "unknown", None, None),
    ],
)
def test_a_day_as_it_is_typed(typed, written, first, last):
    found = read_log_day(typed)
    assert found.isoformat() == written
    assert tuple(each and each.isoformat() for each in bounds(found)) == (first, last)
    assert log_day_of(written) == found
    assert read_log_day(written) == found


@pytest.mark.parametrize(
    "typed", ["03/04/2024", "2024-13-01", "foo", "2018-13", "2018-02-30", "", "x" * 9_000]
)
def test_what_is_none_or_two_is_refused(typed):
    with pytest.raises(InputError, match=r"is not a day|empty"):
        read_log_day(typed)


def test_the_middle_and_the_width():
    assert middle(dt.date(2018, 8, 15)) == dt.date(2018, 8, 15)
    assert middle(read_log_day("2018-08")) == dt.date(2018, 8, 16)
    assert days_wide(read_log_day("2018-08")) == 30
    for open_ended in (UNKNOWN_DAY, read_log_day("before 2015")):
        assert middle(open_ended) is None
        assert days_wide(open_ended) is None
    assert sorting(UNKNOWN_DAY) == ("", "")
    assert sorting(read_log_day("before 2015")) == ("0001-01-01", "2014-12-31")
    assert within(read_log_day("2018-08"), dt.date(2018, 1, 1), dt.date(2018, 12, 31))
    assert not within(read_log_day("2018"), dt.date(2018, 2, 1), dt.date(2018, 12, 31))
    assert not within(UNKNOWN_DAY, dt.date(2018, 2, 1), dt.date(2018, 12, 31))


@given(st.text(max_size=30))
def test_any_text_is_a_day_or_refused(text):
    try:
        found = read_log_day(text)
    except InputError:
        return
    assert isinstance(found, dt.date | PartialDay)
    assert log_day_of(found.isoformat()) == found


@pytest.mark.parametrize(
    ("edtf", "words"),
    [
        ("2019-21", "spring 2019"),
        ("2024-22~", "about summer 2024"),
        ("2019-37", "early 2019"),
        ("2015~", "about 2015"),
        ("2018-08~", "about 2018-08"),
        ("2018-08", "2018-08"),
        ("2026-11-25", "2026-11-25"),
        ("[2014..2016]", "[2014..2016]"),
        ("unknown", "unknown"),
        ("201X", "201X"),
    ],
)
def test_a_day_is_told_in_words_that_are_read_back(edtf, words):
    assert day_in_words(edtf) == words
    assert str(read_log_day(words)) == edtf
