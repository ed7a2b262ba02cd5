"""The days of a spreadsheet's cells: ISO 8601, figures, names of months and seasons, serial days.

'03/04/2024' may be a day in March or in April: such cells are settled by the others of their file.
"""

import datetime as dt
import re
from collections import Counter
from collections.abc import Iterable, Sequence
from itertools import pairwise

from appraise.base.errors import InputError
from appraise.base.logday import LogDay, read_log_day
from appraise.base.months import MONTH, SEASON, WEEKDAY, month_of, season_of
from appraise.exchange.loose_days import loosened
from appraise.exchange.sheet_cells import is_amount, shortened

EXAMPLE = "Example: 2024-05-31."
_LONGEST = 60  # characters of a cell that may be a day
_SERIAL = range(18_264, 73_415)  # 1950 to 2100 as spreadsheets count, from the end of 1899
_EPOCH = dt.date(1899, 12, 30)
_HOURS = re.compile(
    r"(?:[T ]+|, )\d{1,2}:\d\d(?::\d\d(?:\.\d+)?)?(?: ?[AP]\.?M\.?)?(?:Z| ?[A-Z]{3,4}"
    r"| ?[+-]\d\d:?\d\d)?\Z",
    re.IGNORECASE,
)
_ABOUT = re.compile(r"(?:~ ?(\d{4})|(\d{4}) ?\?)\Z")  # '~2014', '2014?'
_MADE = re.compile(
    r"(?:c\.?|ca\.?|circa|um|vers|about|v\.)? ?1[89]\d\d(?:['’]?s|er)?"
    r"(?: ?[-\u2013] ?(?:1[89])?\d\d)?(?: ?\?)?",
    re.IGNORECASE,
)
_WEEKDAY = re.compile(
    rf"(?!(?:{MONTH})\b)(?:{WEEKDAY})\.?,? (?=\d{{1,2}}[./ -]|\w+ \d{{1,2}},)", re.IGNORECASE
)
_ISO = re.compile(r"(\d{4})([-/.])(\d{1,2})\2(\d{1,2})\Z")
_SHORT = re.compile(r"(\d{1,2})([-/. ])(\d{1,2})\2(\d{4}|'?\d{2})\Z")
_NAMED = re.compile(
    rf"(\d{{1,2}})(?:st|nd|rd|th|er|º|°)?[-. ]*(?:of |de |di )?({MONTH})[-.,']*[- ]*"
    r"(?:de |del )?'?(\d{4}|\d{2})\Z",
    re.IGNORECASE,
)
_NAMED_FIRST = re.compile(
    rf"({MONTH})\.?[ -]+(\d{{1,2}})(?:st|nd|rd|th)?(?:,| |-) ?'?(\d{{4}}|\d{{2}})\Z", re.IGNORECASE
)
YEAR = re.compile(r"(?:19|20)\d\d\??")
"""A year alone, in a cell."""
_WORDS = 5  # of a day beside a place
_MONTH_YEAR = re.compile(rf"({MONTH})\.?[- ']+(\d\d)\Z", re.IGNORECASE)
_MONTH_AND_YEAR = re.compile(r"(0?[1-9]|1[0-2])[-/.]'?(\d\d)\Z")  # '6/14', without a heading
_SEASON_YEAR = re.compile(rf"({SEASON})\.?[- ']+(\d\d)\Z", re.IGNORECASE)
_NO_YEAR = re.compile(
    rf"(\d{{1,2}})(?:st|nd|rd|th|er|º|°|\.)?[-. /]*(?:of |de |di )?"
    rf"({MONTH}|\d{{1,2}}(?=[./]?\Z))\.?/?\Z",
    re.IGNORECASE,
)
_SHORT_YEARLESS = re.compile(r"(\d{1,2})([-/])(\d{1,2})\Z")
_MONTH_ALONE = re.compile(rf"({MONTH})\.?\Z", re.IGNORECASE)
_SEASON_ALONE = re.compile(rf"({SEASON})\Z", re.IGNORECASE)
_NO_YEAR_FIRST = re.compile(rf"({MONTH})\.?[- ](\d{{1,2}})(?:st|nd|rd|th)?\Z", re.IGNORECASE)


def bare(cell: str) -> str:
    """A cell without hours and the name of a weekday."""
    text = " ".join(cell[: 2 * _LONGEST].split()).rstrip(",;")
    text = _ABOUT.sub(r"\1\2~", text)
    return _WEEKDAY.sub("", _HOURS.sub("", text), count=1)


def day_first(cell: str) -> str:
    """Which order of day and month a cell shows: 'day', 'month', '?' for either, '' for none."""
    match = _SHORT.match(bare(cell)) or _SHORT_YEARLESS.match(bare(cell))
    if not match:
        return ""
    first, second = int(match[1]), int(match[3])
    if match[2] == "." or first > 12 >= second:  # 31.5.2024: the dot goes with the day first
        return "day"
    if second > 12 >= first:
        return "month"
    return "" if first == second else "?"


def settle_order(cells: Iterable[str]) -> str:
    """The order for days that could have either: 'day', 'month' or '?' to be asked."""
    seen = Counter(day_first(cell) for cell in cells)
    if seen["?"] and bool(seen["day"]) == bool(seen["month"]):
        return "?"
    return "month" if seen["month"] > seen["day"] else "day"


def order_by_rows(cells: Sequence[str]) -> str:
    """The order in which the rows of a file follow one another in time; '' where neither does.

    Counted are only cells that can be read both ways and those that can be read one way.
    """
    steps = {order: _steps(cells, order) for order in ("day", "month")}
    sorted_ones = [order for order, (back, forth) in steps.items() if not back or not forth]
    moved = sum(steps["day"]) >= 4 and sum(steps["month"]) >= 4
    return sorted_ones[0] if moved and len(sorted_ones) == 1 else ""


def in_order(cells: Sequence[str], order: str) -> bool:
    """Whether days follow one another in time, forwards or backwards, and none is unreadable."""
    if not all(map(is_day, cells)):
        return False
    back, forth = _steps(cells, order)
    return not back or not forth


def _steps(cells: Sequence[str], order: str) -> tuple[int, int]:
    """How often a day lies before the one above it, and how often after it."""
    days: list[dt.date] = []
    for cell in cells:
        try:
            found = day(cell, order)
        except InputError:
            continue
        if isinstance(found, dt.date):
            days.append(found)
    pairs = list(pairwise(days))
    return sum(b < a for a, b in pairs), sum(b > a for a, b in pairs)


def day(cell: str, order: str, year: str = "") -> LogDay:
    """A day, whole or in part, as spreadsheets write it; hours and weekdays are dropped.

    Years of two figures are read as POSIX does: 69 to 99 are of the last century.

    Args:
        cell: The cell.
        order: 'day' or 'month': which comes first in figures.
        year: The year of days that tell none, as a heading above them says; '' for none.

    Raises:
        InputError: when it is none.
    """
    if len(cell.strip()) > _LONGEST:
        raise InputError(f"'{shortened(cell)}' is not a day", mend=EXAMPLE)
    text = bare(cell)
    parts = _whole(text, order, cell)
    if parts and (whole := _date(*parts)):
        return whole
    if (other := loosened(text)) and other != text:
        return day(other, order, year)
    if year and (alone := _MONTH_YEAR.match(text)) and year.endswith(alone[2]):
        return read_log_day(f"{year}-{month_of(alone[1]):02}")  # 'Nov 17' below 2017
    parts = parts or _yearless(text, order, year)
    if parts is None and not year and (months := _MONTH_AND_YEAR.match(text)):
        return read_log_day(f"{_year(months[2])}-{int(months[1]):02}")
    if parts is None and year and (alone := _MONTH_ALONE.match(text)):
        return read_log_day(f"{year}-{month_of(alone[1]):02}")
    if parts is None and year and (season := _SEASON_ALONE.match(text)):
        return read_log_day(f"{year}-{season_of(season[1])}")
    if parts is None:
        return _otherwise(text, cell)
    if whole := _date(*parts):
        return whole
    raise InputError(f"'{shortened(cell)}' is not a day of the calendar")


def _date(year: int, month: int, on: int) -> dt.date | None:
    """A day of the calendar; None where there is none such."""
    try:
        return dt.date(year, month, on)
    except ValueError:
        return None


def _whole(text: str, order: str, cell: str) -> tuple[int, int, int] | None:
    """Year, month and day of a text that tells all three."""
    iso, short = _ISO.match(text), _SHORT.match(text)
    if iso:
        return int(iso[1]), int(iso[3]), int(iso[4])
    if short:
        told = day_first(cell)
        ahead = told == "day" or (told != "month" and order == "day")
        month, on = (short[3], short[1]) if ahead else (short[1], short[3])
        return _year(short[4]), int(month), int(on)
    named, turned = _NAMED.match(text), _NAMED_FIRST.match(text)
    if named:
        return _year(named[3]), month_of(named[2]), int(named[1])
    if turned:
        return _year(turned[3]), month_of(turned[1]), int(turned[2])
    return None


def _yearless(text: str, order: str, year: str) -> tuple[int, int, int] | None:
    """The same of a day without its year, in the year of its heading."""
    after, before = _NO_YEAR.match(text), _NO_YEAR_FIRST.match(text)
    if not year or text.isdecimal() or not (after or before):
        return None
    if before:
        return int(year), month_of(before[1]), int(before[2])
    assert after is not None
    if not after[2].isdecimal():
        return int(year), month_of(after[2]), int(after[1])
    one, two = int(after[1]), int(after[2])
    return (int(year), two, one) if order == "day" else (int(year), one, two)


def _otherwise(text: str, cell: str) -> LogDay:
    """A month, season or year, EDTF, or the number by which a spreadsheet counts days."""
    months = _MONTH_YEAR.match(text)
    if months:
        return read_log_day(f"{_year(months[2])}-{month_of(months[1]):02}")
    if seasons := _SEASON_YEAR.match(text):
        return read_log_day(f"{_year(seasons[2])}-{season_of(seasons[1])}")
    serial = re.fullmatch(r"(\d{5})(?:[.,]\d+)?", text)
    if serial and int(serial[1]) in _SERIAL:
        return _EPOCH + dt.timedelta(days=int(serial[1]))
    if re.fullmatch(r"\d+(?:[.,]\d+)?", text) and not re.fullmatch(
        r"(?:19|20)\d\d(?:\d{4})?", text
    ):
        raise InputError(f"'{shortened(cell)}' is not a day", mend=EXAMPLE)
    try:
        return read_log_day(text)
    except InputError:
        raise InputError(f"'{shortened(cell)}' is not a day", mend=EXAMPLE) from None


def is_day(cell: str, year: str = "") -> bool:
    """Whether a cell is a day and no bare number; with the year of a heading also one without."""
    text = cell.strip()
    figures = re.fullmatch(r"[\d.,]+", text) and not re.fullmatch(r"\d{1,2}\.(?:19|20)\d\d", text)
    if not text or text.isdecimal() or (figures and text.count(".") != 2):
        return False
    try:
        return str(day(text, "day", year)) != "unknown"
    except InputError:
        return False


def is_about_year(cell: str) -> bool:
    """Whether a cell tells years in which something was made: 'c1900', '1870s', '1860-65'."""
    return _MADE.fullmatch(cell.strip()) is not None


def is_late_year(cell: str) -> bool:
    """Whether a cell is a bare year in which somebody may have bought a piece: '1994'."""
    return re.fullmatch(r"(?:19[5-9]|20[0-4])\d", cell.strip()) is not None


def is_serial(cell: str) -> bool:
    """Whether a cell is a number by which spreadsheets count days."""
    return re.fullmatch(r"\d{5}", cell.strip()) is not None and int(cell) in _SERIAL


def _year(text: str) -> int:
    year = int(text.strip("'"))
    if len(text.strip("'")) == 4:
        return year
    return year + (1900 if year >= 69 else 2000)


def day_and_place(cell: str) -> tuple[str, str]:
    """The day that a cell ends or begins with, and its other words; '' for both without one."""
    words = cell.split()
    for many in range(min(_WORDS, len(words) - 1), 0, -1):
        for some, rest in ((words[-many:], words[:-many]), (words[:many], words[many:])):
            told = " ".join(some).strip(" ,;()-\u2013")
            if is_amount(" ".join(rest)):
                continue
            if is_day(told) or YEAR.fullmatch(told):
                return told, " ".join(rest).strip(" ,;(-\u2013")
    return "", ""
