"""The day of something that happened once, as far as a person still knows it.

A whole day is a `datetime.date`; a month, season or year, "about" one of them, a span or nothing
at all is a `PartialDay`, written in EDTF: 2018-08, 2019-21 (spring 2019), 2015~, [2014..2016].
"""

import datetime as dt
import re
from functools import cache, lru_cache

from appraise.base.dataclass import dataclass
from appraise.base.dates import Dating, meant
from appraise.base.errors import InputError
from appraise.base.months import MONTH, SEASON, month_of, season_named, season_of
from appraise.base.regex import late

NEVER_TOLD = "unknown"
A_LOG_DAY = "Write 2026-11-25, 2018-08, spring 2019, about 2015 or unknown."
ABOUT = 2
"""Years, months or days by which "about" may be off; a judgement: one's own purchases are
remembered better than the age of an object is judged."""
_NOTHING = frozenset((NEVER_TOLD, "?", "xxxx", "no date", "no day", "not known", "undated"))
_ABOUT = (
    r"(?:(?:about|around|approx(?:imately)?|roughly|circa|ca|c|etwa|ungef(?:ä|ae)hr|gegen|um|env|environ"
    r"|autour de|vers|hacia|sobre|alrededor de|aprox|verso(?: il)?|intorno al|rond|omstreeks"
    r"|ongeveer)(?=[\W\d])\.?|~)"
)
_YEAR = r"(?P<y>(?:1[89]|20)[0-9]{2})"
_WHOLE, _LONGEST = len("2026-11-25"), 60
_ISO = late(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_SAID = late(r"(?P<y>[0-9]{4})(?:-(?:(?P<c>2[1-4]|3[7-9])|(?:0[1-9]|1[0-2])))?(?P<about>~?)")
# A third of a year: EDTF level 2, codes 37 to 39; that "early" is the first one is a judgement.
_THIRDS = {"early": 37, "mid": 38, "late": 39}


@cache
def _parts() -> tuple[tuple[str, re.Pattern[str]], ...]:
    """The forms of a part of a year; laid out when one is first asked for, 4 ms."""
    return (
        ("month", re.compile(rf"(?P<m>{MONTH})\.?,? ?(?:of |de |del )?{_YEAR}", re.IGNORECASE)),
        ("month", re.compile(rf"{_YEAR},? (?P<m>{MONTH})\.?", re.IGNORECASE)),
        ("month", re.compile(rf"(?P<n>0?[1-9]|1[0-2])[./-]{_YEAR}")),
        ("month", re.compile(rf"{_YEAR}[./-](?P<n>0?[1-9]|1[0-2])")),
        ("season", re.compile(rf"(?P<s>{SEASON})(?: of| de| del)?,? {_YEAR}", re.IGNORECASE)),
        ("season", re.compile(rf"{_YEAR},? (?P<s>{SEASON})", re.IGNORECASE)),
        ("third", re.compile(rf"(?P<t>early|mid|late)(?:[ -]| in ){_YEAR}", re.IGNORECASE)),
        ("year", re.compile(rf"(?:in )?{_YEAR}")),
    )


@dataclass(frozen=True, slots=True)
class PartialDay:
    """A day that is known in part.

    Attributes:
        text: The EDTF expression, or 'unknown'.
        first: The first day that it may have been; None when open or unknown.
        last: The last one, "about" widened by `ABOUT`; None when open or unknown.
    """

    text: str
    first: dt.date | None = None
    last: dt.date | None = None

    @property
    def unknown(self) -> bool:
        """Whether nothing is known of it."""
        return self.text == NEVER_TOLD

    def isoformat(self) -> str:
        """As it is written, like that of a whole day."""
        return self.text

    def __str__(self) -> str:
        return self.text


LogDay = dt.date | PartialDay
"""What the day of an entry may be."""
UNKNOWN_DAY = PartialDay(NEVER_TOLD)


def read_log_day(text: str) -> LogDay:
    """A day as it is typed: a whole one, EDTF, or everyday words for a part of a year.

    Raises:
        InputError: when it is none, or could be two.
    """
    return _read(" ".join(text.split()))


@lru_cache(maxsize=4_096)
def _read(text: str) -> LogDay:
    if text.lower().rstrip(".") in _NOTHING:
        return UNKNOWN_DAY
    try:
        return dt.date.fromisoformat(text) if len(text) == _WHOLE else _partial(text)
    except (ValueError, InputError):
        pass
    guessed = len(text) <= _LONGEST and not _ISO.fullmatch(text)
    written = in_words(text) if guessed else ""
    said = [written] if written else meant(text) if guessed else []
    if len(said) != 1:
        raise InputError(f"'{text[:_LONGEST]}' is not a day", mend=A_LOG_DAY)
    return _whole(_partial(said[0]))


def dating_typed(text: str) -> Dating:
    """The date of an object: EDTF, or everyday words that can only mean one such expression.

    Raises:
        InputError: as `Dating.parse`, where the words mean nothing or more than one thing.
    """
    try:
        return Dating.parse(text)
    except InputError:
        plain = " ".join(text.split())
        said = meant(plain) or [each for each in (in_words(plain),) if each]
        if len(said) != 1:
            raise
        return Dating.parse(said[0])


def in_words(text: str) -> str:
    """EDTF for the words of a month, season or year; '' where they are none.

    'August 2018' is 2018-08, 'printemps 2019' 2019-21, 'about 2015' 2015~, 'early 2019' 2019-37.
    """
    bare = re.sub(rf"(?i)^{_ABOUT} ?(?=\D* ?\d)", "", text)
    about = "~" if bare != text else ""
    for sort, form in _parts():
        match = form.fullmatch(bare)
        if match:
            found = match.groupdict()
            if sort == "month":
                month = int(found["n"]) if found.get("n") else month_of(found["m"])
                return f"{found['y']}-{month:02}{about}"
            if sort == "season":
                return f"{found['y']}-{season_of(found['s'])}{about}"
            third = f"-{_THIRDS[found['t'].lower()]}" if sort == "third" else ""
            return f"{found['y']}{third}{about}"
    return ""


def day_in_words(text: str) -> str:
    """A day as people write it, by its EDTF: what `read_log_day` reads back as the same.

    2019-21 is 'spring 2019', 2015~ 'about 2015', 2019-37 'early 2019'; all else stays as it is.
    """
    found = _SAID.fullmatch(text)
    if found is None:
        return text
    year, code, about = found["y"], int(found["c"] or 0), found["about"]
    if code:
        third = {number: name for name, number in _THIRDS.items()}
        named = season_named(code) or third.get(code, "")
        return f"{'about ' if about else ''}{named} {year}" if named else text
    return f"about {text[:-1]}" if about else text


def log_day_of(text: str) -> LogDay:
    """A day as a log keeps it; raises `ValueError` for anything that it does not write."""
    if text == NEVER_TOLD:
        return UNKNOWN_DAY
    try:
        found = dt.date.fromisoformat(text)
    except ValueError:
        found_in_part = _partial(text)
        if found_in_part.text != text:
            raise ValueError("is not written as a day is") from None
        return found_in_part
    if found.isoformat() != text:
        raise ValueError("is not written as a day is")
    return found


def _partial(text: str) -> PartialDay:
    """A part of the calendar in EDTF; raises `InputError` where it is none."""
    found = Dating.parse(text)
    first, last = found.bounds(ABOUT)
    return PartialDay(found.text, first, last)


def _whole(day: PartialDay) -> LogDay:
    """The one day that it can only have been, where there is one."""
    one = day.first is not None and day.first == day.last
    return day.first if one and day.first else day


def bounds(day: LogDay) -> tuple[dt.date | None, dt.date | None]:
    """The first and the last day that it may have been; None for an end that is not known."""
    return (day, day) if isinstance(day, dt.date) else (day.first, day.last)


def middle(day: LogDay) -> dt.date | None:
    """The day in the middle of what it may have been; None where an end is not known."""
    first, last = bounds(day)
    return first + (last - first) // 2 if first is not None and last is not None else None


def days_wide(day: LogDay) -> int | None:
    """How many days lie between the ends of what it may have been; None where one is open."""
    first, last = bounds(day)
    return (last - first).days if first is not None and last is not None else None


def within(day: LogDay, start: dt.date, end: dt.date) -> bool:
    """Whether it surely lies between two days, both included."""
    first, last = bounds(day)
    return first is not None and last is not None and start <= first and last <= end


def sorting(day: LogDay) -> tuple[str, str]:
    """First and last day for an index, in ISO 8601; both empty where nothing is known."""
    if isinstance(day, PartialDay) and day.unknown:
        return "", ""
    first, last = bounds(day)
    return (first or dt.date.min).isoformat(), (last or dt.date.max).isoformat()
