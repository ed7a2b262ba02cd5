"""Ages and births against dated photographs outside the project."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from appraise.base.ages import birth_years, parse_ages
from appraise.base.dates import year_range
from appraise.base.errors import InputError

DAYS = st.dates(date(1780, 1, 1), date(1899, 12, 31))

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


def test_year_less_age_alone_would_miss_the_birthday_still_to_come() -> None:
    """Thoreau and Adams: the birthday fell after the sitting, so year less age is a year late."""
    for taken, age, _, born in SITTERS[:2]:
        assert int(taken[:4]) - age == born.year + 1


def test_worked_ranges() -> None:
    """By hand from the rule: first year less oldest less one, to last year less youngest."""
    assert birth_years((1855, 1860), (30, 40)) == (1814, 1830)


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
        birth_years((1830, 1830), (-1, 20))


@given(born=DAYS, taken=DAYS)
def test_the_year_of_birth_is_among_those_that_the_age_leaves(born: date, taken: date) -> None:
    """The age at the last birthday by calendar arithmetic, as the register of a parish has it."""
    if born <= taken:
        age = taken.year - born.year - ((taken.month, taken.day) < (born.month, born.day))
        first, last = birth_years((taken.year, taken.year), (age, age))
        assert first <= born.year <= last
