"""Dates against the published specification and against an independent reader of it.

Source: Extended Date/Time Format (EDTF) Specification, Library of Congress, 4 February 2019, which
profiles ISO 8601-2:2019. Every example of its three levels stands here, with the days its own
sentence gives. The second reader is the `edtf` package (5.x) from PyPI.
"""

from datetime import date

import edtf as reference
import pytest
from every import every

from appraise.base.dates import Dating
from appraise.base.edtf import Sense
from appraise.base.errors import InputError

# Expression, first day, last day, as the specification's examples describe them. '' is open
# (double-dot) or unknown (null string).
LEVEL_0 = [
    ("1985-04-12", "1985-04-12", "1985-04-12"),
    ("1985-04", "1985-04-01", "1985-04-30"),
    ("1985", "1985-01-01", "1985-12-31"),
    ("1985-04-12T23:20:30", "1985-04-12", "1985-04-12"),
    ("1985-04-12T23:20:30Z", "1985-04-12", "1985-04-12"),
    ("1985-04-12T23:20:30-04", "1985-04-12", "1985-04-12"),
    ("1985-04-12T23:20:30+04:30", "1985-04-12", "1985-04-12"),
    ("1964/2008", "1964-01-01", "2008-12-31"),
    ("2004-06/2006-08", "2004-06-01", "2006-08-31"),
    ("2004-02-01/2005-02-08", "2004-02-01", "2005-02-08"),
    ("2004-02-01/2005-02", "2004-02-01", "2005-02-28"),
    ("2004-02-01/2005", "2004-02-01", "2005-12-31"),
    ("2005/2006-02", "2005-01-01", "2006-02-28"),
]
LEVEL_1 = [
    # A season's months are not in the specification: meteorological ones, a convention.
    ("2001-21", "2001-03-01", "2001-05-31"),
    ("1984?", "1984-01-01", "1984-12-31"),
    ("2004-06~", "2004-06-01", "2004-06-30"),
    ("2004-06-11%", "2004-06-11", "2004-06-11"),
    ("201X", "2010-01-01", "2019-12-31"),
    ("20XX", "2000-01-01", "2099-12-31"),
    ("2004-XX", "2004-01-01", "2004-12-31"),
    ("1985-04-XX", "1985-04-01", "1985-04-30"),
    ("1985-XX-XX", "1985-01-01", "1985-12-31"),
    ("1985-04-12/..", "1985-04-12", ""),
    ("1985-04/..", "1985-04-01", ""),
    ("1985/..", "1985-01-01", ""),
    ("../1985-04-12", "", "1985-04-12"),
    ("../1985-04", "", "1985-04-30"),
    ("../1985", "", "1985-12-31"),
    ("1985-04-12/", "1985-04-12", ""),
    ("1985-04/", "1985-04-01", ""),
    ("1985/", "1985-01-01", ""),
    ("/1985-04-12", "", "1985-04-12"),
    ("/1985-04", "", "1985-04-30"),
    ("/1985", "", "1985-12-31"),
]
LEVEL_2 = [
    ("1950S2", "1900-01-01", "1999-12-31"),
    ("2001-34", "2001-04-01", "2001-06-30"),
    ("[1667,1668,1670..1672]", "1667-01-01", "1672-12-31"),
    ("[..1760-12-03]", "", "1760-12-03"),
    ("[1760-12..]", "1760-12-01", ""),
    ("[1760-01,1760-02,1760-12..]", "1760-01-01", ""),
    ("[1667,1760-12]", "1667-01-01", "1760-12-31"),
    ("[..1984]", "", "1984-12-31"),
    ("{1667,1668,1670..1672}", "1667-01-01", "1672-12-31"),
    ("{1960,1961-12}", "1960-01-01", "1961-12-31"),
    ("{..1984}", "", "1984-12-31"),
    ("2004-06~-11", "2004-06-11", "2004-06-11"),
    ("2004?-06-11", "2004-06-11", "2004-06-11"),
    ("?2004-06-~11", "2004-06-11", "2004-06-11"),
    ("2004-%06-11", "2004-06-11", "2004-06-11"),
    ("156X-12-25", "1560-12-25", "1569-12-25"),
    ("15XX-12-25", "1500-12-25", "1599-12-25"),
    ("XXXX-12-XX", "0001-12-01", "9999-12-31"),
    ("1XXX-XX", "1000-01-01", "1999-12-31"),
    ("1XXX-12", "1000-12-01", "1999-12-31"),
    ("1984-1X", "1984-10-01", "1984-12-31"),
    ("2004-06-~01/2004-06-~20", "2004-06-01", "2004-06-20"),
    ("2004-06-XX/2004-07-03", "2004-06-01", "2004-07-03"),
]
EXAMPLES = LEVEL_0 + LEVEL_1 + LEVEL_2

# The specification's examples that no calendar of years 1 to 9999 can hold.
OUT_OF_RANGE = [
    "Y170000002",
    "Y-170000002",
    "-1985",
    "Y-17E7",
    "Y171010000S3",
    "Y3388E2S3",
]


def _day(text: str) -> date | None:
    return date.fromisoformat(text) if text else None


@every(("text", "first", "last"), EXAMPLES)
def test_every_example_of_the_specification(text: str, first: str, last: str) -> None:
    read = Dating.parse(text)
    assert (read.earliest, read.latest) == (_day(first), _day(last))


@pytest.mark.parametrize("text", OUT_OF_RANGE)
def test_far_years_of_the_specification_are_refused_as_such(text: str) -> None:
    assert reference.parse_edtf(text) is not None
    with pytest.raises(InputError, match="outside the years 0001 to 9999"):
        Dating.parse(text)


@pytest.mark.parametrize(
    ("text", "sense", "members"),
    [
        # "One of the years 1667, 1668, 1670, 1671, 1672" and "All of the years ...".
        ("[1667,1668,1670..1672]", Sense.CHOICE, [1667, 1668, 1670, 1671, 1672]),
        ("{1667,1668,1670..1672}", Sense.ALL, [1667, 1668, 1670, 1671, 1672]),
        # "Either the year 1667 or the month December of 1760".
        ("[1667,1760-12]", Sense.CHOICE, [1667, 1760]),
        # "beginning sometime in 1964 and ending sometime in 2008".
        ("1964/1967", Sense.SPAN, [1964, 1965, 1966, 1967]),
    ],
)
def test_sets_and_spans_hold_the_members_the_specification_lists(
    text: str, sense: Sense, members: list[int]
) -> None:
    read = Dating.parse(text)
    assert read.sense is sense
    assert [year for year in range(1600, 2020) if read.admits(year)] == members


@pytest.mark.parametrize(
    ("text", "approximate", "uncertain"),
    [
        ("1984?", False, True),
        ("2004-06~", True, False),
        ("2004-06-11%", True, True),
        ("2004-06~-11", True, False),  # year and month approximate
        ("2004?-06-11", False, True),  # year uncertain
        ("?2004-06-~11", True, True),  # year uncertain; month known; day approximate
        ("2004-%06-11", True, True),  # month uncertain and approximate
    ],
)
def test_qualifiers_mean_what_the_specification_says(
    text: str, approximate: bool, uncertain: bool
) -> None:
    read = Dating.parse(text)
    assert (read.approximate, read.uncertain) == (approximate, uncertain)


@pytest.mark.parametrize(
    ("code", "first", "last"),
    [
        # Level 2, Sub-year groupings: quarters of 3 months, quadrimesters of 4, semesters of 6.
        (33, "1855-01-01", "1855-03-31"),
        (34, "1855-04-01", "1855-06-30"),
        (35, "1855-07-01", "1855-09-30"),
        (36, "1855-10-01", "1855-12-31"),
        (37, "1855-01-01", "1855-04-30"),
        (38, "1855-05-01", "1855-08-31"),
        (39, "1855-09-01", "1855-12-31"),
        (40, "1855-01-01", "1855-06-30"),
        (41, "1855-07-01", "1855-12-31"),
    ],
)
def test_parts_of_a_year_have_the_length_the_specification_gives(
    code: int, first: str, last: str
) -> None:
    read = Dating.parse(f"1855-{code}")
    assert (read.earliest, read.latest) == (_day(first), _day(last))
    again = reference.parse_edtf(f"1855-{code}")
    assert (_tuple(read.earliest), _tuple(read.latest)) == (
        _struct(again.lower_strict()),
        _struct(again.upper_strict()),
    )


# Where the second reader differs, and why.
OWN_WAY = {
    # It gives an open end as an infinite float, and reads an unknown end as ten years away
    # (its setting DELTA_IF_UNKNOWN); an end that is not known is None here in both cases.
    **{text: "open or unknown end" for text, first, last in EXAMPLES if not (first and last)},
    # Its strict bounds ignore significant digits (its fuzzy bounds keep them, see below).
    "1950S2": "significant digits",
    # It counts from year 0, which `datetime.date` does not have.
    "XXXX-12-XX": "year zero",
    # It raises AttributeError on an unspecified digit in a month.
    "1984-1X": "masked month",
}


@every("text", [text for text, _, _ in EXAMPLES if text not in OWN_WAY])
def test_a_second_reader_finds_the_same_days_and_doubts(text: str) -> None:
    read, again = Dating.parse(text), reference.parse_edtf(text)
    assert _tuple(read.earliest) == _struct(again.lower_strict())
    assert _tuple(read.latest) == _struct(again.upper_strict())
    both = again.is_uncertain_and_approximate
    assert read.approximate == bool(again.is_approximate or both)
    assert read.uncertain == bool(again.is_uncertain or both)


@pytest.mark.parametrize(
    "text", [text for text, why in OWN_WAY.items() if why.startswith("open") and text[0] in "[{."]
)
def test_a_second_reader_finds_the_same_open_ends(text: str) -> None:
    read, again = Dating.parse(text), reference.parse_edtf(text)
    low, high = again.lower_strict(), again.upper_strict()
    assert (read.earliest is None) == (low == float("-inf"))
    assert (read.latest is None) == (high == float("inf"))


@pytest.mark.parametrize("text", ["1950S2", "1853S3", "1853S1"])
def test_a_second_reader_finds_the_same_significant_years(text: str) -> None:
    read, again = Dating.parse(text), reference.parse_edtf(text)
    assert _tuple(read.earliest) == _struct(again.lower_fuzzy())
    assert _tuple(read.latest) == _struct(again.upper_fuzzy())


@pytest.mark.parametrize(("text", "first", "last"), [("19XX-02-29", "1904-02-29", "1996-02-29")])
def test_a_masked_leap_day_is_a_day_that_existed(text: str, first: str, last: str) -> None:
    """The second reader gives 29 February of 1900 and 1999, which the calendar does not have."""
    read, again = Dating.parse(text), reference.parse_edtf(text)
    assert (read.earliest, read.latest) == (_day(first), _day(last))
    assert _struct(again.lower_strict()) == (1900, 2, 29)


@pytest.mark.parametrize("code", [24, 28, 30])
def test_a_season_over_the_turn_of_the_year_keeps_both_readings(code: int) -> None:
    """The second reader stops such a season at 31 December; the specification gives no months."""
    read, again = Dating.parse(f"1855-{code}"), reference.parse_edtf(f"1855-{code}")
    assert (read.earliest, read.latest) == (date(1855, 1, 1), date(1856, 2, 29))
    assert _struct(again.upper_strict()) == (1855, 12, 31)


@pytest.mark.parametrize(
    "text",
    [
        "19850412",  # "Basic format ... is not permitted"
        "1850s",
        "c1850",
        "184-",
        "1856-13-01",
        "1855-1860",
        "between 1855 and 1860",
        "185u",  # superseded by 'X'
        "1984?~",  # combined into '%'
        "1984/unknown",  # replaced with null
        "y170000002",  # now uppercase
    ],
)
def test_both_readers_refuse_what_the_specification_excludes(text: str) -> None:
    assert not reference.is_valid_edtf(text)
    with pytest.raises(InputError):
        Dating.parse(text)


@pytest.mark.parametrize("text", ["[1855, 1860]", "[1855 .. 1860]", "1855 / 1860"])
def test_blanks_are_refused_where_the_second_reader_skips_them(text: str) -> None:
    """Set representation, rule 4: "No spaces are allowed, anywhere within the expression"."""
    assert reference.is_valid_edtf(text)
    with pytest.raises(InputError, match=r"Write it as .*1855.*1860"):
        Dating.parse(text)


def _tuple(day: date | None) -> tuple[int, int, int] | None:
    return day and (day.year, day.month, day.day)


def _struct(moment: object) -> tuple[int, int, int]:
    year, month, day = tuple(moment)[:3]  # type: ignore[call-overload]
    return year, month, day
