"""Sitters' ages and patent days: what a date says about a birth, and a birth about a date.

An age is age at the last birthday, so a birthday not yet reached that year costs one: somebody
aged 38 in June 1856 was born in 1817 or 1818. Arithmetic on the calendar only; how far an
apparent age may err is for the caller to allow for in the range.
"""

import re
from datetime import date, timedelta

from appraise.base.errors import InputError

Ages = tuple[int, int]
Years = tuple[int, int]
Days = tuple[date, date]

_AGES = re.compile(r"\s*([0-9]{1,3})(?:\s*(?:\.\.|-|–|to)\s*([0-9]{1,3}))?\s*", re.IGNORECASE)
_OLDEST = 120
_WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_TUESDAY = 1


def parse_ages(text: str) -> Ages:
    """Read '38', '25..35', '25-35' or '25 to 35' as the youngest and oldest age in years.

    Raises:
        InputError: when it is no age, out of order, or above 120.
    """
    match = _AGES.fullmatch(text)
    if not match:
        raise InputError(f"'{text}' is not an age", mend="Example: 25..35, or 38.")
    return _checked((int(match[1]), int(match[2] or match[1])))


def birth_years(taken: Years, ages: Ages) -> Years:
    """Birth years of a sitter of the given ages, photographed in the given years.

    First year less the oldest age less one, to last year less the youngest age.

    Args:
        taken: First and last year of the photograph.
        ages: Youngest and oldest age in whole years, 0 to 120.

    Returns:
        Earliest and latest birth year, both included.

    Raises:
        InputError: when a pair is out of order or an age out of range.
    """
    youngest, oldest = _checked(ages)
    first, last = _ordered(taken)
    return first - oldest - 1, last - youngest


def birth_days(taken: date, ages: Ages) -> Days:
    """Birthdays of a sitter of the given ages, photographed on one day.

    The day less (oldest + 1) years plus a day, to the day less the youngest age.

    Raises:
        InputError: when the ages are out of order or range, or reach before year 1.
    """
    youngest, oldest = _checked(ages)
    return _years_on(taken, -oldest - 1) + timedelta(days=1), _years_on(taken, -youngest)


def picture_years(born: Years, ages: Ages) -> Years:
    """Years in which somebody born in the given years had the given ages.

    First birth year plus the youngest age, to last birth year plus the oldest age plus one.

    Raises:
        InputError: when a pair is out of order or an age out of range.
    """
    youngest, oldest = _checked(ages)
    first, last = _ordered(born)
    return first + youngest, last + oldest + 1


def picture_days(born: date, ages: Ages) -> Days:
    """Days on which somebody born on one day had the given ages.

    A birthday on 29 February is kept on 1 March in a common year.

    Raises:
        InputError: when the ages are out of order or range, or reach past year 9999.
    """
    youngest, oldest = _checked(ages)
    end = _birthday(born, oldest + 1)
    return _birthday(born, youngest), end - timedelta(days=1)


def age_on(born: date, day: date) -> int:
    """Age at the last birthday, in whole years.

    Raises:
        InputError: when the day lies before the birth.
    """
    if day < born:
        raise InputError(f"{day} lies before the birth on {born}")
    return day.year - born.year - ((day.month, day.day) < (born.month, born.day))


def shared(one: Years, other: Years) -> Years | None:
    """The years that two ranges have in common; None when they have none."""
    first, last = max(one[0], other[0]), min(one[1], other[1])
    return (first, last) if first <= last else None


def patent_doubt(day: date) -> str:
    """Why a United States patent date of 1850 to 1870 may be misread; empty when it may not.

    Patents were issued on Tuesdays from 1848, bar a few Christmas weeks (Patently-O,
    "173 Years of (Almost) Uninterrupted Tuesdays", 2021). British registered designs and French
    marks keep no such day; ask only about United States patents.
    """
    weekday = day.weekday()
    if not 1850 <= day.year <= 1870 or weekday == _TUESDAY:
        return ""
    before = day - timedelta(days=(weekday - _TUESDAY) % 7)
    return (
        f"{day} was a {_WEEKDAYS[weekday]}, and United States patents were issued on Tuesdays: "
        f"read it again ({before} and {before + timedelta(days=7)} were Tuesdays)"
    )


def _checked(ages: Ages) -> Ages:
    youngest, oldest = _ordered(ages)
    if youngest < 0 or oldest > _OLDEST:
        raise InputError(f"ages {youngest} to {oldest} are outside 0 to {_OLDEST}")
    return youngest, oldest


def _ordered(pair: tuple[int, int]) -> tuple[int, int]:
    if pair[0] > pair[1]:
        raise InputError(
            f"the range {pair[0]} to {pair[1]} runs backwards", mend="Put the smaller first."
        )
    return pair


def _years_on(day: date, count: int) -> date:
    """The same day `count` years on; 29 February becomes the 28th in a common year."""
    year = day.year + count
    if not 1 <= year <= 9999:
        raise InputError(f"{abs(count)} years from {day} lie outside years 1 to 9999")
    try:
        return day.replace(year=year)
    except ValueError:
        return date(year, 2, 28)


def _birthday(born: date, age: int) -> date:
    """The birthday on which an age is reached; 29 February becomes 1 March in a common year."""
    reached = _years_on(born, age)
    return reached if reached.day == born.day else reached + timedelta(days=1)
