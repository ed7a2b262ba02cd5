"""What a cell of a spreadsheet means: amounts, days, yes and no; and what it leaves open.

'1,234' may be a thousand or one and a bit, '03/04/2024' a day in March or in April. Such
cells are settled by the others of their file, and asked about when no other tells.
"""

import datetime as dt
import re
from collections import Counter
from collections.abc import Iterable
from decimal import Decimal

from appraise.base.errors import InputError
from appraise.base.money import EXPONENTS, SYMBOLS, Money

NOTHING = ("", "-", "\u2013", "\u2014", "?", "n/a", "na", "none", "unknown")
_QUOTED = 40  # characters of a cell in a message
_YES, _NO = ("yes", "y", "true", "x", "1"), ("no", "n", "false", "0")
_SPACES = re.compile(r"[\s\u00a0\u2007\u202f']")
_MONEY = re.compile(
    r"(?P<code>[A-Za-z]{3})?(?P<sign>[^\d.,\-()A-Za-z]|[Uu][Ss]\$)?"
    r"(?P<digits>\d[\d.,]*|[.,]\d+)"
    r"(?P<behind>[^\d.,\-()A-Za-z])?(?P<after>[A-Za-z]{3})?\Z"
)
_NUMBERS = {
    ".": re.compile(r"(?:\d+|\d{1,3}(?:,\d{3})+)?(?:\.\d*)?\Z"),
    ",": re.compile(r"(?:\d+|\d{1,3}(?:\.\d{3})+)?(?:,\d*)?\Z"),
}
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


def point_of(cell: str) -> str:
    """The decimal point that an amount must have: '.' or ','; '?' for either; '' for none."""
    match = _split(cell)
    digits = match["digits"] if match else ""
    dots, commas = digits.count("."), digits.count(",")
    if dots and commas:
        return "." if digits.rfind(".") > digits.rfind(",") else ","
    if not dots + commas:
        return ""
    own, other = (".", ",") if dots else (",", ".")
    if dots + commas > 1:
        return other
    whole, _, rest = digits.partition(own)
    grouped = len(rest) == 3 and 1 <= len(whole) <= 3 and not whole.startswith("0")
    return "?" if grouped else own


def amount(cell: str, point: str, currency: str) -> Money:
    """An amount of money; a currency in the cell wins over the one given.

    Args:
        cell: Such as '45', '$1,200.50', '12,50 EUR', 'GBP 8'.
        point: The file's decimal point, '.' or ',', for cells that could have either.
        currency: ISO 4217 code for cells that name none.

    Raises:
        InputError: when it is no amount, or has more decimals than its currency.
    """
    match = _split(cell)
    if not match or match["digits"] is None or len(match["digits"]) > _QUOTED:
        raise InputError(f"'{shortened(cell)}' is not an amount of money")
    own = point_of(cell)
    number = decimal(match["digits"], own if own in (".", ",") and own else point)
    code = (match["code"] or match["after"] or "").upper()
    sign = (match["sign"] or match["behind"] or "").upper()
    code = code or SYMBOLS.get(sign, "")
    if sign and not code:
        raise InputError(f"the sign '{sign}' names no currency", mend="Write USD, GBP, EUR.")
    if code and code not in EXPONENTS:
        raise InputError(f"currency '{code}' is not known")
    return Money(number, code or currency)


def decimal(digits: str, point: str) -> Decimal:
    """A number with the file's decimal point, with or without groups of thousands.

    Raises:
        InputError: when it is none.
    """
    bare = _SPACES.sub("", digits)
    if not bare.strip(".,") or not _NUMBERS[point].match(bare):
        raise InputError(f"'{digits}' is not a number with a decimal '{point}'")
    groups = "," if point == "." else "."
    return Decimal(bare.replace(groups, "").replace(",", ".").rstrip("."))


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
        raise InputError(f"'{shortened(cell)}' is not a day", mend="Write it as 2024-05-31.")
    try:
        return dt.date(_year(parts[0]), int(parts[1]), int(parts[2]))
    except ValueError as error:
        raise InputError(f"'{shortened(cell)}' is no day of the calendar") from error


def _split(cell: str) -> re.Match[str] | None:
    return _MONEY.match(_SPACES.sub("", cell))


def _month(name: str) -> str:
    short = name[:3].lower()
    return str(_MONTHS.index(short) + 1) if short in _MONTHS else "0"


def _year(text: str) -> int:
    year = int(text)
    if len(text) == 4:
        return year
    return year + (1900 if year >= 69 else 2000)
