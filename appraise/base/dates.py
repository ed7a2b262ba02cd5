"""Dates of objects: read from EDTF, kept as written, widened for circa, written as sets.

A collector's record says "made at one time within these years", which EDTF writes as the set
`[1855..1860]`. The interval `1855/1860` says that something lasted from 1855 to 1860; many
catalogues use it loosely for the set, so both are read and only sets are written.
"""

import re
from calendar import monthrange
from collections.abc import Callable
from datetime import date
from re import Match
from typing import Self

from appraise.base import edtf
from appraise.base.dataclass import dataclass
from appraise.base.edtf import Run, Sense
from appraise.base.errors import InputError
from appraise.base.regex import late

# How far "about" reaches when nothing else is said: a judgement, since EDTF gives no tolerance.
CIRCA = 5

_USUAL = (
    "Write 1858, 1858-06 or 1858-06-21; 1850~ for about, 185X for a decade, "
    "[1857..1863] for one year within."
)
_TWO_YEARS = late(r"([0-9]{2})([0-9]{2})-([0-9]{2})")


@dataclass(frozen=True, slots=True)
class Dating:
    """A date as written, with the days that it allows.

    Attributes:
        text: The expression as written, EDTF level 0, 1 or 2.
        sense: A single date, a span that lasted, one of a set, or all of a set.
        runs: The days allowed, as runs; sets have one for each member, the others have one.
    """

    text: str
    sense: Sense
    runs: tuple[Run, ...]

    @classmethod
    def parse(cls, text: str) -> Self:
        """Read an EDTF expression of level 0, 1 or 2.

        Raises:
            InputError: when the text is no EDTF; the mend gives the expression that was
                probably meant (`c1850`: `1850~`).
        """
        trimmed = text.strip()
        if not trimmed:
            raise InputError("the date is empty", mend=_USUAL)
        try:
            sense, runs = edtf.read(trimmed)
        except InputError as error:
            what = error.what if trimmed in error.what else f"in '{trimmed}', {error.what}"
            raise InputError(what, mend=_mend(trimmed, error)) from None
        return cls(trimmed, sense, runs)

    @property
    def earliest(self) -> date | None:
        """The first day allowed, before any tolerance; None when open or unknown."""
        return self.bounds(0)[0]

    @property
    def latest(self) -> date | None:
        """The last day allowed, before any tolerance; None when open or unknown."""
        return self.bounds(0)[1]

    @property
    def approximate(self) -> bool:
        """Whether any part is marked approximate ('~' or '%')."""
        return any(run.soft_start or run.soft_end for run in self.runs)

    @property
    def uncertain(self) -> bool:
        """Whether any part is marked uncertain ('?' or '%'): it may be wrong altogether."""
        return any(run.uncertain for run in self.runs)

    @property
    def estimate(self) -> int | None:
        """The year named before significant digits (1950 in '1950S2'), else None."""
        return self.runs[0].estimate

    def bounds(self, tolerance: int = CIRCA) -> tuple[date | None, date | None]:
        """First and last day allowed, ends marked approximate widened.

        Args:
            tolerance: How far "about" reaches, at least 0, in the finest unit that is marked:
                5 years for '1850~', 5 months for '1850-06~', 5 days for '1850-06-~11'.

        Returns:
            First and last day, both included; None for an end that is open or unknown.
        """
        ends = [run.widened(tolerance) for run in self.runs]
        firsts = [first for first, _ in ends if first is not None]
        lasts = [last for _, last in ends if last is not None]
        return (
            min(firsts) if len(firsts) == len(ends) else None,
            max(lasts) if len(lasts) == len(ends) else None,
        )

    def admits(self, year: int, tolerance: int = CIRCA) -> bool:
        """Whether some day of the year is allowed; gaps between members of a set are not."""
        for first, last in (run.widened(tolerance) for run in self.runs):
            if (first is None or first.year <= year) and (last is None or year <= last.year):
                return True
        return False

    @property
    def doubt(self) -> str:
        """A second reading that a hurried writer may have meant; empty when there is none.

        `1839-41` is the second half of 1839 in EDTF, and three years in everyday writing.
        """
        match = _TWO_YEARS.fullmatch(self.text)
        if not match or self.runs[0].precision != "season" or match[3] <= match[2]:
            return ""
        meant = f"[{match[1]}{match[2]}..{match[1]}{match[3]}]"
        return f"'{self.text}' is a part of the year {match[1]}{match[2]}; for years write {meant}"

    def __str__(self) -> str:
        return self.text


def year_range(when: str | Dating, tolerance: int = CIRCA) -> tuple[int | None, int | None]:
    """First and last year that an EDTF expression allows.

    Args:
        when: The expression, or one that is already read.
        tolerance: How far "about" reaches (see `Dating.bounds`).

    Returns:
        First and last calendar year, both included; None for an end that is open or unknown.

    Raises:
        InputError: when the text is no EDTF.
    """
    first, last = (Dating.parse(when) if isinstance(when, str) else when).bounds(tolerance)
    return (first.year if first else None, last.year if last else None)


def years(first: int | None, last: int | None) -> str:
    """EDTF for one year within a range: `[1855..1862]`, `1855`, `[1855..]` or `[..1862]`.

    Args:
        first: First year, 1 to 9999; None for an open start.
        last: Last year, 1 to 9999; None for an open end.

    Raises:
        InputError: when both are None, a year is out of range, or they are out of order.
    """
    for year in (first, last):
        if year is not None and not 1 <= year <= 9999:
            raise InputError(f"year {year} is outside 1 to 9999")
    return _choice(date(first, 1, 1) if first else None, date(last, 12, 31) if last else None)


def _choice(first: date | None, last: date | None) -> str:
    """The coarsest set whose bounds are exactly these days."""
    if first is None and last is None:
        raise InputError("a date needs at least one end")
    if first and last and first > last:
        raise InputError(
            f"a range cannot run from {first} to {last}", mend="Put the earlier date first."
        )
    length = max(_length(first, 1, 1), _length(last, 12, 31))
    start = first.isoformat()[:length] if first else ""
    end = last.isoformat()[:length] if last else ""
    return start if start == end else f"[{start}..{end}]"


def _length(day: date | None, month: int, month_day: int) -> int:
    """How many characters of an ISO date an end needs: 4 a year, 7 a month, 10 a day."""
    if day is None or (day.month, day.day) == (month, month_day):
        return 4
    edge = 1 if month_day == 1 else monthrange(day.year, day.month)[1]
    return 7 if day.day == edge else 10


def _date_of(match: Match[str]) -> tuple[str, ...]:
    """A date from its parts; day and month first cannot always be told apart: both are offered."""
    found = match.groupdict()
    year, month = found["y"], found["m"]
    names = "jan feb mar apr may jun jul aug sep oct nov dec"
    if not month.isdecimal():
        month = str(names.split().index(month[:3].lower()) + 1)
    if found.get("d") is None:
        return (f"{year}-{int(month):02}",)
    pair = (int(month), int(found["d"]))
    forms = [f"{year}-{one:02}-{two:02}" for one, two in (pair, pair[::-1])]
    swaps = found["m"].isdecimal() and (match.string[:4] != year or pair[0] > 12)
    return tuple(dict.fromkeys(forms if swaps else forms[:1]))


# Everyday ways of writing a date and the expression each probably means: a template, or a function.
# What "early", "middle" and "late" cover is a judgement; whoever reads the mend decides.
_NAME = r"(?P<m>jan|feb|mar|apr|may|june?|july?|aug|sept?|oct|nov|dec)[a-z]*\.?"
_DAY, _YEAR = r"(?P<d>[0-9]{1,2})(?:st|nd|rd|th|d)?", r"(?P<y>[0-9]{4})"
_PHRASES: tuple[tuple[str, tuple[str, ...] | Callable[[Match[str]], tuple[str, ...]]], ...] = (
    (r"(?:c|ca|circa|about|abt|around|approx|approximately)\.?\s*([0-9]{4})", (r"\1~",)),
    (r"(?:c|ca|circa|about|abt|around)\.?\s*([0-9]{3})0'?s", (r"\1X~",)),
    (r"([0-9]{2})00'?s", (r"\g<1>0X", r"\g<1>XX")),
    (r"([0-9]{3})(?:0'?s|[-_ux?])", (r"\1X",)),
    (r"([0-9]{2})(?:--|__|uu|xx|\?\?)", (r"\1XX",)),
    (r"early\s+([0-9]{3})0'?s", (r"[\g<1>0..\g<1>4]",)),
    (r"mid(?:dle)?[\s-]+([0-9]{3})0'?s", (r"[\g<1>3..\g<1>7]",)),
    (r"late\s+([0-9]{3})0'?s", (r"[\g<1>5..\g<1>9]",)),
    (
        r"(?:between|from)?\s*([0-9]{4})\s*(?:-|–|—|\.\.|to|and|until|/)\s*([0-9]{4})",
        (r"[\1..\2]", r"[\2..\1]"),
    ),
    (r"([0-9]{2})([0-9]{2})\s*[-–—/]\s*([0-9]{2})", (r"[\1\2..\1\3]",)),
    (r"before\s+([0-9]{4})", lambda match: (f"[..{int(match[1]) - 1:04}]",)),
    (r"after\s+([0-9]{4})", lambda match: (f"[{int(match[1]) + 1:04}..]",)),
    (r"(?:by|until|up to|not after)\s+([0-9]{4})", (r"[..\1]",)),
    (r"(?:from|since|not before)\s+([0-9]{4})|([0-9]{4})\s*-", (r"[\1\2..]",)),
    (r"([0-9]{4})\s+or\s+([0-9]{4})", (r"[\1,\2]",)),
    (r"([0-9]{4})(?:\?~|~\?)", (r"\1%",)),
    (r"([^/]+)/(?:unknown|\?)", (r"\1/",)),
    (r"([^/]+)/(?:open|present|now)", (r"\1/..",)),
    (rf"{_NAME}\s*,?\s*{_YEAR}", _date_of),
    (rf"{_NAME}\s*{_DAY}\s*,?\s*{_YEAR}", _date_of),
    (rf"{_DAY}\s+(?:of\s+)?{_NAME}\s*,?\s*{_YEAR}", _date_of),
    (r"([0-9]{4})([0-9]{2})([0-9]{2})", (r"\1-\2-\3",)),
    (rf"{_YEAR}[-/.](?P<m>[0-9]{{1,2}})(?:[-/.](?P<d>[0-9]{{1,2}}))?", _date_of),
    (rf"(?P<m>[0-9]{{1,2}})[-/.](?P<d>[0-9]{{1,2}})[-/.]{_YEAR}", _date_of),
)


def meant(text: str) -> list[str]:
    """The expressions that a text which is no EDTF probably means, all of them EDTF."""
    candidates: tuple[str, ...] = (re.sub(r"\s+", "", text.upper()),)
    for pattern, rewrite in _PHRASES:
        match = re.fullmatch(pattern, text, re.IGNORECASE)
        if match:
            made = rewrite if isinstance(rewrite, tuple) else rewrite(match)
            candidates = tuple(match.expand(one) for one in made)
            break
    return [one for one in candidates if _is_edtf(one)]


def _mend(text: str, error: InputError) -> str:
    found = meant(text)
    return f"Write it as {' or '.join(found)}." if found else error.mend or _USUAL


def _is_edtf(text: str) -> bool:
    try:
        edtf.read(text)
    except InputError:
        return False
    return True
