"""The day in a line of everyday words: 'yesterday', 'last saturday', '3 days ago', '12 May'."""

import datetime as dt
import re
from dataclasses import dataclass

_DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_MONTHS = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september",
    "october", "november", "december",
)  # fmt: skip
_COUNTS = {"a": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6}
_DAY = "|".join(f"{name}|{name[:3]}" for name in _DAYS) + "|tues|thur|thurs"
_MONTH = "|".join(f"{name}|{name[:3]}" for name in _MONTHS) + "|sept"
_NTH = r"(?P<d>\d{1,2})(?:st|nd|rd|th)?"
_YEAR = r"(?:,? ?(?P<y>(?:19|20)\d\d))?"
_FORMS = tuple(
    re.compile(rf"(?<![\w/.-])(?:on )?{form}(?![\w/-])", re.IGNORECASE)
    for form in (
        r"(?P<iso>\d{4}-\d{2}-\d{2})",
        r"(?P<near>today|yesterday|(?:the )?day before yesterday)",
        r"(?P<n>\d{1,3}|a|one|two|three|four|five|six) (?P<unit>day|week)s? ago",
        rf"(?:last|this) (?P<last>{_DAY})",
        rf"{_NTH}(?: of)? (?P<m>{_MONTH})\.?{_YEAR}",
        rf"(?P<m>{_MONTH})\.? {_NTH}{_YEAR}",
        rf"(?P<day>{'|'.join(_DAYS)})",
        rf"(?<=, )(?P<day>{_DAY})(?=\s*(?:,|$))",
    )
)


@dataclass(frozen=True, slots=True)
class Day:
    """A day that a text names, and where it stands there."""

    date: dt.date
    start: int
    end: int


def day_in(text: str, today: dt.date) -> Day | None:
    """The day that a line names, never later than today; None when it names none.

    A weekday is the last one before today, or today; a day and month without a year the last
    ones that were. Days in figures alone (5/6/2025) read two ways and are left alone.
    """
    for form in _FORMS:
        for match in form.finditer(text):
            date = _date(match, today)
            if date is not None and date <= today:
                return Day(date, match.start(), match.end())
    return None


def _date(match: re.Match[str], today: dt.date) -> dt.date | None:
    found = match.groupdict()
    try:
        if found.get("iso"):
            return dt.date.fromisoformat(found["iso"])
        if found.get("m"):
            return _of_month(found, today)
        if found.get("unit"):
            count = _COUNTS.get(found["n"].lower()) or int(found["n"])
            return today - dt.timedelta(days=count * (7 if found["unit"].lower() == "week" else 1))
    except (ValueError, OverflowError):
        return None
    name = (found.get("last") or found.get("day") or "").lower()
    if name:
        back = (today.weekday() - [day[:3] for day in _DAYS].index(name[:3])) % 7
        if found.get("last", "") and back == 0:
            back = 7
        return today - dt.timedelta(days=back)
    near = (found.get("near") or "").lower()
    return today - dt.timedelta(days=2 if "before" in near else int(near == "yesterday"))


def _of_month(found: dict[str, str], today: dt.date) -> dt.date:
    month = [name[:3] for name in _MONTHS].index(found["m"].lower()[:3]) + 1
    if found.get("y"):
        return dt.date(int(found["y"]), month, int(found["d"]))
    date = dt.date(today.year, month, int(found["d"]))
    return date if date <= today else date.replace(year=today.year - 1)
