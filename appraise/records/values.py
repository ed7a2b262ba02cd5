"""What the value of a field may be, how it is typed, written, checked and looked for: once each.

A kind of value reads what it wrote: `read(write(value)) == value` over its whole range. What a
person typed comes without needless blanks; an empty text never gets here.
"""

import datetime as dt
import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from typing import TYPE_CHECKING, Any

from appraise.base.dates import Dating
from appraise.base.errors import InputError
from appraise.base.fieldchecks import (
    check_amount,
    check_flag,
    check_id,
    check_number,
    check_text,
    check_word,
)
from appraise.base.moments import Closing, Zone, check_instant
from appraise.base.money import EXPONENTS, Money
from appraise.base.spelling import did_you_mean

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge

YES_NO = ("yes", "no")
HUNDRED = Decimal(100)
A_DAY = "Write 2026-11-25."
_QUOTED = re.compile(r'\s*(?:"((?:[^"]|"")*)"|([^;]*))\s*(?:;|\Z)')
_YEARS = re.compile(r"(\d{4})?\s*(?:\.\.|-|–|to)\s*(\d{4})?|(\d{4})")


@dataclass(frozen=True, slots=True)
class Author:
    """Who writes, and when.

    Attributes:
        currency: ISO 4217 code of an amount that names none.
        today: The day.
        knowledge: Words of the trade are to be among its own; None: any word will do.
        zone: The zone of an hour that names none; None: this machine's.
        zone_name: How that is called; '' for this machine's.
        sells: In which currency a venue of that name sells; '' where no terms of it are noted.
    """

    currency: str
    today: dt.date
    knowledge: "Knowledge | None" = None
    zone: Zone = None
    zone_name: str = ""
    sells: Callable[[str], str] = lambda _: ""


class Kind:
    """Text of one line; the base of all other kinds."""

    @property
    def takes_empty(self) -> bool:
        """Whether an empty text is a value of its own, where another one stands at first."""
        return False

    def read(self, text: str, by: Author) -> Any:
        """The value of a text that is not empty; raises `InputError` where it is none."""
        return text

    def write(self, value: Any) -> str:
        """The value as `read` takes it."""
        return str(value)

    def check(self, name: str, value: Any) -> None:
        """Refuse what the field cannot hold, in whatever way it came."""
        check_text(name, value, one_line=True)

    def words(self, knowledge: "Knowledge | None") -> Sequence[str]:
        """The words it takes; none where it takes any."""
        return ()


class Page(Kind):
    """Text of several lines, typed in one with | between; a | of the text itself is doubled."""

    def read(self, text: str, by: Author) -> str:
        lines = re.split(r" ?\| ?", text.replace("||", "\0"))
        return "\n".join(lines).replace("\0", "|")

    def write(self, value: Any) -> str:
        return " | ".join(str(value).replace("|", "||").split("\n"))

    def check(self, name: str, value: Any) -> None:
        check_text(name, value, one_line=False)


@dataclass(frozen=True, slots=True)
class Word(Kind):
    """A word in lower case with hyphens.

    Attributes:
        known: The words it may be; none: any.
        trade: The same, of the trade's knowledge: checked only where something is typed, since
            the user's own rows come and go.
        needed: Whether it may not be empty.
    """

    known: Sequence[str] = ()
    trade: "Callable[[Knowledge], Iterable[str]] | None" = None
    needed: bool = False

    @property
    def takes_empty(self) -> bool:
        return not self.needed

    def read(self, text: str, by: Author) -> str:
        word, known = "-".join(text.lower().split()), self.words(by.knowledge)
        if known and word not in known:
            raise InputError(f"'{text}' is not known", mend=did_you_mean(word, known))
        return word

    def check(self, name: str, value: Any) -> None:
        if self.needed and value not in self.known:
            raise InputError(f"'{value}' is not known", name, did_you_mean(str(value), self.known))
        check_word(name, value, self.known)

    def words(self, knowledge: "Knowledge | None") -> Sequence[str]:
        if self.trade is None or knowledge is None:
            return self.known
        return tuple(self.trade(knowledge))


@dataclass(frozen=True, slots=True)
class Several(Kind):
    """Some values of one kind, with ; or , between; one that holds these stands in quotes."""

    of: Kind
    most: int = 500
    between: str = "; "

    def read(self, text: str, by: Author) -> tuple[Any, ...]:
        return tuple(self.of.read(part, by) for part in parts_of(text))

    def write(self, value: Any) -> str:
        return self.between.join(_quoted(self.of.write(one)) for one in value)

    def check(self, name: str, value: Any) -> None:
        if not isinstance(value, tuple) or len(value) > self.most:
            raise InputError(f"holds more than {self.most:,}", name)
        for one in value:
            self.of.check(name, one)

    def words(self, knowledge: "Knowledge | None") -> Sequence[str]:
        return self.of.words(knowledge)


def parts_of(text: str) -> tuple[str, ...]:
    """What stands between semicolons, or between commas where there are none of these."""
    if ";" not in text and '"' not in text:
        return tuple(part.strip() for part in text.split(",") if part.strip())
    found, place = list[str](), 0
    while place < len(text):
        match = _QUOTED.match(text, place)
        if match is None:  # a quote amid a part: it stands for itself
            end = text.find(";", place)
            end = len(text) if end < 0 else end
            found.append(text[place:end].strip())
            place = end + 1
            continue
        if match[1] is not None:
            found.append(match[1].replace('""', '"'))
        elif match[2].strip():
            found.append(match[2].strip())
        place = match.end()
    return tuple(found)


def _quoted(text: str) -> str:
    if text and not re.search(r'[;,"]', text) and text == text.strip():
        return text
    return '"' + text.replace('"', '""') + '"'


@dataclass(frozen=True, slots=True)
class Amount(Kind):
    """Money, not negative.

    Attributes:
        above: Whether nothing at all is refused.
    """

    above: bool = False

    def read(self, text: str, by: Author) -> Money:
        return Money.parse(text, by.currency)

    def check(self, name: str, value: Any) -> None:
        check_amount(name, value, optional=True)
        if self.above and value is not None and value.amount <= 0:
            raise InputError("an amount is above 0", name)


class AmountRange(Kind):
    """Two amounts as '40..65 USD', or one."""

    def read(self, text: str, by: Author) -> tuple[Money, Money]:
        first, dots, second = text.partition("..")
        high = Money.parse(second if dots else first, by.currency)
        low = Money.parse(first, high.currency) if dots else high
        if low.currency != high.currency or high < low:
            raise InputError(f"'{text}' is no estimate", mend="Write 40..65 USD.")
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
            raise InputError(f"{low} to {high} is no estimate", name)


class Day(Kind):
    """A calendar day as 2026-11-25."""

    def read(self, text: str, by: Author) -> dt.date:
        try:
            return dt.date.fromisoformat(text)
        except ValueError:
            raise InputError(f"'{text}' is not a day", mend=A_DAY) from None

    def check(self, name: str, value: Any) -> None:
        if value is not None and type(value) is not dt.date:
            raise InputError(f"'{value}' is not a day", name, A_DAY)


class Dated(Kind):
    """A date of an object, EDTF."""

    def read(self, text: str, by: Author) -> str:
        return Dating.parse(text).text

    def check(self, name: str, value: Any) -> None:
        check_text(name, value, one_line=True)
        if value:
            try:
                found = Dating.parse(value)
            except InputError as error:
                raise InputError(error.what, name, error.mend) from None
            if found.text != value:
                raise InputError(f"'{value}' has blanks around it", name)


@dataclass(frozen=True, slots=True)
class YearRange(Kind):
    """First and last year: '1855..1862', '1855..', '..1862' or '1858'."""

    earliest: int = 1800
    latest: int = 2100

    def read(self, text: str, by: Author) -> tuple[int | None, int | None]:
        match = _YEARS.fullmatch(text)
        if match is None or not any(match.groups()):
            raise InputError(f"'{text}' is no span of years", mend="Write 1855..1862.")
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


@dataclass(frozen=True, slots=True)
class Count(Kind):
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


class Percent(Kind):
    """A share in per cent, 0 to 100."""

    def read(self, text: str, by: Author) -> Decimal:
        try:
            share = Decimal(text.removesuffix("%").strip())
        except InvalidOperation:
            share = Decimal("NaN")
        if not (share.is_finite() and 0 <= share <= HUNDRED):
            raise InputError(f"'{text}' is not a share of 0 to 100 per cent")
        return share

    def write(self, value: Any) -> str:
        return f"{value.normalize():f}"

    def check(self, name: str, value: Any) -> None:
        if not (value.is_finite() and 0 <= value <= HUNDRED):
            raise InputError(f"{value} is not a share of 0 to 100 per cent", name)


@dataclass(frozen=True, slots=True)
class Flag(Kind):
    """Yes or no."""

    optional: bool = False

    def read(self, text: str, by: Author) -> bool:
        if text.lower() not in YES_NO:
            raise InputError(
                f"'{text}' is neither yes nor no", mend=did_you_mean(text.lower(), YES_NO)
            )
        return text.lower() == "yes"

    def write(self, value: Any) -> str:
        return "yes" if value else "no"

    def check(self, name: str, value: Any) -> None:
        check_flag(name, value, optional=self.optional)

    def words(self, knowledge: "Knowledge | None") -> Sequence[str]:
        return YES_NO


class When(Kind):
    """When a sale closes: an hour with its zone, or a day."""

    def read(self, text: str, by: Author) -> Closing:
        return Closing.parse(text, by.zone, by.zone_name)

    def write(self, value: Any) -> str:
        written: str = value.written()
        return written

    def check(self, name: str, value: Any) -> None:
        if value is not None and not isinstance(value, Closing):
            raise InputError(f"{value!r} is not a time", name)


class Code(Kind):
    """An ISO 4217 code."""

    def read(self, text: str, by: Author) -> str:
        return text.upper()

    def check(self, name: str, value: Any) -> None:
        if value not in EXPONENTS:
            mend = did_you_mean(value, EXPONENTS)
            raise InputError(f"currency '{value}' is not known", name, mend)

    def words(self, knowledge: "Knowledge | None") -> Sequence[str]:
        return tuple(EXPONENTS)


class Id(Kind):
    """The id of another record of the log, or nothing."""

    def read(self, text: str, by: Author) -> str:
        return text.lower()

    def check(self, name: str, value: Any) -> None:
        if value:
            check_id(name, value, digits=16)


class Instant(Kind):
    """An instant in UTC, to the second."""

    def write(self, value: Any) -> str:
        return f"{value:%Y-%m-%d %H:%M} UTC"

    def check(self, name: str, value: Any) -> None:
        check_instant(name, value)


@dataclass(frozen=True, slots=True)
class Rows(Kind):
    """Further records within a record, such as the pieces of a lot."""

    most: int = 10_000
    dated: bool = False

    def write(self, value: Any) -> str:
        return "; ".join(one.text for one in value)

    def check(self, name: str, value: Any) -> None:
        if len(value) > self.most:
            raise InputError(f"holds more than {self.most:,}", name)
        days = [one.day for one in value] if self.dated else []
        if days != sorted(days):
            raise InputError("are not in the order of their days", name)


LINE, PAGE, DAY, FLAG = Kind(), Page(), Day(), Flag()
