"""Ages, births and patent days against dated photographs and dated patents outside the project."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from appraise.base.ages import (
    age_on,
    birth_days,
    birth_years,
    parse_ages,
    patent_doubt,
    picture_days,
    picture_years,
    shared,
)
from appraise.base.dates import Dating, year_range
from appraise.base.errors import InputError

# Date of the photograph (EDTF), age last birthday, birth years expected, day of birth.
SITTERS = [
    # National Portrait Gallery, Smithsonian, NPG.72.119: Thoreau, June 1856; birth in the record.
    ("1856-06", 38, (1817, 1818), date(1817, 7, 12)),
    # Metropolitan Museum Journal 12 (1977): J. Q. Adams, sittings of March 1843; birth from memory.
    ("1843-03", 75, (1767, 1768), date(1767, 7, 11)),
    # Daguerreotype of Emily Dickinson, dated from her age, so arithmetic only; birth from memory.
    ("1846/1847", 16, (1829, 1831), date(1830, 12, 10)),
    # Library of Congress, daguerreotype of Lincoln attributed to Shepherd; birth from memory.
    ("1846/1847", 37, (1808, 1810), date(1809, 2, 12)),
]


@pytest.mark.parametrize(("taken", "age", "expected", "born"), SITTERS)
def test_known_sitters_were_born_in_the_years_found(
    taken: str, age: int, expected: tuple[int, int], born: date
) -> None:
    first, last = year_range(taken)
    assert first is not None
    assert last is not None
    assert birth_years((first, last), (age, age)) == expected
    assert expected[0] <= born.year <= expected[1]
    assert shared(picture_years((born.year, born.year), (age, age)), (first, last)) is not None


def test_year_less_age_alone_would_miss_the_birthday_still_to_come() -> None:
    """Thoreau and Adams: the birthday fell after the sitting, so year less age is a year late."""
    for taken, age, _, born in SITTERS[:2]:
        assert int(taken[:4]) - age == born.year + 1


def test_the_day_form_gives_the_bounds_of_the_dickinson_plate() -> None:
    """Aged 16, born on 10 December 1830 (from memory): [1846-12-10..1847-12-09]."""
    first, last = picture_days(date(1830, 12, 10), (16, 16))
    plate = Dating.parse("[1846-12-10..1847-12-09]")
    assert (first, last) == (plate.earliest, plate.latest)


def test_worked_ranges() -> None:
    """By hand from the rule: first year less oldest less one, to last year less youngest."""
    assert birth_years((1855, 1860), (30, 40)) == (1814, 1830)
    assert picture_years((1830, 1830), (16, 20)) == (1846, 1851)
    assert birth_days(date(1845, 5, 15), (25, 25)) == (date(1819, 5, 16), date(1820, 5, 15))


def test_a_range_that_nothing_shares_is_none() -> None:
    assert shared((1846, 1851), (1850, 1860)) == (1850, 1851)
    assert shared((1846, 1849), (1850, 1860)) is None


@pytest.mark.parametrize(
    ("text", "ages"),
    [("38", (38, 38)), ("25..35", (25, 35)), (" 25 - 35 ", (25, 35)), ("25 to 35", (25, 35))],
)
def test_ages_are_read(text: str, ages: tuple[int, int]) -> None:
    assert parse_ages(text) == ages


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("old", "'old' is not an age"),
        ("", "is not an age"),
        ("35..25", "runs backwards"),
        ("20..121", "outside 0 to 120"),
    ],
)
def test_what_is_no_age_is_refused(text: str, says: str) -> None:
    with pytest.raises(InputError, match=says):
        parse_ages(text)


def test_impossible_ranges_are_refused() -> None:
    with pytest.raises(InputError, match="runs backwards"):
        birth_years((1860, 1855), (30, 40))
    with pytest.raises(InputError, match="outside 0 to 120"):
        picture_years((1830, 1830), (-1, 20))
    with pytest.raises(InputError, match="outside years 1 to 9999"):
        birth_days(date(20, 1, 1), (30, 40))
    with pytest.raises(InputError, match="before the birth"):
        age_on(date(1830, 1, 2), date(1830, 1, 1))


def test_a_leapling_comes_of_age_on_the_first_of_march() -> None:
    """Calendar practice without a source; some laws say 28 February."""
    assert age_on(date(1836, 2, 29), date(1857, 2, 28)) == 20
    assert age_on(date(1836, 2, 29), date(1857, 3, 1)) == 21
    assert picture_days(date(1836, 2, 29), (21, 21)) == (date(1857, 3, 1), date(1858, 2, 28))


DAYS = st.dates(date(1839, 1, 1), date(1960, 12, 31))
AGES = st.tuples(st.integers(0, 100), st.integers(0, 20)).map(lambda pair: (pair[0], sum(pair)))
ONE_DAY = timedelta(days=1)


@given(taken=DAYS, ages=AGES)
def test_birth_days_are_exactly_those_with_the_age(taken: date, ages: tuple[int, int]) -> None:
    first, last = birth_days(taken, ages)
    assert age_on(first, taken) == ages[1]
    assert age_on(last, taken) == ages[0]
    assert age_on(first - ONE_DAY, taken) == ages[1] + 1
    if ages[0]:
        assert age_on(last + ONE_DAY, taken) == ages[0] - 1


@given(born=DAYS, ages=AGES)
def test_picture_days_are_exactly_those_with_the_age(born: date, ages: tuple[int, int]) -> None:
    first, last = picture_days(born, ages)
    assert age_on(born, first) == ages[0]
    assert age_on(born, last) == ages[1]
    assert age_on(born, last + ONE_DAY) == ages[1] + 1
    if ages[0]:
        assert age_on(born, first - ONE_DAY) == ages[0] - 1


@given(taken=DAYS, ages=AGES)
def test_the_year_form_covers_the_day_form(taken: date, ages: tuple[int, int]) -> None:
    first, last = birth_days(taken, ages)
    years = birth_years((taken.year, taken.year), ages)
    assert years[0] <= first.year <= last.year <= years[1]
    start, end = picture_years((first.year, last.year), ages)
    assert start <= taken.year <= end


# United States patents that are cited on cases and plates. "173 Years of (Almost) Uninterrupted
# Tuesdays", Patently-O, 2021: patents have issued on Tuesdays since 1848.
PATENTS = [
    date(1854, 7, 4),  # 11,213, ambrotype; encyclopaedia entry on Cutting, day from memory
    date(1854, 7, 11),  # 11,266 and 11,267, ambrotype; the same, day from memory
    date(1854, 10, 3),  # 11,758, Peck, thermoplastic case; US patent text
    date(1855, 2, 27),  # 12,451, Stull, stereo case; Patent Office Report for 1855
    date(1855, 8, 7),  # 13,410, Halvorson, thermoplastic case; US patent text
    date(1856, 2, 19),  # 14,300, tintype; Photographic Historical Society of Canada
    date(1856, 10, 14),  # 15,915, Critchlow hinge; National Museum of American History 1984.0138.19
    date(1857, 4, 21),  # reissue on the same label; National Museum of American History
    date(1858, 6, 1),  # 20,421, Kinsley and Parker hinge; from memory
    date(1865, 3, 7),  # Potter, tintype sleeve; wording on objects, common practice
]


@pytest.mark.parametrize("day", PATENTS)
def test_patent_days_on_objects_are_tuesdays(day: date) -> None:
    assert day.strftime("%w") == "2"
    assert patent_doubt(day) == ""


@pytest.mark.parametrize("day", PATENTS)
@pytest.mark.parametrize("slip", [1, 2, 3, 4, 5, 6])
def test_a_misread_patent_day_is_doubted_and_the_true_one_offered(day: date, slip: int) -> None:
    doubt = patent_doubt(day + timedelta(days=slip))
    assert "read it again" in doubt
    assert str(day) in doubt


def test_the_tuesday_rule_keeps_to_its_years() -> None:
    """A British design registered on Monday 23 August 1841 lies before them."""
    assert date(1841, 8, 23).strftime("%w") == "1"
    assert patent_doubt(date(1841, 8, 23)) == ""
    assert patent_doubt(date(1849, 12, 31)) == ""
    assert patent_doubt(date(1850, 1, 2)).startswith("1850-01-02 was a Wednesday")
    assert patent_doubt(date(1870, 12, 31)).startswith("1870-12-31 was a Saturday")
    assert patent_doubt(date(1871, 1, 1)) == ""


@given(day=st.dates(date(1850, 1, 1), date(1870, 12, 31)))
def test_a_patent_day_is_doubted_exactly_when_it_is_no_tuesday(day: date) -> None:
    assert (patent_doubt(day) == "") == (day.isoweekday() == 2)
