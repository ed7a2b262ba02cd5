"""Days as people note them, in the words that `sheet_days` reads: '?/4/2019', 'Ende Mai 2015'.

What is told less exactly stays so: two days of a fair are their month, a feast is its month.
"""

import datetime as dt
import re
from collections.abc import Callable

from appraise.base.months import MONTH, SEASON

_YEAR = r"(?:19|20)\d\d"
_ROMAN = ["i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x", "xi", "xii"]
_ROMANS = "|".join(sorted(_ROMAN, key=len, reverse=True))
_BLANK = r"(?:\?{1,2}|x{1,2}|00|_{1,2}|-{1,2})"
_EARLY = (
    "early|begin|beginning(?: of)?|start(?: of)?|anfang|debut|début|inizio|inizi|principios"
    "|a principios|comienzos"
)
_MID = "mid|middle(?: of)?|mitte|mi|milieu|metà|meta|mediados|a mediados|half|medio"
_LATE = "late|end(?: of)?|ende|fin|fine|finales|a finales|eind|einde|spät"
_PART = rf"(?:{_EARLY}|{_MID}|{_LATE})(?:[ -](?:of |de |del |d')?)"
_PERHAPS = "probably|maybe|perhaps|possibly|wohl|vermutlich|vielleicht|peut-être|peut-etre|forse"
_BEFORE = "vor|pre|pre-|avant|antes de|prima del|prima di|voor"
_LEADING = r"(?:on |the |in the |in |im |am |l'|l’|le |la |el |en |nel |nell'|il |de |dans l'|d')"
_CHRISTMAS = "christmas|xmas|x-mas|weihnachten|noel|noël|natale|navidad|navidades|kerst|kerstmis"
_CHRISTMAS_DAYS = f"(?:{_CHRISTMAS})(?: day| eve| week| market)?"
_FEASTS = {
    0: "easter|ostern|paques|pâques|pasqua|pascua|semana santa|pasen",
    39: "ascension|ascension day|auffahrt|christi himmelfahrt|himmelfahrt|hemelvaart|ascensione"
    "|ascensión|l'ascension",
    49: "whitsun|whit monday|pfingsten|pentecote|pentecôte|pentecoste|pentecostes|pinksteren",
}
"""Feasts by the days from Easter Sunday."""


def easter(year: int) -> tuple[int, int]:
    """Month and day of Easter Sunday by the Gregorian rule, which is from memory."""
    century, golden = divmod(year, 100)[0], year % 19
    h = (century - century // 4 - (8 * century + 13) // 25 + 19 * golden + 15) % 30
    moon = h - (h // 28) * (1 - (29 // (h + 1)) * ((21 - golden) // 11))
    weekday = (year + year // 4 + moon + 2 - century + century // 4) % 7
    month = 3 + (moon - weekday + 40) // 44
    return month, moon - weekday + 28 - 31 * (month // 4)


def _feast(match: re.Match[str]) -> str:
    """The month of a feast that is counted from Easter."""
    year, name = int(match["y"]), match["f"].lower()
    later = next(days for days, names in _FEASTS.items() if name in names.split("|"))
    day = dt.date(year, *easter(year)) + dt.timedelta(days=later)
    return f"{year}-{day.month:02}"


def _roman(match: re.Match[str]) -> str:
    return f"{match['d'] or ''}{_ROMAN.index(match['m'].lower()) + 1}/{match['y']}".replace(
        ".", "/"
    )


_BETWEEN = r"(?:[-\u2013/&+]|und|and|et|e|y|en)"
_HOURS = r"\d{1,2}(?:[.:h]\d\d| ?h| uhr| ?[ap]\.?m\.?)\b(?: uhr)?"
_PARTS = f"(?:{SEASON}|{MONTH})"
_FORMS: tuple[tuple[str, str | Callable[[re.Match[str]], str]], ...] = (
    (rf"(\d{{1,2}})\.({_YEAR})", r"\1/\2"),
    (rf"({_YEAR})\.(\d{{1,2}})", r"\1-\2"),
    (rf"{_BLANK}([-/. ]){_BLANK}\1({_YEAR})", r"\2"),
    (rf"{_BLANK}([-/. ])(\d{{1,2}})\1({_YEAR})", r"\2/\3"),
    (rf"(\d{{1,2}})([-/. ]){_BLANK}\2({_YEAR})", r"\1/\3"),
    (rf"{_BLANK}[-/. ]*({MONTH})[-/. ]*({_YEAR})", r"\1 \2"),
    (rf"({_YEAR})-{_BLANK}(?:-{_BLANK})?", r"\1"),
    (rf"({_YEAR}-\d\d)-{_BLANK}", r"\1"),
    (rf"(?P<d>\d{{1,2}}[-/. ])?(?P<m>{_ROMANS})[-/. ](?P<y>{_YEAR}|\d\d)", _roman),
    (rf"({_YEAR}) ?(?:\(\?\)|\(?ca\.?\)?|\(?approx\.?\)?|or so|-?ish|circa|oder so)", r"\1~"),
    (rf"(?:{_PERHAPS}) ({_YEAR})", r"\1~"),
    (rf"(?:{_BEFORE}) ?({_YEAR})", r"before \1"),
    (rf"(?:{_EARLY})[ -](?:of |de |del )?({_YEAR})", r"early \1"),
    (rf"(?:{_MID})[ -](?:of |de |del )?({_YEAR})", r"mid \1"),
    (rf"(?:{_LATE})[ -](?:of |de |del )?({_YEAR})", r"late \1"),
    (rf"{_PART}({MONTH})\.?(?: de| del)? ({_YEAR})", r"\1 \2"),
    (rf"({SEASON}) ({_YEAR}) ?[-/] ?(?:{_YEAR}|\d\d)", r"\1 \2"),
    (rf"({SEASON})(?: of| de| del| van) '?({_YEAR}|\d\d)", r"\1 \2"),
    (rf"{_PARTS}\.? ?{_BETWEEN} ?{_PARTS} ({_YEAR})", r"\1"),
    (rf"({MONTH})\.? (\d{{1,2}})(?:st|nd|rd|th)? '(\d\d)", r"\2 \1 20\3"),
    (rf"\d{{1,2}}\.? ?{_BETWEEN} ?\d{{1,2}}\.? ?({MONTH})\.? ({_YEAR})", r"\1 \2"),
    (rf"\d{{1,2}}\.? ?[-\u2013/&+] ?\d{{1,2}}[./](\d{{1,2}})[./]({_YEAR})", r"\1/\2"),
    (rf"(?:{_CHRISTMAS_DAYS}),? ({_YEAR})", r"\1-12"),
    (rf"(?:silvester|new year'?s eve) ({_YEAR})", r"\1-12-31"),
    (rf"(?P<f>{'|'.join(_FEASTS.values())})(?: \w+)? (?P<y>{_YEAR})", _feast),
    (rf"({_YEAR}),? (?:{_CHRISTMAS_DAYS})", r"\1-12"),
    (rf"(.*\d),? (?:um |at |à |a las |alle |om )?{_HOURS}", r"\1"),
    (rf"{_LEADING}(.*\d)", r"\1"),
)
_READ = tuple((re.compile(rf"{form}\Z", re.IGNORECASE), new) for form, new in _FORMS)


def loosened(text: str) -> str:
    """A day in other words; '' where it is written in none of these ways."""
    for form, new in _READ:
        if found := form.match(text):
            return new(found) if callable(new) else found.expand(new)
    return ""
