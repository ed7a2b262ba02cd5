"""What a single value of a kept record may be; each check raises `InputError` with the field."""

import math
import re
from collections.abc import Sequence
from functools import lru_cache
from typing import Any

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.base.spelling import did_you_mean

_WORD = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*\Z")
_HEX = re.compile(r"[0-9a-f]+\Z")
# C0 and C1 controls would drive a terminal; surrogates cannot be written as UTF-8.
_UNSAFE = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff]")
_BREAKS = re.compile(r"[\t\n\u2028\u2029]")
LINE_LENGTH, PAGE_LENGTH = 1_000, 1_000_000
LARGEST = 10**12
_DEPTH = 20


def check_id(name: str, text: str, digits: int) -> None:
    """An id is that many lower-case hexadecimal digits."""
    if not (isinstance(text, str) and len(text) == digits and _HEX.match(text)):
        raise InputError(f"'{text}' is not {digits} hexadecimal digits", where=name)


def check_word(name: str, word: str, known: Sequence[str] = ()) -> None:
    """A word is lower case with hyphens, or empty; where a list is given it is one of it."""
    if not isinstance(word, str):
        raise InputError(f"{word!r} is not a word", where=name)
    if not word:
        return
    if known and word not in known:
        raise InputError(f"'{word}' is not known", name, did_you_mean(word, known))
    if not _is_word(word):
        raise InputError(
            f"'{word[:60]}' is not a word", name, "Write it in lower case, with hyphens."
        )


@lru_cache(maxsize=4_096)
def _is_word(word: str) -> bool:
    """Whether it is written as a word is; the words of a log repeat themselves."""
    return len(word) <= LINE_LENGTH and _WORD.match(word) is not None


def check_text(name: str, text: str, *, one_line: bool) -> None:
    """Text is printable and of bearable length: one line, or a page of up to a million."""
    if not isinstance(text, str):
        raise InputError(f"{text!r} is not text", where=name)
    bad = _UNSAFE.search(text) or (_BREAKS.search(text) if one_line else None)
    if bad:
        kind = "a line break or tab" if _BREAKS.match(bad[0]) else "a control character"
        raise InputError(f"holds {kind} (U+{ord(bad[0]):04X})", name, "Remove it.")
    most = LINE_LENGTH if one_line else PAGE_LENGTH
    if len(text) > most:
        raise InputError(f"is longer than {most:,} characters", name, "Shorten it.")


def check_amount(name: str, money: Money | None, *, optional: bool = False) -> None:
    """An amount is not negative, below 10^12, in whole minor units of its currency."""
    if money is None and optional:
        return
    if not isinstance(money, Money):
        raise InputError(f"{money!r} is not an amount of money", where=name)
    if _sound(money):
        return
    if money.amount.is_signed() or money.amount >= LARGEST:
        raise InputError(f"{money.amount} is not between 0 and {LARGEST:,}", where=name)
    if money.rounded() != money:
        raise InputError(
            f"{money.amount} has more decimals than {money.currency}",
            name,
            f"Round it to {money}.",
        )


@lru_cache(maxsize=4_096)
def _sound(money: Money) -> bool:
    """Whether an amount is one that can be kept; those of a log repeat themselves."""
    amount = money.amount
    return not amount.is_signed() and amount < LARGEST and money.rounded() == money


def check_number(
    name: str,
    value: float,
    low: float,
    high: float,
    *,
    whole: bool = False,
    above: bool = False,
) -> None:
    """A finite number from `low` (or above it) to `high`; a whole one if asked."""
    right_type = type(value) is int or (type(value) is float and not whole)
    if not right_type or not low <= value <= high or (above and value == low):
        kind = "a whole number" if whole else "a number"
        start = f"above {low:g}" if above else f"from {low:g}"
        raise InputError(f"{value!r} is not {kind} {start} to {high:g}", where=name)


def check_flag(name: str, value: bool | None, *, optional: bool = False) -> None:
    """Yes or no; None only where "not recorded" is allowed."""
    if not isinstance(value, bool) and not (optional and value is None):
        raise InputError(f"{value!r} is neither yes nor no", where=name)


def check_json(name: str, value: Any, depth: int = 0) -> None:
    """A JSON value: finite numbers, 64-bit integers, plain text, at most 20 deep."""
    if depth > _DEPTH:
        raise InputError(f"is nested deeper than {_DEPTH}", where=name)
    if isinstance(value, str):
        check_text(name, value, one_line=False)
    elif isinstance(value, dict):
        for key, inner in value.items():
            check_text(name, key, one_line=True)
            check_json(f"{name}.{key}", inner, depth + 1)
    elif isinstance(value, list):
        for inner in value:
            check_json(name, inner, depth + 1)
    elif not _plain(value):
        raise InputError(f"{value!r} cannot be saved", name, "Use text, numbers, lists or maps.")


def _plain(value: Any) -> bool:
    if value is None or isinstance(value, bool):
        return True
    if type(value) is int:
        return bool(-(2**63) <= value < 2**63)
    return type(value) is float and math.isfinite(value)
