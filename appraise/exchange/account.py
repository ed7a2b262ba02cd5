"""The text of a booking in an account, of which a part names the piece."""

import re
from collections.abc import Callable, Mapping
from typing import Any

from appraise.base.oneline import folded
from appraise.exchange.vocabulary import SheetWords

_BETWEEN = re.compile(r"\s[-\u2013|*]\s*|[:;/]\s*|,\s+|\s{2,}")
_NAMES = ("process", "format", "housing")
_LONGEST = 400  # characters of a text that is looked at
_EVENTS = 3  # words at the start of a name that may say what happened


def piece_of(text: str, titles: Callable[[str], Mapping[str, Any]], say: SheetWords) -> str:
    """The part of a booking's text that names a piece, to its end; '' where none does.

    Args:
        text: The text.
        titles: What a title says of its piece, as fields of an entry.
        say: The words of spreadsheets.
    """
    text = text[:_LONGEST]
    starts = [0, *(match.end() for match in _BETWEEN.finditer(text))]
    for start, end in zip(starts, [*starts[1:], len(text)], strict=True):
        part = text[start:end]
        named = part if say.of_title(part) else without_booking(part, say)
        if any(titles(named).get(name) for name in _NAMES):
            rest = _from_piece(text[start:].strip(), say)
            return without_event(rest, say)
    return ""


def without_booking(text: str, say: SheetWords) -> str:
    """A text without the words that bookings begin with, which are of no piece."""
    words = text.split()
    for many in range(min(_EVENTS, len(words)), 0, -1):
        if say.has("booking", folded(" ".join(words[:many]).rstrip(":"))):
            return without_booking(" ".join(words[many:]), say)
    return text


def _from_piece(text: str, say: SheetWords) -> str:
    """A text that begins as bookings do, from what happened or from the piece on."""
    if without_booking(text, say) == text:
        return text
    words = text.split()
    for place, word in enumerate(words):
        said = folded(word.strip(":,.-"))
        if say.event(said) or say.titles.get(said) or say.of_title(said):
            return " ".join(words[place:])
    return text


def without_event(text: str, say: SheetWords) -> str:
    """A title without the words before it that say what happened: 'sale of', 'vendita'."""
    words = text.split()
    for many in range(min(_EVENTS, len(words) - 1), 0, -1):
        said = folded(" ".join(words[:many]).strip(":,.-"))
        known = said in say.events or said in say.titles
        if known or say.has("of-a-purchase", said) or say.has("of-a-sale", said):
            return " ".join(words[many:]).lstrip(":-, ")
    return text
