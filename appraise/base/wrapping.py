"""Text in lines of so many cells: no word, range, date or amount is divided where it need not be.

A cell is what one Latin letter takes of a terminal; a Chinese sign takes two, an accent none
(Unicode Standard Annex 11, East Asian Width).
"""

import re
import unicodedata
from collections.abc import Callable, Iterator

_CODE = r"(?: ?[A-Z]{3}\b)?"
_NUMBER = r"[$\u00a3\u20ac-]?\d(?:[\d,]*\d)?(?:\.\d+)?"
_MONTH = r"(?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)[a-z]*"
FIGURE = re.compile(
    rf"\d{{4}}-\d\d-\d\d|\d{{1,2}} {_MONTH}(?: \d{{4}})?"
    rf"|{_NUMBER}{_CODE}(?:(?: \.\. |\.\.| to |-){_NUMBER}{_CODE})*"
)
"""What is one figure and never cut: an amount with its currency, a range, a date."""

Measure = Callable[[str], int]
"""The cells that a text takes."""

_AS_PICTURE = "\ufe0f"  # a sign before it is drawn in two cells (Unicode, emoji presentation)


def cells(text: str) -> int:
    """The cells that a text takes."""
    if text.isascii():
        return len(text)
    return sum(map(_cells, text))


def _cells(sign: str) -> int:
    if sign == _AS_PICTURE:
        return 1
    if unicodedata.category(sign) in ("Mn", "Me", "Cf") and sign != "\u00ad":
        return 0
    return 2 if unicodedata.east_asian_width(sign) in "WF" else 1


def wrapped(text: str, width: int, lead: str = "", indent: str | None = None) -> list[str]:
    """The text in lines, at least one.

    Args:
        text: What is told.
        width: Cells of a line.
        lead: What stands before the first line.
        indent: What stands before the others; blanks as wide as the lead unless given.
    """
    rest = " " * cells(lead) if indent is None else indent
    rows = folded(text, max(1, width - max(cells(lead), cells(rest))))
    return [f"{rest if place else lead}{row}".rstrip() for place, row in enumerate(rows)]


def folded(text: str, room: int, measure: Measure = cells) -> list[str]:
    """The text in lines of at most so many cells, at least one.

    A word wider than the room is cut where it must be; a figure stays in one line if it can.
    """
    rows: list[str] = []
    row = ""
    for word in _words(text, room, measure):
        while measure(word) > room:
            head, word = _split(word, room, measure)
            rows, row = [*rows, *([row] if row else []), head], ""
        if row and measure(row) + 1 + measure(word) > room:
            rows, row = [*rows, row], word
        else:
            row = f"{row} {word}" if row else word
    return [*rows, row]


def _words(text: str, room: int, measure: Measure) -> Iterator[str]:
    """The words of a text, a figure that fits the room as one."""
    text, start = " ".join(text.split()), 0
    for one in FIGURE.finditer(text):
        if " " in one.group() and measure(one.group()) <= room // 2:
            before = text[start : one.start()]
            first, _, last = before.rpartition(" ")
            after = text[one.end() :].partition(" ")[0]
            yield from first.split()
            yield f"{last}{one.group()}{after}"
            start = one.end() + len(after)
    yield from text[start:].split()


def _split(word: str, room: int, measure: Measure) -> tuple[str, str]:
    """A word divided after at most `room` cells, after at least one sign."""
    taken = 1
    while taken < len(word) and measure(word[: taken + 1]) <= room:
        taken += 1
    return word[:taken], word[taken:]
