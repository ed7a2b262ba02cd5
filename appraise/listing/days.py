"""The day in a line of everyday words: 'yesterday', 'last saturday', '3 days ago', '12 May'."""

import datetime as dt
import re
from collections.abc import Iterator

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.logday import UNKNOWN_DAY, LogDay, PartialDay, bounds, read_log_day
from appraise.base.months import MONTH, MONTHS, SEASON, SURE_MONTH, month_of
from appraise.base.regex import late
from appraise.listing.words import lowered

MONTH_FIRST = frozenset(("us",))
"""Regions in which the month stands before the day in figures; elsewhere the day does."""
CENTURY = 2000  # of a year of two figures: nobody logs a price of the century before
_DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_COUNTS = {"a": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6}
_DAY = "|".join(f"{name}|{name[:3]}" for name in _DAYS) + "|tues|thur|thurs"
_NTH = r"(?P<d>\d{1,2})(?:st|nd|rd|th|er|\.|º)?"
_OF = r"(?: of| de| del| d[’'])?"
_YEAR = r"(?P<y>(?:19|20)\d\d)"
_FIGURES = r"(?P<one>\d{1,2})(?P<sep>[./-])(?P<two>\d{1,2})(?P=sep)(?P<y>(?:19|20)\d\d|\d\d)"
_SURE = 4  # the first forms, which can be nothing but a day
_MARKS = ("-", "/", ".")
# What stands in every day of a form, in lower case, and the form.
_FORMS = tuple(
    (
        cues,
        late(rf"(?<![\w/.,-])(?:on |le |am |el |il )?{form}(?![\w/-])", re.IGNORECASE),
    )
    for cues, form in (
        (_MARKS, r"(?P<iso>\d{4}[-/.]\d{1,2}[-/.]\d{1,2})"),
        (_MARKS, _FIGURES),
        (
            MONTHS,
            rf"{_NTH}{_OF} (?:(?P<m>{MONTH})\.?,?{_OF} {_YEAR}"
            rf"|(?P<m2>{SURE_MONTH})\b\.?(?! ?\d{{4}}))",
        ),
        (MONTHS, rf"(?P<m>{SURE_MONTH})\.? {_NTH}(?:,? {_YEAR})?"),
        (("day",), r"(?P<near>today|yesterday|(?:the )?day before yesterday)"),
        (
            (" ago",),
            r"(?P<n>\d{1,3}|a|one|two|three|four|five|six) (?P<unit>day|week)s? ago",
        ),
        (("last ", "this "), rf"(?:last|this) (?P<last>{_DAY})"),
        (("day",), rf"(?P<day>{'|'.join(_DAYS)})"),
        ((", ",), rf"(?<=, )(?P<day>{_DAY})(?=\s*(?:,|$))"),
    )
)
# Years from here on are those in which one bought; earlier ones say how old a piece is.
_Y = r"(?:19[6-9][0-9]|20[0-9]{2})"
_AROUND = r"(?:about|around|circa|ca\.?|c\.)"
_PART = late(
    rf"(?<![\w/.,-])(?P<part>(?:{_AROUND} ?)?(?:{MONTH})\.?(?: of)? {_Y}"
    rf"|(?:{_AROUND} ?)?(?:{SEASON})(?: of)? {_Y}|(?:early|mid|late)[ -]{_Y}"
    rf"|{_Y}-[0-9]{{2}}|in {_Y}|{_AROUND} ?{_Y}|{_Y}~"
    r"|day unknown|unknown day|no day|undated)(?![\w/-])",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Day:
    """A day that a text names, and where it stands there; None for one that cannot be."""

    date: LogDay | None
    start: int
    end: int


def days_in(
    text: str, today: dt.date, region: str = "unknown", *, ahead: bool = False
) -> Iterator[Day]:
    """Every day that a line names, the surest way of writing first, without overlap.

    A weekday is the last one before today, or today; a day and month without a year the last
    ones that were. Of figures (5/6/2025) the month is the first in the United States, else the
    second; where that is not a day, or one that is still to come, in the other order. What is
    written as a day and cannot be one ('31 June') has no date.

    Args:
        text: The line.
        today: The day from which 'yesterday' counts.
        region: Where the user is at home, one of the regions of the knowledge, or 'unknown'.
        ahead: Whether a day is the next one from today, and none is before.
    """
    taken: list[tuple[int, int]] = []
    plain = lowered(text)
    for at, (cues, form) in enumerate(_FORMS):
        for match in form.finditer(text) if any(cue in plain for cue in cues) else ():
            start, end = match.span()
            if any(start < high and low < end for low, high in taken):
                continue
            date = _date(match, today, region, ahead)
            if date is not None and (date < today if ahead else date > today):
                date = None
            if date is not None or at < _SURE:
                taken.append((start, end))
                yield Day(date, start, end)


def partial_in(text: str, today: dt.date) -> Day | None:
    """A month, season or year in which it was, as a line of the log names it: 'spring 2019'.

    The month of a day that cannot be ('31 June 2026') names none.
    """
    unreal = [day for day in days_in(text, today) if day.date is None]
    for match in _PART.finditer(text):
        said = match["part"]
        if any(day.start < match.end() and match.start() < day.end for day in unreal):
            continue
        if "day" in said.lower() or said.lower() == "undated":
            return Day(UNKNOWN_DAY, *match.span())
        try:
            day = read_log_day(said)
        except InputError:
            continue
        first, _ = bounds(day)
        if isinstance(day, PartialDay) and first is not None and first <= today:
            return Day(day, *match.span())
    return None


def _date(match: re.Match[str], today: dt.date, region: str, ahead: bool) -> dt.date | None:
    found = match.groupdict()
    try:
        if found.get("iso"):
            return dt.date(*map(int, re.split(r"[-/.]", found["iso"])))
        if found.get("sep"):
            return _in_figures(found, today, region, ahead)
        if found.get("m") or found.get("m2"):
            return _of_month(found, today, ahead)
        if found.get("unit"):
            count = _COUNTS.get(found["n"].lower()) or int(found["n"])
            return today - dt.timedelta(days=count * (7 if found["unit"].lower() == "week" else 1))
    except (ValueError, OverflowError):
        return None
    name = (found.get("last") or found.get("day") or "").lower()
    if name:
        back = (today.weekday() - [day[:3] for day in _DAYS].index(name[:3])) % 7
        if ahead:
            return today + dt.timedelta(days=-back % 7)
        if found.get("last", "") and back == 0:
            back = 7
        return today - dt.timedelta(days=back)
    near = (found.get("near") or "").lower()
    return today - dt.timedelta(days=2 if "before" in near else int(near == "yesterday"))


def _in_figures(found: dict[str, str], today: dt.date, region: str, ahead: bool) -> dt.date | None:
    """A day in figures, in the region's order, else in the other."""
    one, two, year = int(found["one"]), int(found["two"]), int(found["y"])
    year = year if len(found["y"]) > 2 else CENTURY + year
    orders = [(two, one), (one, two)]  # month and day
    for month, day in reversed(orders) if region in MONTH_FIRST else orders:
        try:
            date = dt.date(year, month, day)
        except ValueError:
            continue
        if date >= today if ahead else date <= today:
            return date
    return None


def _of_month(found: dict[str, str], today: dt.date, ahead: bool) -> dt.date:
    month = month_of(found.get("m") or found["m2"])
    if found.get("y"):
        return dt.date(int(found["y"]), month, int(found["d"]))
    date = dt.date(today.year, month, int(found["d"]))
    if ahead:
        return date if date >= today else date.replace(year=today.year + 1)
    return date if date <= today else date.replace(year=today.year - 1)
