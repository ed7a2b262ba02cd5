"""Numbers as people write them in many countries: one grammar for the line and the listing."""

import re
from collections.abc import Iterator
from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

from appraise.base.errors import InputError
from appraise.base.money import Money

_MARKS = r"[,.'’\u00a0\u202f]"  # between thousands
_THOUSAND = r"(?:[ ]?k(?!\w))"
NUMBER = (
    rf"(?:\d{{1,3}}(?:(?:{_MARKS}|[ ])\d{{3}}){{1,3}}(?!\d)(?:[.,]\d{{2}}(?!\d))?"
    rf"|\d{{1,9}}(?:[.,]\d{{1,2}}(?!\d))?{_THOUSAND}?)"
)
"""A pattern for '1.250,00', "1'250", '1 250', '45,5', '1.2k'; blanks count where money is named."""
_BARE = re.compile(
    rf"\d(?<![\w/$£€'’-]\d)(?<!\d[.,]\d)"  # the first digit leads the search
    rf"(?:\d{{0,2}}(?:{_MARKS}\d{{3}}){{1,3}}(?:[.,]\d{{1,2}})?"
    rf"|\d{{0,8}}(?:[.,]\d{{1,2}})?{_THOUSAND}?)(?:\.[-–])?(?![\w%/]|[.,'’]\d|-\d|[ ]?[x×\"”″])",
    re.IGNORECASE,
)


class Bare(NamedTuple):
    """A number without a unit, as it stands in a text."""

    written: str
    start: int
    end: int


def bare_numbers(text: str) -> Iterator[Bare]:
    """Numbers that carry no unit, sign or per cent and are part of no date, from the left."""
    for match in _BARE.finditer(text):
        yield Bare(match.group(), *match.span())


def looks_like_year(written: str, first: int = 1700, last: int = 2100) -> bool:
    """Whether a number could be a year between two, both included."""
    return len(written) == 4 and written.isdecimal() and first <= int(written) <= last


@lru_cache(maxsize=4_096)
def number(written: str, currency: str) -> Money | None:
    """'1.250,00', '1,250', "1'250.50", '45,5', '1.2k' as money, or None when it is none."""
    digits = re.sub(r"[ '’\u00a0\u202f]", "", re.sub(r"\.[-–]$", "", written))
    times = 1000 if digits[-1:] in ("k", "K") else 1
    whole, mark, rest = _parted(digits.rstrip("kK"))
    plain = re.sub(r"[.,]", "", whole) + (f".{rest}" if mark else "")
    try:
        made = Money(Decimal(plain) * times, currency)
        made.rounded()  # too long a row of digits is no money
        return made
    except (InputError, ArithmeticError):
        return None


def _parted(digits: str) -> tuple[str, bool, str]:
    """Whole and decimal part; three digits after the last mark are thousands."""
    found = re.fullmatch(r"(.*)[.,](\d{1,2})", digits)
    return (found[1], True, found[2]) if found else (digits, False, "")
