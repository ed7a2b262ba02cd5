"""Instants: written in a zone, kept in UTC, told in a zone with its name.

A wall clock leaves an hour out in spring and shows one twice in autumn. An hour that does not
exist or comes twice is refused, since a bid that comes an hour late is no bid.
"""

import datetime as dt
from typing import Self

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.fieldchecks import check_text
from appraise.base.regex import late
from appraise.base.spelling import did_you_mean

_WRITTEN = late(
    r"(?P<day>\d{4}-\d{2}-\d{2})(?:[T ](?P<hour>\d{1,2})[:.h](?P<minute>\d{2})(?::00)?)?"
    r"\s?(?P<zone>\S+)?"
)
_OFFSET = late(r"(?:UTC|GMT)?(?P<sign>[+-])(?P<hours>\d{1,2})(?::?(?P<minutes>[0-5]\d))?")
_USUAL = "Write 2026-11-08 20:00, or only the day."
HOUR = 60  # minutes
DAY = 24 * HOUR
WEEKS = 21 * DAY  # from here on weeks are counted
FIRST_YEAR, LAST_YEAR = 1900, 2999

Zone = dt.tzinfo | None
"""A zone; None is the one that this machine keeps."""


@dataclass(frozen=True, slots=True)
class Closing:
    """When something closes: an instant, or a day of which no hour is known.

    Attributes:
        at: The instant, in UTC, to the second; None where only the day is known.
        on: The day; None where the instant is known.
        zone: The zone in which it was written, as the sale tells it; '' for the user's own.

    Raises:
        InputError: when it is neither or both, or a value is of another sort.
    """

    at: dt.datetime | None = None
    on: dt.date | None = None
    zone: str = ""

    def __post_init__(self) -> None:
        if (self.at is None) == (self.on is None):
            raise InputError("is an instant or a day", "closes")
        when = self.at or self.on
        if when is not None and not FIRST_YEAR <= when.year <= LAST_YEAR:
            raise InputError(f"year {when.year} is not one in which anything closes", "closes")
        check_instant("closes", self.at)
        check_text("closes", self.zone, one_line=True)

    @classmethod
    def parse(cls, text: str, zone: Zone = None, name: str = "") -> Self:
        """Read it as `parse_moment` does.

        Args:
            text: What was written.
            zone: The zone of an hour that names none.
            name: How that zone is called; '' for the user's own.
        """
        at, day, own = parse_moment(text, zone)
        return cls(at, None if at else day, own or name)

    def end(self, zone: Zone) -> dt.datetime:
        """The instant at which it is over: of a day without an hour, the end of that day."""
        if self.at is not None:
            return self.at
        assert self.on is not None
        return end_of(self.on, self._own(zone))

    def written(self) -> str:
        """As `parse` reads it, on whatever machine."""
        if self.at is None:
            return f"{self.on} {self.zone}".rstrip()
        own = self._own(dt.UTC)
        if own is not dt.UTC and local(self.at, own).second == 0:
            text = f"{local(self.at, own):%Y-%m-%d %H:%M} {self.zone}"
            try:
                if parse_moment(text)[0] == self.at:
                    return text
            except InputError:  # an hour that comes twice: UTC tells it apart
                pass
        return f"{self.at:%Y-%m-%d %H:%M} UTC"

    def told(self, zone: Zone, *, year: bool = True) -> str:
        """As 'Sun 8 Nov 2026 20:00 CET' by the clocks of a zone; a day alone as it stands."""
        if self.at is not None:
            return told_moment(self.at, zone, year=year)
        assert self.on is not None
        return told_day(self.on, year=year)

    def days_left(self, now: dt.datetime, zone: Zone) -> int | None:
        """Whole days from today to the day, where only that is known: 0 is today."""
        return None if self.on is None else (self.on - local(now, self._own(zone)).date()).days

    def there(self) -> str:
        """The instant by the sale's own clock, 'Sun 8 Nov 14:30 America/New_York', if known."""
        own = self._own(None) if self.zone else None
        if self.at is None or own is None:
            return ""
        here = local(self.at, own)
        return f"{told_day(here.date(), year=False)} {here:%H:%M} {self.zone}"

    def _own(self, otherwise: Zone) -> Zone:
        """The zone in which it was written, where this machine knows it."""
        try:
            return zone_named(self.zone) if self.zone else otherwise
        except InputError:
            return otherwise


def check_instant(name: str, moment: dt.datetime | None) -> None:
    """An instant is in UTC and to the second, so that equal ones are written alike."""
    if moment is not None and (moment.tzinfo is not dt.UTC or moment.microsecond):
        raise InputError(f"{moment} is not an instant in UTC to the second", name)


def zone_named(name: str) -> Zone:
    """The zone of that name: 'Europe/Berlin', '+01:00', 'UTC', or '' for this machine's own.

    Raises:
        InputError: when there is no such zone.
    """
    text = name.strip()
    if not text:
        return None
    if text.upper() in ("UTC", "GMT", "Z"):
        return dt.UTC
    offset = _OFFSET.fullmatch(text)
    if offset and int(offset["hours"]) < 24:
        minutes = int(offset["hours"]) * HOUR + int(offset["minutes"] or 0)
        return dt.timezone(dt.timedelta(minutes=-minutes if offset["sign"] == "-" else minutes))
    from zoneinfo import ZoneInfo, available_timezones  # 5 ms

    try:
        return ZoneInfo(text)
    except (KeyError, ValueError, OSError):
        known = {*available_timezones(), "UTC"}
        mend = did_you_mean(text, known) if "/" in text else "Write Europe/Berlin or +01:00."
        raise InputError(f"zone '{name}' is not known", mend=mend) from None


def parse_moment(text: str, zone: Zone = None) -> tuple[dt.datetime | None, dt.date, str]:
    """Read '2026-11-08 20:00', '2026-11-08T19:00Z', '2026-11-08 20:00 Europe/Berlin' or a day.

    Args:
        text: What was written; a zone behind the hour counts before `zone`.
        zone: The zone of an hour that names none.

    Returns:
        The instant in UTC (None where only a day is written), the day as written, and the zone
        as written behind, or ''.

    Raises:
        InputError: when it is neither, or the hour does not exist or comes twice in the zone.
    """
    match = _WRITTEN.fullmatch(" ".join(text.split()))
    if match is None:
        raise InputError(f"'{text}' is not a date or time", mend=_USUAL)
    try:
        day = dt.date.fromisoformat(match["day"])
        hour = dt.time(int(match["hour"]), int(match["minute"])) if match["hour"] else None
    except ValueError:
        raise InputError(f"'{text}' is not a date or time", mend=_USUAL) from None
    named = match["zone"] or ""
    if hour is None:
        zone_named(named)
        return None, day, named
    return (
        _instant(dt.datetime.combine(day, hour), zone_named(named) if named else zone),
        day,
        named,
    )


def _instant(wall: dt.datetime, zone: Zone) -> dt.datetime:
    """The one instant at which clocks in a zone show a time."""
    try:
        first, second = (
            (one.replace(tzinfo=zone) if zone else one.astimezone()).astimezone(dt.UTC)
            for one in (wall.replace(fold=0), wall.replace(fold=1))
        )
    except (OverflowError, OSError):
        raise InputError(f"'{wall:%Y-%m-%d %H:%M}' is out of reach", mend=_USUAL) from None
    if first == second:
        return first
    shown = local(first, zone).replace(tzinfo=None)
    said = f"{wall:%H:%M} on {wall:%Y-%m-%d}"
    if shown != wall:
        mend = "Look it up again, and write it with its offset, as +01:00."
        raise InputError(f"{said} does not exist: the clocks go forward over it", mend=mend)
    one, other = (f"{local(each, zone):%z}" for each in (first, second))
    mend = f"Write {wall:%Y-%m-%d %H:%M}{one} or {wall:%H:%M}{other}."
    raise InputError(f"{said} comes twice: the clocks go back", mend=mend)


def local(moment: dt.datetime, zone: Zone) -> dt.datetime:
    """An instant by the clocks of a zone."""
    return moment.astimezone(zone) if zone else moment.astimezone()


def end_of(day: dt.date, zone: Zone) -> dt.datetime:
    """The instant at which a day is over in a zone, in UTC."""
    after = dt.datetime.combine(day + dt.timedelta(days=1), dt.time())
    return (after.replace(tzinfo=zone) if zone else after.astimezone()).astimezone(dt.UTC)


def on_day(moment: dt.datetime, day: dt.date) -> dt.datetime:
    """An instant moved by whole days so that it falls on a day by this machine's clock."""
    return moment + (day - local(moment, None).date())


def told_moment(moment: dt.datetime, zone: Zone, *, year: bool = True) -> str:
    """An instant as 'Sun 8 Nov 2026 20:00 CET'."""
    here = local(moment, zone)
    return f"{told_day(here.date(), year=year)} {here:%H:%M} {here.tzname() or ''}".rstrip()


def told_day(day: dt.date, *, year: bool = True) -> str:
    """A day as 'Sun 8 Nov 2026'."""
    return f"{day:%a} {day.day} {day:%b}{day: %Y}" if year else f"{day:%a} {day.day} {day:%b}"


def left_words(left: dt.timedelta) -> str:
    """How long it still is, rounded down: '3 h 20 min', '2 days'."""
    minutes = int(left.total_seconds() // 60)
    if minutes < 1:
        return "under a minute"
    if minutes < HOUR:
        return f"{minutes} min"
    if minutes < DAY:
        rest = f" {minutes % HOUR} min" if minutes % HOUR else ""
        return f"{minutes // HOUR} h{rest}"
    if minutes < 2 * DAY:
        rest = f" {(minutes - DAY) // HOUR} h" if minutes - DAY >= HOUR else ""
        return f"1 day{rest}"
    return f"{minutes // DAY} days" if minutes < WEEKS else f"{minutes // (7 * DAY)} weeks"
