"""Names of months and seasons: English, German, French, Dutch, Italian and Spanish."""

import re

_NAMES = (
    "january jan januar jänner jän janvier janv januari gennaio gen genn enero ene",
    "february feb februar feber febr février fevrier fév fev févr fevr februari febbraio febb "
    "febrero",
    "march mar märz maerz mrz mars maart mrt marzo",
    "april apr avril avr aprile abril abr",
    "may mai mei maggio mag magg mayo",
    "june jun juni juin giugno giu junio",
    "july jul juli juillet juil juill luglio lug julio",
    "august aug août aout augustus agosto ago",
    "september sept sep septembre settembre set sett septiembre setiembre",
    "october oct oktober okt octobre ottobre ott octubre",
    "november nov novembre noviembre",
    "december dec dezember dez décembre decembre déc dicembre dic diciembre",
)
_NUMBERS = {name: at for at, names in enumerate(_NAMES, 1) for name in names.split()}
# Names that are words of their own in one of the languages: a month only before a year.
_WORDS = frozenset(("set", "gen", "ago", "mag", "mars", "ene"))


def _any(names: frozenset[str] | set[str]) -> str:
    return "|".join(map(re.escape, sorted(names, key=len, reverse=True)))


MONTHS = tuple(_NUMBERS)
"""Every name of a month, in lower case."""
MONTH = _any(set(_NUMBERS))
"""A pattern for a month's name; match it without regard to case."""
SURE_MONTH = _any(set(_NUMBERS) - _WORDS)
"""The same without names that mean something else where no year follows."""


def month_of(name: str) -> int:
    """The number of a month, 1 to 12, by a name that `MONTH` matches.

    Raises:
        KeyError: when the name is none.
    """
    return _NUMBERS[name.lower().rstrip(".")]


_SEASONS = {
    21: "spring frühling frühjahr fruehling fruehjahr printemps lente voorjaar primavera",
    22: "summer sommer été ete zomer estate verano",
    23: "autumn fall herbst automne herfst najaar autunno otoño otono",
    24: "winter hiver inverno invierno",
}
_SEASON_NUMBERS = {name: at for at, names in _SEASONS.items() for name in names.split()}
SEASON = _any(set(_SEASON_NUMBERS))
"""A pattern for a season's name; some are words of their own where no year stands beside."""


def season_named(code: int) -> str:
    """The English name of a season by its EDTF code; '' where it is none.

    21 is spring. Codes 25 to 32 tell the hemisphere as well and are not named.
    """
    return _SEASONS.get(code, "").partition(" ")[0]


def season_of(name: str) -> int:
    """The EDTF code of a season, 21 to 24, by a name that `SEASON` matches.

    Raises:
        KeyError: when the name is none.
    """
    return _SEASON_NUMBERS[name.lower()]


WEEKDAY = (
    "mon(?:day)?|tue(?:s|sday)?|wed(?:nesday)?|thu(?:r|rs|rsday)?|fri(?:day)?|sat(?:urday)?"
    "|sun(?:day)?|mo(?:ntag)?|di(?:enstag|nsdag)?|mi(?:ttwoch)?|do(?:nnerstag|nderdag)?"
    "|fr(?:eitag)?|sa(?:mstag)?|sonnabend|so(?:nntag)?|lun(?:di|es|ed[iì])?|mar(?:di|tes|ted[iì])?"
    "|mer(?:credi|coled[iì])?|mi[eé](?:rcoles)?|jeu(?:di)?|jue(?:ves)?|gio(?:ved[iì])?"
    "|ven(?:dredi|erd[iì])?|vie(?:rnes)?|sam(?:edi)?|s[aá]b(?:ado|ato)?|dim(?:anche)?"
    "|dom(?:ingo|enica)?|ma(?:andag)?|wo(?:ensdag)?|vr(?:ijdag)?|za(?:terdag)?|zo(?:ndag)?"
)
"""A pattern for the name of a day of the week; match it without regard to case."""
