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

_BEHIND = r"(?:\s*(?:years?|yrs?|y)(?:[ -]?old)?| of age)?"
_AGES = late(
    r"(?:aged?\s+|between\s+)?([0-9]{1,3})(?:\s*(?:\.\.|-|–|to|or|and)\s*([0-9]{1,3}))?" + _BEHIND,
    re.IGNORECASE,
)
_ABOUT = late(
    r"(?:aged?\s+)?(?:about|around|approx(?:imately)?\.?|roughly|circa|ca?\.|~|some)\s*(?P<rest>.+)",
    re.IGNORECASE,
)
_MONTHS = late(r"([0-9]{1,2})\s*months?(?:[ -]?old)?", re.IGNORECASE)
_TENS = (
    "twenties", "thirties", "forties", "fifties", "sixties", "seventies", "eighties", "nineties",
)  # fmt: skip
_DECADE = late(
    rf"(?:in )?(?:(?:his|her|their|the) )?(?:(?P<part>early|mid|late)[ -])?"
    rf"(?:(?P<tens>[2-9])0'?s|(?P<word>{'|'.join(_TENS)}))",
    re.IGNORECASE,
)
_PARTS = {"": (0, 9), "early": (0, 4), "mid": (3, 7), "late": (5, 9)}
_OLDEST = 120
ABOUT = 5
"""Years by which "about" may be off, and a quarter of the age of the young: a judgement."""


def parse_ages(text: str) -> Ages:
    """Read '38', '25..35', '25 to 35', 'about 70' or 'early 30s' as youngest and oldest, in years.

    Raises:
        InputError: when it is no age, out of order, or above 120.
    """
    plain = " ".join(text.split())
    about = _ABOUT.fullmatch(plain)
    ages = _in_words(about["rest"] if about else plain)
    if ages is None:
        raise InputError(f"'{text}' is not an age", mend="Example: 25..35, about 30, or 38.")
    youngest, oldest = _checked(ages)
    if about and youngest == oldest:
        off = max(1, min(ABOUT, youngest // 4))
        return max(0, youngest - off), min(_OLDEST, oldest + off)
    return youngest, oldest


def _in_words(text: str) -> Ages | None:
    """One age or two, a decade of life or a part of it, or the months of an infant."""
    if match := _AGES.fullmatch(text):
        return int(match[1]), int(match[2] or match[1])
    if match := _MONTHS.fullmatch(text):
        return int(match[1]) // 12, int(match[1]) // 12
    match = _DECADE.fullmatch(text)
    if match is None:
        return None
    tens = int(match["tens"] or _TENS.index(match["word"].lower()) + 2) * 10
    first, last = _PARTS[(match["part"] or "").lower()]
    return tens + first, tens + last


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
