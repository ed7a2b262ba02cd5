"""Values that are counted and compared: amounts, numbers, days and years."""

import datetime as dt
from decimal import Decimal, InvalidOperation
from typing import Any

from appraise.base.dataclass import dataclass
from appraise.base.dates import Dating, meant, year_range
from appraise.base.errors import InputError, placed
from appraise.base.fieldchecks import check_amount, check_number, check_text
from appraise.base.logday import (
    A_LOG_DAY,
    LogDay,
    PartialDay,
    dating_typed,
    read_log_day,
    sorting,
)
from appraise.base.moments import Closing, check_instant
from appraise.base.money import Money
from appraise.base.regex import late
from appraise.records.values import Author, Kind

A_DAY = "Write 2026-11-25."
A_YEAR = "Example: 1858."
AN_ESTIMATE = "Write 40..65 USD."
HUNDRED = Decimal(100)
_SPAN = late(r"([0-9]+(?:\.[0-9]+)?)-([0-9]+(?:\.[0-9]+)?)")
_YEAR_SPAN = late(r"([0-9]{4})-([0-9]{4})")
_LEAD = late(r"(?i)^(?:between|from|est(?:imate)?\.?:?) ")
_AND = late(r"(?i) and ")
_ENDS = late(r"(?P<low>.*[0-9].*?)\s*(?:\.\.|-|–|—|\bto\b)\s*(?P<high>.*[0-9].*)")
_YEARS = late(r"(\d{4})?\s*(?:\.\.|-|–|to)\s*(\d{4})?|(\d{4})")


def span(text: str, *, days: bool = False) -> tuple[str, str]:
    """Both ends of '20..50', '20-50', '20..', '..50' or '20'; an open end is ''.

    Of `days` a hyphen stands between whole years alone: '2019-2021', but '2019-06' is a month.
    """
    match = (_YEAR_SPAN if days else _SPAN).fullmatch(text)
    if match:
        return match[1], match[2]
    low, dots, high = text.partition("..")
    return low, high if dots else low


@dataclass(frozen=True, slots=True)
class AmountKind(Kind):
    """Money, not negative.

    Attributes:
        above: Whether nothing at all is refused.
        currency: ISO 4217 code of one that names none; empty: that of who types.
    """

    above: bool = False
    currency: str = ""

    def read(self, text: str, by: Author) -> Money:
        return Money.parse(text, self.currency or by.currency, by.point)

    def check(self, name: str, value: Any) -> None:
        check_amount(name, value, optional=True)
        if self.above and value is not None and value.amount <= 0:
            raise InputError("an amount must be above 0", name)

    def fits(self, value: Any, wanted: str) -> bool:
        low, high = (_number(end) if end else None for end in span(wanted))
        return value is not None and _between(value.amount, low, high)


class AmountRangeKind(Kind):
    """Two amounts as '40..65 USD', or one."""

    def read(self, text: str, by: Author) -> tuple[Money, Money]:
        first, second = _two_amounts(text)
        wrong = f"'{text}' is not an estimate"
        try:
            high = Money.parse(second or first, by.currency, by.point)
            low = Money.parse(first, high.currency, by.point) if second else high
            if second and low.currency != high.currency:  # the first alone names one: £180-250
                high = Money.parse(second, low.currency, by.point)
        except InputError as error:
            if "reads two ways" in error.what or "could be in" in error.what:
                raise
            raise InputError(wrong, mend=AN_ESTIMATE) from None
        if low.currency != high.currency or high < low:
            raise InputError(wrong, mend=AN_ESTIMATE)
        return low, high

    def write(self, value: Any) -> str:
        low, high = value
        if low is None or high is None:
            return str(low or high or "")
        return str(low) if low == high else f"{low.plain}..{high}"

    def check(self, name: str, value: Any) -> None:
        low, high = value
        for one in value:
            check_amount(name, one, optional=True)
        if low is not None and high is not None and high < low:
            raise InputError(f"{low} to {high} is not an estimate", name)


def _two_amounts(text: str) -> tuple[str, str]:
    """Both ends of '40..65', '180-250' or '£180 to £250'; the second is '' where there is one."""
    match = _ENDS.fullmatch(_AND.sub(" to ", _LEAD.sub("", text)))
    return (match["low"], match["high"]) if match else (text, "")


@dataclass(frozen=True, slots=True)
class DayKind(Kind):
    """A calendar day as 2026-11-25, or in everyday words.

    Attributes:
        ahead: Whether one to come is meant: '14 days' and '6 December' count from today on.
    """

    ahead: bool = False

    def read(self, text: str, by: Author) -> dt.date:
        try:
            return dt.date.fromisoformat(text)
        except ValueError:
            from appraise.base.everyday import day_typed  # 4 ms

            found = day_typed(text, by.today, self.ahead)
            if found is None:
                raise InputError(f"'{text}' is not a day", mend=A_DAY) from None
            return found

    def check(self, name: str, value: Any) -> None:
        if value is not None and type(value) is not dt.date:
            raise InputError(f"'{value}' is not a day", name, A_DAY)

    def fits(self, value: Any, wanted: str) -> bool:
        low, high = span(wanted, days=True)
        text = value.isoformat() if value else ""
        return bool(text) and low <= text and (not high or text[: len(high)] <= high)


class LogDayKind(Kind):
    """The day of something that happened once: whole, in part, or unknown."""

    def read(self, text: str, by: Author) -> LogDay:
        return read_log_day(text)

    def check(self, name: str, value: Any) -> None:
        if type(value) is not dt.date and not isinstance(value, PartialDay):
            raise InputError(f"'{value}' is not a day", name, A_LOG_DAY)

    def fits(self, value: Any, wanted: str) -> bool:
        """Whether it may have been then: any day that it allows lies within what is asked for."""
        low, high = span(wanted, days=True)
        first, last = sorting(value)
        return bool(first) and low <= last and (not high or first[: len(high)] <= high)


class DatedKind(Kind):
    """A date of an object: EDTF, or everyday words that mean one such expression."""

    def read(self, text: str, by: Author) -> str:
        return dating_typed(text).text

    def check(self, name: str, value: Any) -> None:
        check_text(name, value, one_line=True)
        if value:
            with placed(name):
                found = Dating.parse(value)
            if found.text != value:
                raise InputError(f"'{value}' has blanks around it", name)

    def fits(self, value: Any, wanted: str) -> bool:
        low, high = (_year(end, wanted) if end else None for end in span(wanted))
        if not value:
            return False
        first, last = Dating.parse(value).bounds()
        after = low is not None and last is not None and last.year < low
        return not after and not (high is not None and first is not None and first.year > high)


@dataclass(frozen=True, slots=True)
class YearRangeKind(Kind):
    """First and last year: '1855..1862', '1855..', '..1862' or '1858'."""

    earliest: int = 1800
    latest: int = 2100

    def read(self, text: str, by: Author) -> tuple[int | None, int | None]:
        match = _YEARS.fullmatch(text)
        said = meant(text) if match is None else []
        if len(said) == 1:
            return year_range(said[0])
        if match is None or not any(match.groups()):
            raise InputError(f"'{text}' is not a span of years", mend="Write 1855..1862.")
        if match[3]:
            return int(match[3]), int(match[3])
        return (int(match[1]) if match[1] else None), (int(match[2]) if match[2] else None)

    def write(self, value: Any) -> str:
        first, last = value
        return f"{first or ''}..{last or ''}"

    def check(self, name: str, value: Any) -> None:
        first, last = value
        for one in value:
            if one is not None:
                check_number(name, one, self.earliest, self.latest, whole=True)
        if first is not None and last is not None and last < first:
            raise InputError(f"{first} to {last} runs backwards", name)

    def fits(self, value: Any, wanted: str) -> bool:
        low, high = (_year(end, wanted) if end else None for end in span(wanted))
        first, last = value
        after = low is not None and last is not None and last < low
        return not after and not (high is not None and first is not None and first > high)


@dataclass(frozen=True, slots=True)
class CountKind(Kind):
    """A whole number from `low` to `high`; a sign for per cent behind it is read over."""

    low: int = 0
    high: int = 100
    percent: bool = False

    def read(self, text: str, by: Author) -> int:
        bare = text.removesuffix("%").strip() if self.percent else text
        if bare.isascii() and bare.isdecimal() and len(bare) <= 9:
            number = int(bare)
            if self.low <= number <= self.high:
                return number
        span = f" of {self.low:,} to {self.high:,}"
        raise InputError(f"'{text}' is not a whole number{span}")

    def check(self, name: str, value: Any) -> None:
        if value is not None:
            check_number(name, value, self.low, self.high, whole=True)

    def fits(self, value: Any, wanted: str) -> bool:
        low, high = (_number(end) if end else None for end in span(wanted))
        return value is not None and _between(Decimal(value), low, high)


@dataclass(frozen=True, slots=True)
class YearKind(CountKind):
    """A year from `low` to `high`."""

    def read(self, text: str, by: Author) -> int:
        if text.isascii() and text.isdecimal() and self.low <= int(text) <= self.high:
            return int(text)
        raise InputError(f"'{text}' is not a year from {self.low} to {self.high}", mend=A_YEAR)


@dataclass(frozen=True, slots=True)
class NumberKind(Kind):
    """A number from `low`, or above it, to `high`."""

    low: float
    high: float
    above: bool = False

    def read(self, text: str, by: Author) -> float:
        try:
            value = float(text.replace(",", "."))
            self.check("", value)
        except (ValueError, InputError):
            span = f"above {self.low:g}, up to" if self.above else f"from {self.low:g} to"
            raise InputError(f"'{text}' is not a number {span} {self.high:g}") from None
        return value

    def write(self, value: Any) -> str:
        return repr(value).removesuffix(".0")

    def check(self, name: str, value: Any) -> None:
        if value is not None:
            check_number(name, value, self.low, self.high, above=self.above)

    def fits(self, value: Any, wanted: str) -> bool:
        low, high = (_number(end) if end else None for end in span(wanted))
        return value is not None and _between(Decimal(str(value)), low, high)


class PercentKind(Kind):
    """A share in per cent, 0 to 100."""

    def read(self, text: str, by: Author) -> Decimal:
        try:
            share = Decimal(text.removesuffix("%").strip())
        except InvalidOperation:
            share = Decimal("NaN")
        if not (share.is_finite() and 0 <= share <= HUNDRED):
            raise InputError(f"'{text}' is not a share of the price", mend="Give 0 to 100.")
        return share

    def write(self, value: Any) -> str:
        return f"{value.normalize():f}"

    def check(self, name: str, value: Any) -> None:
        if not (value.is_finite() and 0 <= value <= HUNDRED):
            raise InputError(f"{value} is no share of the price", name, "Give 0 to 100.")


class ClosingKind(Kind):
    """When a sale closes: an hour with its zone, or a day."""

    def read(self, text: str, by: Author) -> Closing:
        try:
            return Closing.parse(text, by.zone, by.zone_name)
        except InputError:
            from appraise.base.everyday import moment_typed  # 4 ms

            said = moment_typed(text, by.today)
            if not said:
                raise
            return Closing.parse(said, by.zone, by.zone_name)

    def write(self, value: Any) -> str:
        written: str = value.written()
        return written

    def check(self, name: str, value: Any) -> None:
        if value is not None and not isinstance(value, Closing):
            raise InputError(f"{value!r} is not a time", name)


class InstantKind(Kind):
    """An instant in UTC, to the second."""

    def write(self, value: Any) -> str:
        return f"{value:%Y-%m-%d %H:%M} UTC"

    def check(self, name: str, value: Any) -> None:
        check_instant(name, value)


def _number(text: str) -> Decimal:
    try:
        return Decimal(text)
    except InvalidOperation:
        raise InputError(f"'{text}' is not a number", mend="Write 20-50.") from None


def _between(value: Decimal, low: Decimal | None, high: Decimal | None) -> bool:
    return (low is None or value >= low) and (high is None or value <= high)


def _year(text: str, whole: str) -> int:
    if not (text.isascii() and text.isdigit() and 0 < int(text) <= 9999):
        raise InputError(f"'{whole}' is not a year", mend="Example: 1858 or 1850-1860.")
    return int(text)


DAY, LOG_DAY = DayKind(), LogDayKind()
COMING = DayKind(ahead=True)
