"""Figures of a sale that are no price: hours, days, shares, weights; and what a lot is told of."""

import datetime as dt
import re
from collections.abc import Iterator
from typing import Any

from appraise.base.errors import InputError
from appraise.base.moments import Closing
from appraise.base.moneytext import currency_named, one_of_family
from appraise.base.months import SURE_MONTH
from appraise.base.regex import late
from appraise.listing.days import days_in
from appraise.listing.numbers import NUMBER, number
from appraise.listing.words import lowered

_CLOCK = r"(?:[01]?\d|2[0-4])"
_THEN = r"(?!,?[ ]?(?:1[678]|19[0-5])\d)"  # no year of an old photograph
_LED = late(  # what a figure leads
    rf"(?<![\w.,/$£€-])(?=\d)(?:{_CLOCK}[:h][0-5]\d(?::[0-5]\d)?(?!\d)"
    rf"|{_CLOCK}(?:[.:][0-5]\d)?[ ]?(?:[ap]\.?m\b|noon\b|uhr\b|o['’]?[ ]?clock\b)"
    rf"|[0-3]?\d(?:st|nd|rd|th|\.)?[ ](?:of[ ])?(?!(?-i:may|mar|set)\b)(?:{SURE_MONTH})(?!\w)"
    rf"{_THEN}"
    rf"|[0-3]?\d(?P<mark>[./])[01]?\d(?P=mark){_THEN}(?:\d\d)?\d\d(?!\d)|20\d\d-[01]\d-[0-3]\d"
    r"|(?:(?<=on[ ])|(?<=am[ ])|(?<=vom[ ]))[0-3]?\d\.[01]?\d\.(?!\d)"
    r"|[0-2]\d[0-5]\d[ ]?(?:hrs|hours)\b|\d{1,3}(?:[.,]\d{1,2})?[ ]?(?:%|per[ ]?cent\b|pct\b)"
    r"|\d{1,4}(?:[.,]\d{1,3})?[ ]?(?:[cm]m|inch(?:es)?|gr?|grams?|kg|ounces?|oz|lbs?|dpi)\b)",
    re.IGNORECASE,
)
_MONTH = late(
    r"\b(?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sept?|Oct|Nov|Dec)[a-z]*\.?[ ](?:the[ ])?[0-3]?\d"
    rf"(?:st|nd|rd|th)?(?!\w|[.,]\d){_THEN}"
)
_WEEK = late(
    r"\b(?:mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day)?[ ](?:the[ ]|from[ ])?"
    r"\d{1,2}(?:[.:]\d\d)?(?:[ ]?(?:to|-|–|until)[ ]?\d{1,2}(?:[.:]\d\d)?)?(?![\w%]|[.,]\d)",
    re.IGNORECASE,
)
_THICK = late(
    r"\b(?:thick(?:ness)?|weigh(?:s|t)|height|width|depth)(?:[ ](?:is|of|about)|:){0,2}[ ]"
    r"\d{1,4}(?:[.,]\d{1,3})?",
    re.IGNORECASE,
)
_CLOSES = (
    r"\b(?:ends?|ending|clos(?:es?|ing)|finish(?:es|ing)?|viewing|hammer[ ]falls)\b"
    r"(?![ ](?:price|bid|sale|down))"
)
_ENDS = late(  # its hour may look like an amount
    rf"{_CLOSES}(?:[^.!?;\n$£€]|\.(?=\d)){{0,60}}?(?:\b(?:at|by|until|from|on)[ ]|@[ ]?"
    r"|(?<=\d),?[ ]|(?<=day),?[ ]|(?<=ing)[ ]|(?<=ends)[ ])"
    rf"{_CLOCK}(?:[.:][0-5]\d)?(?!(?-i:[ ][A-Z][a-z]{{2}})|[\w$£€%]|[.,]\d"
    r"|[ ](?:each|plus|post|or|ono|obo|[gu]))",
    re.IGNORECASE,
)
_CUES = (
    (_WEEK, ("day ", "mon ", "tue", "wed ", "thu", "fri ", "sat ", "sun ")),
    (_THICK, ("thick", "weigh", "height", "width", "depth")),
    (_ENDS, ("end", "clos", "finish", "viewing", "falls")),
)
_CLOSING = late(rf"{_CLOSES}(?P<told>(?:[^!?;\n]){{0,80}})", re.IGNORECASE)
_HOUR = late(
    rf"(?:\b(?:at|by|um)|@|,|\s)[ ]?(?P<h>{_CLOCK})(?:[:.h](?P<m>[0-5]\d)|(?=[ ]?[ap]\.?m\b))[ ]?"
    r"(?P<half>(?i:[ap]\.?m)\b\.?)?[ ]?(?:Uhr|hrs)?[ ]?\(?(?P<zone>[A-Z]{2,4}\b)?"
)
_ESTIMATE = late(
    rf"\b(?:est(?:imated?)?|guide|presale)\b[^\d\n]{{0,24}}?(?P<sign>[$£€]?)(?P<low>{NUMBER})"
    rf"[ ]?(?:-|–|to|/)[ ]?[$£€]?(?P<high>{NUMBER})",
    re.IGNORECASE,
)
_NUMBER = late(r"\b[Ll](?:ot|OT)[ ](?:[Nn][or]\.?[ ]?|#[ ]?)?(?P<n>\d{1,5}[a-z]?)(?=[.:,;\n)]|$)")


def no_prices(text: str) -> Iterator[tuple[int, int]]:
    """Stretches with figures that can be no amount: hours, days to come, shares, weights."""
    plain = lowered(text)
    yield from (match.span() for form in (_LED, _MONTH) for match in form.finditer(text))
    for pattern, cues in _CUES:
        if any(cue in plain for cue in cues):
            yield from (match.span() for match in pattern.finditer(text))


def told_of_lot(text: str, day: dt.date, currency: str) -> dict[str, Any]:
    """What a text tells of its sale, by the names of a lot's fields: number, closing, estimate.

    Args:
        text: The listing.
        day: The day on which it was read; a day without a year is the next one from then.
        currency: ISO 4217 code of the lot; an estimate in another is left out.
    """
    told: dict[str, Any] = {}
    if numbered := _NUMBER.search(text):
        told["number"] = numbered["n"]
    closing = (_closing(match["told"], day) for match in _CLOSING.finditer(text))
    if closes := next(filter(None, closing), None):
        told["closes"] = closes
    found = _ESTIMATE.search(text)
    sign = found["sign"] if found else ""
    if found and (not sign or one_of_family(currency_named(sign), currency) == currency):
        low, high = (number(found[name], currency) for name in ("low", "high"))
        if low and high and low.amount <= high.amount:
            told |= {"low": low, "high": high}
    return told


def _closing(text: str, today: dt.date) -> Closing | None:
    """The day in a text, and the hour where it is told in no other zone than the user's own."""
    day = next((one for one in days_in(text, today, ahead=True) if one.date), None)
    if day is None or not isinstance(day.date, dt.date):
        return None
    hour = _HOUR.search(f"{text[: day.start]}{' ' * (day.end - day.start)}{text[day.end :]}")
    if hour is not None and not hour["zone"]:
        half = (hour["half"] or "").lower()[:1]
        at = int(hour["h"]) % 12 + 12 * (half == "p") if half else int(hour["h"])
        try:
            return Closing.parse(f"{day.date} {at:02}:{hour['m'] or '00'}")
        except InputError:
            pass
    return Closing(on=day.date)
