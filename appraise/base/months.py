"""Names of months as people write them: English, German, French, Dutch, Italian and Spanish."""

import re

_NAMES = (
    "january jan januar jänner janvier janv januari gennaio gen enero ene",
    "february feb februar febr février fevrier fév februari febbraio febrero",
    "march mar märz maerz mrz mars maart mrt marzo",
    "april apr avril avr aprile abril abr",
    "may mai mei maggio mag mayo",
    "june jun juni juin giugno giu junio",
    "july jul juli juillet juil luglio lug julio",
    "august aug août aout augustus agosto ago",
    "september sept sep septembre settembre set septiembre",
    "october oct oktober okt octobre ottobre ott octubre",
    "november nov novembre noviembre",
    "december dec dezember dez décembre decembre déc dicembre dic diciembre",
)
_NUMBERS = {name: at for at, names in enumerate(_NAMES, 1) for name in names.split()}
# Names that are words of their own in one of the languages: a month only before a year.
_WORDS = frozenset(("set", "gen", "ago", "mag", "mars", "ene"))


def _any(names: frozenset[str] | set[str]) -> str:
    return "|".join(map(re.escape, sorted(names, key=len, reverse=True)))


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
