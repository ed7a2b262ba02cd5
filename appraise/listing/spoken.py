"""Numbers in words, as in 'thirty-five pounds' and 'two pounds fifty'."""

import re
from collections.abc import Iterator
from decimal import Decimal

from appraise.base.regex import late

UNITS = (
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
_TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_VALUES = {word: value for value, word in enumerate(UNITS, 1)}
_VALUES |= {word: 10 * value for value, word in enumerate(_TENS, 2)}
_LARGE = {"hundred": 100, "thousand": 1000}
_WORD = "|".join((*UNITS[::-1], *_TENS, *_LARGE))
TENS = f"(?:{'|'.join(_TENS)})"
COUNT = rf"(?:{_WORD})(?:(?:-|[ ](?:and[ ])?)(?:{_WORD})\b){{0,6}}"  # a pattern for such a number


def count_of(words: str) -> int:
    """The number that words say, as matched by `COUNT`; 'hundred' alone is a hundred.

    Args:
        words: Lower-case number words with blanks, hyphens or 'and' between them.
    """
    total = part = 0
    for word in re.findall(r"[a-z]+", words.lower()):
        if word in _VALUES:
            part += _VALUES[word]
        elif word == "hundred":
            part = max(part, 1) * _LARGE[word]
        elif word == "thousand":
            total, part = total + max(part, 1) * _LARGE[word], 0
    return total + part


def spoken_numbers(text: str) -> Iterator[tuple[Decimal, int, int]]:
    """Numbers in words with their places, from the left; 'two-fifty' is 2.50."""
    for match in _SPOKEN.finditer(text):
        both = _PRICE.fullmatch(match.group().lower())
        value = Decimal(count_of(match.group()))
        if both is not None:
            value = _VALUES[both[1]] + Decimal(count_of(both[2])) / 100
        yield value, *match.span()


_SPOKEN = late(rf"(?<![\w-]){COUNT}(?![\w-])", re.IGNORECASE)
_PRICE = late(rf"({'|'.join(UNITS[:9])})[- ]({TENS}(?:[- ](?:{'|'.join(UNITS[:9])}))?)")
