"""What a cell of a spreadsheet means: amounts, days, yes and no; and what it leaves open.

'1,234' may be a thousand or one and a bit, '03/04/2024' a day in March or in April. Such
cells are settled by the others of their file, and asked about when no other tells.
"""

import datetime as dt
import re
from collections import Counter
from collections.abc import Iterable

from appraise.base import moneytext
from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.records.piece_words import IDENTIFIED

NOTHING = ("", "-", "\u2013", "\u2014", "?", "n/a", "na", "none", "unknown")
_QUOTED = 40  # characters of a cell in a message
_YES, _NO = ("yes", "y", "true", "x", "1"), ("no", "n", "false", "0")
_POST = r"(?:p ?& ?p|p\+p|postage|post|shipping|carriage|delivery|porto|versand)"
_POSTAGE = re.compile(
    rf"(?P<price>.*\d.*?)\s*(?:[,;+&(]|plus|and)\s*{_POST}\s*:?\s*(?P<post>.*\d[^)]*)\)?\Z",
    re.IGNORECASE,
)
_POSTAGE_LAST = re.compile(
    rf"(?P<price>.*\d.*?)\s*(?:[;+&(]|, |plus|and)\s*(?P<post>.*\d.*?)\s*{_POST}\.?\)?\Z",
    re.IGNORECASE,
)
_HOURS = re.compile(r"[T ]+\d{1,2}:\d\d(?::\d\d(?:\.\d+)?)?(?: ?[AP]M)?Z?\Z", re.IGNORECASE)
_ISO = re.compile(r"(\d{4})([-/.])(\d{1,2})\2(\d{1,2})\Z")
_SHORT = re.compile(r"(\d{1,2})([-/. ])(\d{1,2})\2(\d{4}|\d{2})\Z")
_NAMED = re.compile(r"(\d{1,2})[-. ]+([A-Za-z]{3,9})[-.,]*[- ]*(\d{4}|\d{2})\Z")
_NAMED_FIRST = re.compile(r"([A-Za-z]{3,9})\.? +(\d{1,2}),? +(\d{4})\Z")
_MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"]


def is_nothing(cell: str) -> bool:
    """Whether a cell says that nothing is known."""
    return cell.strip().casefold() in NOTHING


def shortened(cell: str) -> str:
    """A cell as a message quotes it: no longer than a line bears."""
    return cell if len(cell) <= _QUOTED else f"{cell[: _QUOTED - 2]}.."


def flag(cell: str) -> bool:
    """Yes or no, in the words that spreadsheets use.

    Raises:
        InputError: when it is neither.
    """
    word = cell.strip().casefold()
    if word in _YES or word in _NO:
        return word in _YES
    raise InputError(f"'{shortened(cell)}' is neither yes nor no")


def identified(cell: str) -> str:
    """How well a sitter is identified, in the log's words; yes is a name, as older files have it.

    Raises:
        InputError: when it is none of these.
    """
    word = cell.strip().casefold()
    if word in IDENTIFIED:
        return word
    try:
        return "name" if flag(cell) else "no"
    except InputError as error:
        mend = f"Write one of {', '.join(IDENTIFIED)}."
        raise InputError(f"'{shortened(cell)}' does not say how well", mend=mend) from error


def point_of(cell: str) -> str:
    """The decimal point that an amount must have: '.' or ','; '?' for either; '' for none."""
    found = _typed(cell)
    return moneytext.point_of(found.digits, found.named) if found else ""


def told_currency(cell: str) -> str:
    """What names an amount's currency: a code, '$' or 'kr' that several share, or ''."""
    found = _typed(cell)
    return found.named if found else ""


def amount(cell: str, point: str, currency: str) -> Money:
    """An amount of money; a currency in the cell wins over the one given.

    Args:
        cell: Such as '45', '$1,200.50', '12,50 EUR', 'GBP 8', '18,-'.
        point: The file's decimal point, '.' or ',', for cells that could have either.
        currency: ISO 4217 code for cells that name none.

    Raises:
        InputError: when it is no amount, or has more decimals than its currency.
    """
    try:
        return Money.parse(cell, currency, point)
    except InputError as error:
        mend = "" if error.what.endswith("is not an amount of money") else error.mend
        raise InputError(error.what, error.where, mend) from error


def split_postage(cell: str) -> tuple[str, str]:
    """Price and postage of a cell that tells both, as '38 EUR, postage 5' and '38 + 6 post'."""
    found = _POSTAGE.match(cell.strip()) or _POSTAGE_LAST.match(cell.strip())
    return (found["price"], found["post"]) if found else (cell, "")


def settle_point(cells: Iterable[str]) -> str:
    """The decimal point for cells that could have either: '.', ',' or '?' to be asked."""
    seen = Counter(point_of(cell) for cell in cells)
    if seen["?"] and bool(seen["."]) == bool(seen[","]):
        return "?"
    return "," if seen[","] > seen["."] else "."


def day_first(cell: str) -> str:
    """Which order of day and month a cell shows: 'day', 'month', '?' for either, '' for none."""
    match = _SHORT.match(_HOURS.sub("", cell.strip()))
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


def day(cell: str, order: str) -> dt.date:
    """A day, from ISO 8601, figures or an English month name; hours are dropped.

    Years of two figures are read as POSIX does: 69 to 99 are of the last century.

    Raises:
        InputError: when it is none.
    """
    text = _HOURS.sub("", cell.strip())
    iso, short = _ISO.match(text), _SHORT.match(text)
    named, turned = _NAMED.match(text), _NAMED_FIRST.match(text)
    if iso:
        parts = (iso[1], iso[3], iso[4])
    elif short:
        first, second = (short[1], short[3])
        told = day_first(cell)
        ahead = told == "day" or (told != "month" and order == "day")
        parts = (short[4], second, first) if ahead else (short[4], first, second)
    elif named:
        parts = (named[3], _month(named[2]), named[1])
    elif turned:
        parts = (turned[3], _month(turned[1]), turned[2])
    else:
        raise InputError(f"'{shortened(cell)}' is not a day", mend="Example: 2024-05-31.")
    try:
        return dt.date(_year(parts[0]), int(parts[1]), int(parts[2]))
    except ValueError as error:
        raise InputError(f"'{shortened(cell)}' is not a day of the calendar") from error


def _typed(cell: str) -> moneytext.Typed | None:
    try:
        return moneytext.typed(cell)
    except InputError:
        return None


def _month(name: str) -> str:
    short = name[:3].lower()
    return str(_MONTHS.index(short) + 1) if short in _MONTHS else "0"


def _year(text: str) -> int:
    year = int(text)
    if len(text) == 4:
        return year
    return year + (1900 if year >= 69 else 2000)
