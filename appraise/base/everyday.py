"""Days and hours as people write them, read from where the writer stands.

'6 December', 'Sunday 6 December at 19:30', '14 days', 'tomorrow', 'last Sunday'. A day without a
year is the nearest one on the side that is meant: to come, or past. What could be two days, as
5/6/2026, is not understood here.
"""

import datetime as dt
import re

from appraise.base.errors import InputError
from appraise.base.logday import read_log_day
from appraise.base.months import MONTH, WEEKDAY, month_of
from appraise.base.regex import late

_NEAR = {"today": 0, "tonight": 0, "tomorrow": 1, "yesterday": -1}
_COUNTED = late(
    r"(?P<in>(?:in|within) )?(?P<n>[0-9]{1,3}|a|one|two|three|four) (?P<unit>day|week|month)s?"
    r"(?P<ago> ago)?",
    re.IGNORECASE,
)
_NUMBERS = {"a": 1, "one": 1, "two": 2, "three": 3, "four": 4}
_YEAR = r"(?:,? (?P<y>[0-9]{4}))?"
_DAYS = (
    late(rf"(?P<d>[0-9]{{1,2}})(?:st|nd|rd|th|\.)? ?(?:of |de )?(?P<m>{MONTH})\.?{_YEAR}", re.I),
    late(rf"(?P<m>{MONTH})\.? (?P<d>[0-9]{{1,2}})(?:st|nd|rd|th)?{_YEAR}", re.I),
)
_ON = late(
    rf"(?:(?P<side>next|last|on|this) )?(?P<name>{WEEKDAY})\.?(?:,? +(?P<rest>.+))?", re.IGNORECASE
)
_ENGLISH = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_HOUR = r"(?P<h>[0-9]{1,2})(?:[:.h](?P<min>[0-9]{2}))?(?: ?(?P<half>am|pm|a\.m\.|p\.m\.|uhr|h))?"
_AT_END = late(rf"(?P<day>.+?)(?:,? (?:at|um|by)|,)? {_HOUR}(?: (?P<zone>\S+))?", re.I)
_AT_START = late(rf"{_HOUR}(?: (?P<zone>[A-Z]\S+))?(?:,| on)? (?P<day>.+)")


def day_typed(text: str, today: dt.date, ahead: bool = False) -> dt.date | None:
    """The whole day that is meant; None where it is none or could be two.

    Args:
        text: What was typed.
        today: From where it is counted; `date.min` where that is not known.
        ahead: Whether a day to come is meant, else one that is past.
    """
    plain = " ".join(text.split()).rstrip(".")
    if today != dt.date.min:
        found = _counted(plain.lower(), today, ahead) or _named(plain, today, ahead)
        if found:
            return found
    try:
        whole = read_log_day(plain)
    except InputError:
        return None
    return whole if isinstance(whole, dt.date) else None


def _counted(text: str, today: dt.date, ahead: bool) -> dt.date | None:
    """'tomorrow', '14 days', '3 days ago'."""
    if text in _NEAR:
        return today + dt.timedelta(days=_NEAR[text])
    match = _COUNTED.fullmatch(text)
    if match is None or (match["in"] and match["ago"]):
        return None
    if not (match["in"] or match["ago"] or ahead):
        return None
    many = _NUMBERS.get(match["n"]) or int(match["n"])
    many = -many if match["ago"] else many
    if match["unit"].lower() == "month":
        return _months_on(today, many)
    return today + dt.timedelta(days=many * (7 if match["unit"].lower() == "week" else 1))


def _months_on(day: dt.date, many: int) -> dt.date:
    """So many months on, the last of a month where it is too short."""
    after, month = divmod(day.year * 12 + day.month - 1 + many, 12)
    for number in (day.day, 30, 29, 28):
        try:
            return dt.date(after, month + 1, number)
        except ValueError:
            continue
    return day


def _named(text: str, today: dt.date, ahead: bool) -> dt.date | None:
    """A day of a month, or of the week, or both where they agree."""
    found = _of_month(text, today, ahead)
    match = None if found else _ON.fullmatch(text)
    if match is None:
        return found
    wanted = next((n for n, name in enumerate(_ENGLISH) if match["name"].lower()[:3] == name), None)
    if match["rest"]:
        day = day_typed(match["rest"], today, ahead)
        return day if day and wanted in (None, day.weekday()) else None
    if wanted is None:
        return None
    side = (match["side"] or "").lower()
    on = ahead if side not in ("next", "last") else side == "next"
    step = 1 if on else -1
    days = (today + dt.timedelta(days=step * n) for n in range(1 if side else 0, 8))
    return next(day for day in days if day.weekday() == wanted)


def _of_month(text: str, today: dt.date, ahead: bool) -> dt.date | None:
    match = next(filter(None, (form.fullmatch(text) for form in _DAYS)), None)
    if match is None:
        return None
    month, number = month_of(match["m"]), int(match["d"])
    if match["y"]:
        return _day(int(match["y"]), month, number)
    years = range(today.year, today.year + 5) if ahead else range(today.year, today.year - 5, -1)
    days = (_day(year, month, number) for year in years)
    return next((day for day in days if day and (day >= today if ahead else day <= today)), None)


def _day(year: int, month: int, number: int) -> dt.date | None:
    try:
        return dt.date(year, month, number)
    except ValueError:
        return None


def moment_typed(text: str, today: dt.date) -> str:
    """A day to come and its hour as `parse_moment` reads them; '' where they are not understood."""
    plain = " ".join(text.split())
    day = day_typed(plain, today, ahead=True)
    if day:
        return day.isoformat()
    for form in (_AT_END, _AT_START):
        match = form.fullmatch(plain)
        day = match and day_typed(match["day"], today, ahead=True)
        if match and day and (match["min"] or match["half"]):
            hour, half = int(match["h"]), (match["half"] or "").replace(".", "").lower()
            if half in ("am", "pm"):
                if not 1 <= hour <= 12:
                    return ""
                hour = hour % 12 + (12 if half == "pm" else 0)
            return f"{day} {hour:02}:{match['min'] or '00'} {match['zone'] or ''}".rstrip()
    return ""
