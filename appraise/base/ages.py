"""Sitters' ages: what the date of a photograph says about a birth.

An age is age at the last birthday, so a birthday not yet reached that year costs one: somebody
aged 38 in June 1856 was born in 1817 or 1818. Arithmetic on the calendar only; how far an
apparent age may err is for the caller to allow for in the range.
"""

import re

from appraise.base.errors import InputError
from appraise.base.regex import late

Ages = tuple[int, int]
Years = tuple[int, int]

_AGES = late(r"\s*([0-9]{1,3})(?:\s*(?:\.\.|-|–|to)\s*([0-9]{1,3}))?\s*", re.IGNORECASE)
_OLDEST = 120


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
