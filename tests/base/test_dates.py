"""Dates: reading, widening, writing, and what is said about what cannot be read."""

import re
from datetime import date, timedelta

import pytest
from every import every
from hypothesis import example, given
from hypothesis import strategies as st

from appraise.base.dates import Dating, year_range, years
from appraise.base.edtf import Sense
from appraise.base.errors import InputError

DAYS = st.dates()
YEARS = st.integers(1, 9999)
NOTATION = st.text("0123456789X-~?%/.[]{},TYSE: ", max_size=24)

MENDS = [
    ("184-", "184X"),
    ("184?", "184X"),
    ("185x", "185X"),
    ("18--", "18XX"),
    ("c1850", "1850~"),
    ("c. 1850", "1850~"),
    ("Circa 1850", "1850~"),
    ("about 1840s", "184X~"),
    ("1850s", "185X"),
    ("1850's", "185X"),
    ("1800s", "180X or 18XX"),
    ("early 1850s", "[1850..1854]"),
    ("mid-1850s", "[1853..1857]"),
    ("late 1840s", "[1845..1849]"),
    ("1856-13-01", "1856-01-13"),
    ("1855-1860", "[1855..1860]"),
    ("1860-1855", "[1855..1860]"),
    ("1860/1855", "[1855..1860]"),
    ("1855–60", "[1855..1860]"),
    ("1855/60", "[1855..1860]"),
    ("between 1855 and 1860", "[1855..1860]"),
    ("from 1855 to 1860", "[1855..1860]"),
    ("[1855 .. 1860]", "[1855..1860]"),
    ("before 1860", "[..1859]"),
    ("after 1856", "[1857..]"),
    ("not after 1866", "[..1866]"),
    ("since 1856", "[1856..]"),
    ("1856-", "[1856..]"),
    ("1846 or 1847", "[1846,1847]"),
    ("1850?~", "1850%"),
    ("1855/unknown", "1855/"),
    ("1855/open", "1855/.."),
    ("Mar. 9th, 1857", "1857-03-09"),
    ("17 August 1859", "1859-08-17"),
    ("October 1857", "1857-10"),
    ("18631122", "1863-11-22"),
    ("1855-4-2", "1855-04-02"),
    ("1855.4", "1855-04"),
    ("11/05/1861", "1861-11-05 or 1861-05-11"),
    ("23/04/1855", "1855-04-23"),
]


@every(("text", "meant"), MENDS)
def test_what_is_no_edtf_is_refused_with_what_was_probably_meant(text: str, meant: str) -> None:
    with pytest.raises(InputError) as raised:
        Dating.parse(text)
    assert text in raised.value.what
    assert raised.value.mend == f"Write it as {meant}."


@every(
    ("text", "says"),
    [
        ("", "the date is empty"),
        ("girl", "'girl' is not a date in EDTF"),
        ("1855-13", "in '1855-13', month 13 is not one of 01 to 12"),
        ("1855-00", "month 00 is not one of 01 to 12"),
        ("1855-02-30", "1855-02 has no day 30"),
        ("1900-02-29", "1900-02 has no day 29"),
        ("19XX-02-3X", "19XX-02 has no day 3X"),
        ("1855-10-32", "day 32 is not one of 01 to 31"),
        ("1855-2X", "month 2X is not one of 01 to 12"),
        ("1855-21-04", "month 21 is not one of 01 to 12"),
        ("0000", "year 0000 is not one of 0001 to 9999"),
        ("-1985", "'-1985' is outside the years 0001 to 9999"),
        ("Y170000002", "outside the years"),
        ("Y-17E7", "outside the years"),
        ("1950S5", "no 5 significant digits"),
        ("1950S0", "no 0 significant digits"),
        ("1985-04-12T25:00:00", "'25:00:00' is not a time of day"),
        ("1985-04T23:20:30", "a time of day needs a whole date"),
        ("1855/1856/1857", "more than a start and an end"),
        ("../..", "names no date at all"),
        ("[..]", "names no date at all"),
        ("[1855..1860", "is not closed"),
        ("{1855]", "is not closed"),
        ("[1860..1855]", "ends before it begins"),
        ("[1855..1856-05]", "not of one precision"),
        ("[1855..,1860]", "belongs at the end of a set"),
        ("[1855,..1860]", "belongs at the start of a set"),
        ("[1855,,1860]", "is not a date in EDTF"),
        ("[]", "is not a date in EDTF"),
        ("١٨٥٥", "is not a date in EDTF"),
    ],
)
def test_errors_say_what_is_wrong_and_how_to_write_it(text: str, says: str) -> None:
    with pytest.raises(InputError) as raised:
        Dating.parse(text)
    assert says in raised.value.what
    assert raised.value.mend
    assert "\n" not in str(raised.value)


@pytest.mark.parametrize(
    ("text", "sense", "approximate", "uncertain"),
    [
        ("1855", Sense.SINGLE, False, False),
        ("1855~", Sense.SINGLE, True, False),
        ("1855?", Sense.SINGLE, False, True),
        ("1847%", Sense.SINGLE, True, True),
        ("1855/1860", Sense.SPAN, False, False),
        ("1855~/1860?", Sense.SPAN, True, True),
        ("[1855..1860]", Sense.CHOICE, False, False),
        ("[1855,1857~]", Sense.CHOICE, True, False),
        ("{1855,1857}", Sense.ALL, False, False),
    ],
)
def test_a_date_keeps_its_text_its_sense_and_its_doubts(
    text: str, sense: Sense, approximate: bool, uncertain: bool
) -> None:
    read = Dating.parse(f"  {text} ")
    assert (str(read), read.sense) == (text, sense)
    assert (read.approximate, read.uncertain) == (approximate, uncertain)


@pytest.mark.parametrize(
    ("text", "tolerance", "first", "last"),
    [
        ("1850~", 5, 1845, 1855),
        ("1850~", 0, 1850, 1850),
        ("1850~", 10, 1840, 1860),
        ("1850?", 5, 1850, 1850),
        ("1850%", 5, 1845, 1855),
        ("184X~", 5, 1835, 1854),
        ("1850~/1855", 5, 1845, 1855),
        ("1850/1855~", 5, 1850, 1860),
        ("[1844~..1851]", 2, 1842, 1851),
        ("[1844..]", 5, 1844, None),
        ("../1851~", 5, None, 1856),
        ("1851/", 5, 1851, None),
        ("1950S2", 5, 1900, 1999),
        ("1855-24", 5, 1855, 1856),
        ("1855-12~", 5, 1855, 1856),
        ("0003~", 5, 1, 8),
        ("9998~", 5, 9993, 9999),
    ],
)
def test_a_year_range_widens_what_is_about(
    text: str, tolerance: int, first: int | None, last: int | None
) -> None:
    assert year_range(text, tolerance) == (first, last)
    assert year_range(Dating.parse(text), tolerance) == (first, last)


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        ("1850-06~", date(1850, 1, 1), date(1850, 11, 30)),
        ("1855-02~", date(1854, 9, 1), date(1855, 7, 31)),
        ("1850-06-11~", date(1850, 6, 6), date(1850, 6, 16)),
        ("1850~-06-11", date(1845, 6, 11), date(1855, 6, 11)),
        ("1850-~06-11", date(1850, 1, 11), date(1850, 11, 11)),
        ("1856-02-~29", date(1856, 2, 24), date(1856, 3, 5)),
        ("0001-01-01~", date.min, date(1, 1, 6)),
        ("9999-12-31~", date(9999, 12, 26), date.max),
    ],
)
def test_about_reaches_five_of_the_finest_unit_marked(text: str, first: date, last: date) -> None:
    assert Dating.parse(text).bounds() == (first, last)


def test_a_tolerance_below_zero_is_refused() -> None:
    with pytest.raises(InputError, match="below zero"):
        year_range("1850~", -1)


def test_gaps_between_the_members_of_a_set_are_not_admitted() -> None:
    read = Dating.parse("[1849,1852..1854,1860~]")
    admitted = [year for year in range(1845, 1870) if read.admits(year, 1)]
    assert admitted == [1849, 1852, 1853, 1854, 1859, 1860, 1861]
    assert Dating.parse("[..1849,1860..]").admits(1855) is False
    assert Dating.parse("[..1849,1860..]").bounds() == (None, None)


@pytest.mark.parametrize(
    ("first", "last", "text"),
    [
        (1855, 1862, "[1855..1862]"),
        (1855, 1855, "1855"),
        (1855, None, "[1855..]"),
        (None, 1862, "[..1862]"),
        (7, 99, "[0007..0099]"),
    ],
)
def test_years_are_written_as_a_set(first: int | None, last: int | None, text: str) -> None:
    assert years(first, last) == text


@pytest.mark.parametrize(
    ("first", "last", "says"),
    [
        (1862, 1855, "cannot run from"),
        (None, None, "at least one end"),
        (0, 1855, "year 0 is outside"),
        (1855, 10000, "year 10000 is outside"),
    ],
)
def test_years_that_are_no_range_are_refused(
    first: int | None, last: int | None, says: str
) -> None:
    with pytest.raises(InputError, match=says):
        years(first, last)


@pytest.mark.parametrize(
    ("text", "meant"),
    [("1839-41", "[1839..1841]"), ("1821-24", "[1821..1824]"), ("1841-22", ""), ("1839-10", "")],
)
def test_a_season_code_that_looks_like_two_years_is_doubted(text: str, meant: str) -> None:
    doubt = Dating.parse(text).doubt
    assert doubt.endswith(meant)
    assert bool(doubt) == bool(meant)


def test_significant_digits_keep_their_estimate() -> None:
    assert Dating.parse("1853S3").estimate == 1853
    assert Dating.parse("1853").estimate is None


@given(first=YEARS, more=st.integers(0, 300))
def test_written_years_come_back(first: int, more: int) -> None:
    last = min(9999, first + more)
    assert year_range(years(first, last)) == (first, last)
    assert year_range(years(first, None)) == (first, None)
    assert year_range(years(None, last)) == (None, last)


@given(day=DAYS, masked=st.sets(st.sampled_from([0, 1, 2, 3, 5, 6, 8, 9])))
def test_a_masked_date_still_admits_the_day_it_hides(day: date, masked: set[int]) -> None:
    text = "".join("X" if i in masked else mark for i, mark in enumerate(day.isoformat()))
    read = Dating.parse(text)
    assert read.earliest is not None
    assert read.latest is not None
    assert read.earliest <= day <= read.latest
    pattern = re.compile(text.replace("X", "[0-9]"))
    assert pattern.fullmatch(read.earliest.isoformat())
    assert pattern.fullmatch(read.latest.isoformat())


@given(
    day=DAYS,
    length=st.sampled_from([4, 7, 10]),
    mark=st.sampled_from(["~", "%"]),
    tolerance=st.integers(0, 60),
)
def test_a_larger_tolerance_never_narrows(
    day: date, length: int, mark: str, tolerance: int
) -> None:
    read = Dating.parse(day.isoformat()[:length] + mark)
    first, last = read.bounds(tolerance)
    wider_first, wider_last = read.bounds(tolerance + 1)
    assert first is not None
    assert last is not None
    assert wider_first is not None
    assert wider_last is not None
    assert wider_first <= first <= day <= last <= wider_last


@given(day=st.dates(date(2, 1, 1), date(9998, 12, 31)), tolerance=st.integers(1, 300))
def test_days_about_a_day_are_counted_in_days(day: date, tolerance: int) -> None:
    reach = timedelta(days=tolerance)
    assert Dating.parse(f"{day}~").bounds(tolerance) == (day - reach, day + reach)


@given(st.one_of(st.text(max_size=30), NOTATION))
@example("9" * 5000)
@example("1950S" + "9" * 5000)
def test_any_text_is_read_or_refused_in_one_line(text: str) -> None:
    read, refusal = _try(text)
    assert (read is None) == (refusal is not None)
    if refusal:
        assert "\n" not in str(refusal)
        assert refusal.mend
    elif read and read.earliest and read.latest:
        assert read.earliest <= read.latest


@given(st.one_of(NOTATION, st.sampled_from([text for text, _ in MENDS])))
def test_every_mend_can_be_read(text: str) -> None:
    _, refusal = _try(text)
    offered = refusal and re.fullmatch(r"Write it as (.+)\.", refusal.mend)
    for meant in offered[1].split(" or ") if offered else ():
        assert Dating.parse(meant).text == meant


def _try(text: str) -> tuple[Dating | None, InputError | None]:
    try:
        return Dating.parse(text), None
    except InputError as error:
        return None, error
