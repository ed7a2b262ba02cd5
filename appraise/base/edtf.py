"""The grammar of dates: EDTF levels 0, 1 and 2.

Source: Extended Date/Time Format (EDTF) Specification, Library of Congress, 4 February 2019,
which profiles ISO 8601-1 and ISO 8601-2:2019. Calendar days run from year 1 to year 9999
(`datetime.date`), so negative, five-digit and exponential years are refused as out of range.
"""

import re
from calendar import monthrange
from collections.abc import Iterable
from datetime import date, time, timedelta
from enum import StrEnum
from itertools import product
from typing import Literal

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.regex import late

Unit = Literal["", "day", "month", "year"]
_UNITS: tuple[Unit, Unit, Unit] = ("year", "month", "day")


class Sense(StrEnum):
    """What an expression says about the days between its ends."""

    SINGLE = "one date"
    SPAN = "lasted"
    CHOICE = "one of"
    ALL = "all of"


@dataclass(frozen=True, slots=True)
class Run:
    """Days that follow one another, both ends included.

    Attributes:
        earliest: First day; None when open or unknown.
        latest: Last day; None when open or unknown.
        soft_start: Finest unit marked approximate at the start; empty when none is.
        soft_end: Finest unit marked approximate at the end; empty when none is.
        uncertain: Whether any part is marked uncertain ('?' or '%').
        precision: 'year', 'month', 'day', or 'season' for codes 21 to 41; empty when open.
        estimate: The year named before significant digits (1950 in '1950S2'), or None.
    """

    earliest: date | None
    latest: date | None
    soft_start: Unit = ""
    soft_end: Unit = ""
    uncertain: bool = False
    precision: str = ""
    estimate: int | None = None

    def widened(self, tolerance: int) -> tuple[date | None, date | None]:
        """First and last day, each end marked approximate moved out by `tolerance` of its unit.

        Raises:
            InputError: when the tolerance is below zero.
        """
        if tolerance < 0:
            raise InputError(f"a tolerance of {tolerance} is below zero")
        first = self.earliest and _moved(self.earliest, -tolerance, self.soft_start)
        last = self.latest and _moved(self.latest, tolerance, self.soft_end)
        return first, last


_MARK = r"([?~%]?)"
_DATE = late(
    rf"{_MARK}([0-9X]{{4}}){_MARK}(?:-{_MARK}([0-9X]{{2}}){_MARK}(?:-{_MARK}([0-9X]{{2}}){_MARK})?)?"
)
_SIGNIFICANT = late(r"([0-9]{4})S([0-9]{1,2})")
_FAR_YEAR = late(r"-[0-9]{4}.*|Y-?([0-9]{5,}|[0-9]+E[0-9]+)(S[0-9]+)?")
_CLOCK = late(r"(.+)T([0-9:]{8})(Z|[+-][0-9]{2}(:[0-9]{2})?)?")
_OPEN = Run(None, None)

# First and last month of each sub-year grouping. Seasons are the meteorological ones; the codes
# without a hemisphere (21 to 24) are read as northern. None: a season over the turn of the year.
_GROUPINGS: dict[int, tuple[int, int] | None] = {
    **{21: (3, 5), 22: (6, 8), 23: (9, 11), 24: None},
    **{25: (3, 5), 26: (6, 8), 27: (9, 11), 28: None},
    **{29: (9, 11), 30: None, 31: (3, 5), 32: (6, 8)},
    **{33: (1, 3), 34: (4, 6), 35: (7, 9), 36: (10, 12)},
    **{37: (1, 4), 38: (5, 8), 39: (9, 12)},
    **{40: (1, 6), 41: (7, 12)},
}


def read(text: str) -> tuple[Sense, tuple[Run, ...]]:
    """Read one expression of EDTF level 0, 1 or 2.

    Returns:
        What it says, and its runs of days: one, or one for each member of a set.

    Raises:
        InputError: when the text is no EDTF, or names days outside years 1 to 9999.
    """
    if text[:1] in ("[", "{"):
        sense, close = (Sense.CHOICE, "]") if text[0] == "[" else (Sense.ALL, "}")
        if not text.endswith(close):
            raise InputError(f"the set '{text}' is not closed", mend=f"End it with {close}.")
        return sense, _set(text[1:-1])
    if "/" in text:
        return Sense.SPAN, (_interval(text),)
    clock = _CLOCK.fullmatch(text)
    return Sense.SINGLE, (_moment(clock) if clock else _point(text),)


def _moment(clock: re.Match[str]) -> Run:
    """The calendar day, as written, of a date with a time of day."""
    run = _point(clock[1])
    try:
        time.fromisoformat(clock[2])
    except ValueError:
        raise InputError(f"'{clock[2]}' is not a time of day") from None
    if run.precision != "day" or run.earliest != run.latest:
        raise InputError(f"a time of day needs a whole date, not '{clock[1]}'")
    return run


def _point(text: str) -> Run:
    """A year, month, season or day, with its masks, qualifiers or significant digits."""
    if _FAR_YEAR.fullmatch(text):
        raise InputError(f"'{text}' is outside the years 0001 to 9999")
    significant = _SIGNIFICANT.fullmatch(text)
    if significant:
        return _significant(int(significant[1]), int(significant[2]))
    match = _DATE.fullmatch(text)
    if not match:
        raise InputError(f"'{text}' is not a date in EDTF")
    lefts, values, rights = match.groups()[0::3], match.groups()[1::3], match.groups()[2::3]
    parts = [value for value in values if value is not None]
    code = int(parts[1]) if len(parts) == 2 and parts[1].isdecimal() else 0
    if code in _GROUPINGS:
        first, last = _grouping(parts[0], code)
        precision = "season"
    else:
        first, last = _calendar(parts)
        precision = _UNITS[len(parts) - 1]
    soft = _finest(_marked(lefts, rights, "~%"))
    uncertain = any(_marked(lefts, rights, "?%"))
    return Run(first, last, soft, soft, uncertain, precision)


def _marked(
    lefts: tuple[str | None, ...], rights: tuple[str | None, ...], marks: str
) -> list[bool]:
    """Which of year, month, day carry one of the marks.

    A mark to the left of a component qualifies it alone; one to the right qualifies it and all
    before it (specification, level 2, Qualification).
    """

    def has(mark: str | None) -> bool:
        return mark is not None and mark != "" and mark in marks

    return [has(left) or any(has(r) for r in rights[i:]) for i, left in enumerate(lefts)]


def _finest(flags: list[bool]) -> Unit:
    found: Unit = ""
    for unit, flag in zip(_UNITS, flags, strict=True):
        found = unit if flag else found
    return found


def _significant(year: int, digits: int) -> Run:
    if not 1 <= digits <= 4:
        raise InputError(
            f"a four-digit year has no {digits} significant digits", mend="Write S1, S2, S3 or S4."
        )
    step = 10 ** (4 - digits)
    low = year // step * step
    first, last = _calendar([f"{max(low, 1):04}"])[0], _calendar([f"{low + step - 1:04}"])[1]
    return Run(first, last, precision="year", estimate=year)


def _fits(mask: str, low: int, high: int, name: str) -> list[int]:
    """Every number from low to high that a mask such as '185X' or '1X' can stand for."""
    digits = ("0123456789" if mark == "X" else mark for mark in mask)
    found = [n for n in (int("".join(chosen)) for chosen in product(*digits)) if low <= n <= high]
    if not found:
        raise InputError(f"{name} {mask} is not one of {low:0{len(mask)}} to {high}")
    return found


def _calendar(parts: list[str]) -> tuple[date, date]:
    """First and last day of a year, year and month, or full date, each part maybe masked."""
    years = _fits(parts[0], 1, 9999, "year")
    months = _fits(parts[1], 1, 12, "month") if len(parts) > 1 else [1, 12]
    if len(parts) < 3:
        return date(years[0], months[0], 1), _month_end(years[-1], months[-1])
    days = _fits(parts[2], 1, 31, "day")
    first = _first_real(product(years, months, days))
    last = _first_real(product(reversed(years), reversed(months), reversed(days)))
    if first is None or last is None:
        raise InputError(f"{parts[0]}-{parts[1]} has no day {parts[2]}")
    return first, last


def _first_real(candidates: Iterable[tuple[int, int, int]]) -> date | None:
    for year, month, day in candidates:
        if day <= monthrange(year, month)[1]:
            return date(year, month, day)
    return None


def _month_end(year: int, month: int) -> date:
    return date(year, month, monthrange(year, month)[1])


def _grouping(mask: str, code: int) -> tuple[date, date]:
    """First and last day of a sub-year grouping.

    A winter is named after the year it begins or the year it ends in: both are allowed for,
    from January of the year to the end of February of the next.
    """
    months = _GROUPINGS[code]
    years = _fits(mask, 1, 9999 if months else 9998, "year")
    if months is None:
        return date(years[0], 1, 1), _month_end(years[-1] + 1, 2)
    return date(years[0], months[0], 1), _month_end(years[-1], months[1])


def _moved(day: date, steps: int, unit: Unit) -> date:
    """A day moved by whole units and kept inside years 1 to 9999.

    A last day that closes its month goes on closing it: 28 February and five months are 31 July.
    """
    if not (unit and steps):
        return day
    edge = date.max if steps > 0 else date.min
    if unit == "day":
        return edge if abs(steps) > abs((edge - day).days) else day + timedelta(days=steps)
    index = day.year * 12 + day.month - 1 + steps * (12 if unit == "year" else 1)
    year, month = index // 12, index % 12 + 1
    if not 1 <= year <= 9999:
        return edge
    full = monthrange(year, month)[1]
    closes = steps > 0 and day == _month_end(day.year, day.month)
    return date(year, month, full if closes else min(day.day, full))


def _interval(text: str) -> Run:
    ends = text.split("/")
    if len(ends) != 2:
        raise InputError(f"'{text}' has more than a start and an end")
    start, end = (_OPEN if part in ("", "..") else _point(part) for part in ends)
    return _join(start, end, text)


def _join(start: Run, end: Run, text: str) -> Run:
    if start is _OPEN and end is _OPEN:
        raise InputError(f"'{text}' names no date at all")
    if start.earliest and end.latest and start.earliest > end.latest:
        raise InputError(f"'{text}' ends before it begins", mend="Put the earlier date first.")
    return Run(
        start.earliest,
        end.latest,
        start.soft_start,
        end.soft_end,
        start.uncertain or end.uncertain,
        start.precision if start.precision == end.precision else "",
    )


def _set(inner: str) -> tuple[Run, ...]:
    items = inner.split(",")
    last = len(items) - 1
    return tuple(_member(item, i == 0, i == last) for i, item in enumerate(items))


def _member(item: str, is_first: bool, is_last: bool) -> Run:
    """One member of a set: a date, a range, or an open end at the edge of the list."""
    if ".." not in item:
        return _point(item)
    left, right = item.split("..", 1)
    if not left and not is_first:
        raise InputError("'..' with nothing before it belongs at the start of a set")
    if not right and not is_last:
        raise InputError("'..' with nothing after it belongs at the end of a set")
    start = _point(left) if left else _OPEN
    end = _point(right) if right else _OPEN
    if left and right and start.precision != end.precision:
        raise InputError(
            f"the ends of '{item}' are not of one precision",
            mend="Write both as years, both as months or both as days.",
        )
    return _join(start, end, item)
