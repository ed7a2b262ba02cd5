"""Amounts of money in running text, in many currencies and ways of writing them."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache

from appraise.base.errors import InputError
from appraise.base.money import EXPONENTS, Money
from appraise.knowledge.records import Knowledge
from appraise.listing.words import fold

_NUMBER = r"\d{1,3}(?:[ ,.'’\u00a0\u202f]\d{3}){1,3}(?:[.,]\d{2})?|\d{1,9}(?:[.,]\d{1,2})?"
_SIGNS = {"us$": "USD", "au$": "AUD", "a$": "AUD", "ca$": "CAD", "c$": "CAD", "nz$": "NZD",
          "hk$": "HKD", "r$": "BRL", "$": "USD", "£": "GBP", "₤": "GBP", "€": "EUR", "¥": "JPY",
          "kč": "CZK", "zł": "PLN", "₹": "INR", "₺": "TRY", "₪": "ILS", "₩": "KRW",
          "kr": "SEK"}  # fmt: skip
CROWNS = ("SEK", "NOK", "DKK", "ISK", "CZK")
DOLLARS = ("USD", "AUD", "CAD", "NZD", "HKD", "SGD", "TWD", "MXN")


@dataclass(frozen=True, slots=True)
class Amount:
    """An amount as it stands in a text.

    Attributes:
        money: What it says.
        start: Where it starts in the text.
        end: Where it ends, not included.
    """

    money: Money
    start: int
    end: int


def amounts(text: str, knowledge: Knowledge, currency: str) -> Iterator[Amount]:
    """Amounts that name a currency, from the left.

    Args:
        text: Any text.
        knowledge: For the words that currencies go by.
        currency: The reader's own; a bare '$' means it where it is a dollar.
    """
    names, pattern = _reader(knowledge)
    for match in pattern.finditer(text):
        sign = match["sign"] or match["before"] or match["behind"] or match["after"] or ""
        code = names.get(fold(sign)) or names.get(sign.lower(), "")
        if (sign == "$" and currency in DOLLARS) or (sign.lower() == "kr" and currency in CROWNS):
            code = currency
        made = number(match["n1"] or match["n2"] or "", code)
        if made is not None:
            yield Amount(made, match.start(), match.end())


def number(written: str, currency: str) -> Money | None:
    """'1.250,00', '1,250', "1'250.50", '45,5' as money, or None when it is none."""
    digits = re.sub(r"[ '’\u00a0\u202f]", "", written)
    whole, mark, rest = _parted(digits)
    plain = re.sub(r"[.,]", "", whole) + (f".{rest}" if mark else "")
    try:
        return Money(Decimal(plain), currency)
    except (InputError, ArithmeticError):
        return None


def _parted(digits: str) -> tuple[str, bool, str]:
    """Whole and decimal part; three digits after the last mark are thousands."""
    found = re.fullmatch(r"(.*)[.,](\d{1,2})", digits)
    return (found[1], True, found[2]) if found else (digits, False, "")


@lru_cache(maxsize=4)
def _reader(knowledge: Knowledge) -> tuple[Mapping[str, str], re.Pattern[str]]:
    names = {code.lower(): code for code in EXPONENTS} | _SIGNS
    for term in knowledge.terms.values():
        if term.field == "currency":
            names.update(dict.fromkeys((fold(word) for word in term.synonyms), term.value))
    words = "|".join(re.escape(name) for name in sorted(names, key=len, reverse=True))
    signs = "|".join(re.escape(name) for name in sorted(_SIGNS, key=len, reverse=True))
    return names, re.compile(
        rf"(?<![\w.,/])(?:(?:(?P<sign>{signs})|(?P<before>[a-z]{{3}})(?=[ \d]))[ \u00a0]?"
        rf"(?P<n1>{_NUMBER})(?:[.,]?[-–](?!\d))?(?![\d/])"
        rf"|(?P<n2>{_NUMBER})(?:[.,][-–])?[ \u00a0]?(?:(?P<behind>{words})(?!\w)|(?P<after>\$)))",
        re.IGNORECASE,
    )
