"""Amounts of money in running text, in many currencies and ways of writing them."""

import re
from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

from appraise.base.money import EXPONENTS, Money
from appraise.base.moneytext import currency_named, one_of_family
from appraise.base.regex import late
from appraise.knowledge.records import Knowledge
from appraise.listing.numbers import NUMBER, number
from appraise.listing.spoken import COUNT, TENS, count_of
from appraise.listing.words import fold, lowered

_GAP = r"(?:[ \u00a0]|[ ]?\n[ ]{0,8})?"  # a line may end between number and currency
_SIGNS = {"us$": "USD", "au$": "AUD", "a$": "AUD", "ca$": "CAD", "c$": "CAD", "nz$": "NZD",
          "hk$": "HKD", "r$": "BRL", "$": "USD", "£": "GBP", "₤": "GBP", "€": "EUR", "¥": "JPY",
          "kč": "CZK", "zł": "PLN", "₹": "INR", "₺": "TRY", "₪": "ILS", "₩": "KRW",
          "kr": "SEK"}  # fmt: skip
_APART = r"(?:US|AU|CA|C|NZ|HK) \$"  # 'C $45'; in small letters 'a $45' is no currency
_WORDS = frozenset(
    ("try", "ron", "all", "top", "pen", "mad", "bam", "cup", "gel", "mop", "sos")
)  # codes that are words: they count only behind a number
SHORT = 2  # letters of a unit that stands within other words, as 'p' does
_STAMP = r"[ ](?:[a-z]+[ ]){0,2}stamps?\b"  # 'two cent revenue stamp' is no money
_FIGURES = re.compile(r"\d+")
_BETWEEN = " .,-–\u00a0\n"  # what may stand between a number and its currency
_NEAR = 40  # characters, more than those and the longest name of a currency
_NAMES = ("sign", "before", "named", "behind", "after")


class Amount(NamedTuple):
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
    end = 0
    both = (*_in_figures(text, knowledge, currency), *_in_words(text, knowledge, currency))
    for one in sorted(both, key=lambda one: (one.start, -one.end)):
        if one.start >= end:
            end = one.end
            yield one


def line_currency(found: Sequence[Amount], currency: str) -> str:
    """The currency of a line's bare numbers: that of its other amounts where they have one."""
    told = {one.money.currency for one in found}
    return told.pop() if len(told) == 1 else currency


def _in_figures(text: str, knowledge: Knowledge, currency: str) -> Iterator[Amount]:
    names, pattern = _reader(knowledge)
    for match in pattern.finditer(text) if _beside_a_number(lowered(text), tuple(names)) else ():
        sign = next((match[name] for name in _NAMES if match[name]), "")
        code = names.get(fold(sign)) or names.get(sign.lower().replace(" ", ""), "")
        code = one_of_family(currency_named(sign), currency) or code
        made = number(match["n1"] or match["n2"] or "", code)
        if made is not None:
            yield Amount(made, match.start(), match.end())


def _beside_a_number(plain: str, names: tuple[str, ...]) -> bool:
    """Whether a text in lower case has a number with one of some names right before or behind."""
    for figures in _FIGURES.finditer(plain):
        start, end = figures.span()
        before = plain[max(0, start - _NEAR) : start].rstrip(" .\u00a0")
        behind = plain[end : end + _NEAR].lstrip(_BETWEEN)
        thousand = behind.removeprefix("k").lstrip(_BETWEEN)  # '2k dollars'
        if before.endswith(names) or behind.startswith(names) or thousand.startswith(names):
            return True
    return False


def _in_words(text: str, knowledge: Knowledge, currency: str) -> Iterator[Amount]:
    """'Thirty-five pounds', 'two pounds fifty', '90p', 'a tenner'."""
    units, pattern, short = _worded(knowledge)
    plain = lowered(text)
    here = short.search(plain) or any(unit in plain for unit in units if len(unit) > SHORT)
    for match in pattern.finditer(text) if here else ():
        unit = units[fold(next(match[name] for name in "abc" if match[name]))]
        told = match["words"] or match["figures"]
        if not told and unit.amount < 1:
            continue  # a penny without a number
        times = max(1, count_of(told)) if match["words"] else int(told or 1)
        small = count_of(match["rest"]) if match["rest"] else 0
        small = small if 10 <= small < 100 else 0  # "pounds fifty", but "pounds two of them"
        named = next(name for name in "abc" if match[name])
        code = one_of_family(currency_named(match[named]), currency) or unit.currency
        money = Money(unit.amount * times + Decimal(small) / 100, code)
        yield Amount(money, match.start(), match.end() if small else match.end(named))


@lru_cache(maxsize=4)
def _worded(knowledge: Knowledge) -> tuple[Mapping[str, Money], re.Pattern[str], re.Pattern[str]]:
    """Units by their words, the pattern of amounts in words, and that of short units alone.

    A currency needs a number in words before it, small coins one of either sort, notes none.
    """
    whole: dict[str, Money] = {}
    coins: dict[str, Money] = {}
    for term in knowledge.terms.values():
        if term.field == "currency":
            named = term.value in EXPONENTS
            unit = Money.parse(f"1 {term.value}" if named else term.value)
            words = (fold(word) for word in term.synonyms)
            (whole if named else coins).update(dict.fromkeys(words, unit))
    first, second = ("|".join(sorted(map(re.escape, some))) for some in (whole, coins))
    short = "|".join(re.escape(unit) for unit in whole | coins if len(unit) <= SHORT)
    alone = re.compile(rf"(?:{short or '(?!)'})(?![a-z])")
    amount = late(
        rf"(?<![\w.,/£$€-])(?:(?P<words>{COUNT}|an?(?=[ ](?:{first})[ ]{TENS}))"
        rf"[ ](?P<a>{first}|{second})"
        rf"|(?P<figures>\d{{1,2}})[ ]?(?P<b>{second})|(?P<c>{second}))"
        rf"(?!\w|[ ]?[&+][ ]?p\b|[ ]in weight|{_STAMP})(?:[ ](?P<rest>{COUNT}))?",
        re.IGNORECASE,
    )
    return whole | coins, amount, alone


@lru_cache(maxsize=4)
def _reader(knowledge: Knowledge) -> tuple[Mapping[str, str], re.Pattern[str]]:
    names = {code.lower(): code for code in EXPONENTS} | _SIGNS
    for term in knowledge.terms.values():
        if term.field == "currency" and term.value in EXPONENTS:
            names.update(dict.fromkeys((fold(word) for word in term.synonyms), term.value))
    longest = sorted(names, key=len, reverse=True)
    reach = len(longest[0]) + 2  # characters from the start of a name to its number
    leading = "|".join(re.escape(name) for name in longest if name not in _WORDS)
    words = "|".join(re.escape(name) for name in longest)
    codes = "|".join(code for code in EXPONENTS if code.lower() not in _WORDS)
    signs = "|".join(re.escape(name) for name in sorted(_SIGNS, key=len, reverse=True))
    return names, late(
        rf"(?<![\w,/])(?<!\d\.)(?!(?<=\.)\d)(?=\D{{0,{reach}}}+\d)"
        rf"(?:(?:(?P<sign>(?-i:{_APART})|{signs})|(?P<before>{codes})(?=[ \d])"
        rf"|(?P<named>{leading})\.?(?=[ \u00a0]\d))[ \u00a0]?"
        rf"(?P<n1>{NUMBER})(?:[.,]?[-–](?!\d))?(?![\d/])"
        rf"|(?P<n2>{NUMBER})(?:[.,][-–]{{1,2}})?{_GAP}"
        rf"(?:(?P<behind>{words})(?!\w)|(?P<after>\$))(?!(?<=[$£€¥])\d))",
        re.IGNORECASE,
    )
