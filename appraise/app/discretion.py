"""Amounts kept from whoever looks on: lines of the screen with every amount taken out.

Only what is drawn is changed, never what is kept; a line stays as wide as it was, so that columns
stand where they stood.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from rich.cells import cell_len

from appraise.app.lines import Line, words_of
from appraise.base.money import EXPONENTS

HIDDEN = "Amounts are hidden. m shows them."
DOTS = "..."

_CODE = rf"(?:{'|'.join(sorted(EXPONENTS))})\b"
_NUMBER = r"\d(?:[\d,]*\d)?(?:\.\d+)?"
_RANGE = rf"-?{_NUMBER}(?:(?: \.\. |\.\.| - | to |-){_NUMBER})*"
_SAID = (
    "paid|asked|asks|asking|price|bid|bids|swapped|up to|most|offer|offered|hammer|worth|sum|median"
    "|sold for|refused at|unsold at|returned|fetched|cost|costs"
)
"""Words after which a number is an amount, also where no currency stands with it."""
_CLOSE = r"above "
"""The same of a word that also heads a row of counts: the number has to stand beside it."""

_UNIT = r"(?!\.?\d| ?(?:mm|cm|in|dia|C|lux|x)\b|%| to 1\b)"
AMOUNT = (
    rf"(?P<coded>(?<![\d.,]){_RANGE} ?{_CODE})"
    rf"|(?P<led>\b{_CODE} ?{_RANGE}|[$\u00a3\u20ac] ?{_RANGE})"
    rf"|(?P<minor>(?<![\d.,])\d[\d,]*\.\d\d{_UNIT})"
    rf"|(?:\b(?:(?:{_SAID}) +|{_CLOSE}))(?P<said>{_RANGE}(?: ?{_CODE})?){_UNIT}"
)
"""An amount of money in a line: with its currency, with two decimals, or after such a word."""


def amounts(text: str) -> Iterator[tuple[int, int]]:
    """Where the amounts of a text stand: first character and the one after the last."""
    for found in re.finditer(AMOUNT, text):
        name = found.lastgroup or ""
        yield found.span(name)


def dotted(text: str) -> str:
    """An amount in a text of which every part is one, its digits taken out; as wide as it was."""
    return re.sub(r"\d", ".", text)


def holds_amount(text: str) -> bool:
    """Whether there is an amount of money in a text."""
    return next(amounts(text), None) is not None


def veiled(rows: Sequence[Line]) -> list[Line]:
    """The lines with dots and blanks in place of every amount."""
    return [_veiled(row) for row in rows]


def _veiled(row: Line) -> Line:
    whole = words_of(row)
    spans = list(amounts(whole))
    if not spans:
        return row
    signs = list(whole)
    for start, end in spans:
        room = cell_len(whole[start:end])
        blank = f"{DOTS[:room]:<{room}}"
        signs[start:end] = [*blank[: end - start - 1], blank[end - start - 1 :]]
    out, place = [], 0
    for words, role in row:
        out.append(("".join(signs[place : place + len(words)]), role))
        place += len(words)
    return tuple(out)
