"""The text of a booking in an account, of which a part names the piece."""

import re
from collections.abc import Callable, Mapping
from typing import Any

from appraise.base.oneline import folded
from appraise.exchange.money_words import money_parts
from appraise.exchange.vocabulary import SheetWords

_BETWEEN = re.compile(r"\s[-\u2013|*]\s*|[:;]\s*|(?<!\d)/\s*|\s{2,}")
_COMMA = re.compile(r",\s+")
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
    for start, part in _parts(text, _BETWEEN):
        if not _names_piece(part, titles, say):
            continue
        if without_booking(part, say) != part and not say.begins_piece(part.strip()):
            named = (at for at, one in _parts(part, _COMMA) if _names_piece(one, titles, say))
            start += next(named, 0)
        return without_event(_from_piece(text[start:].strip(), say), say)
    return ""


def bill_of(text: str, say: SheetWords) -> tuple[str, dict[str, str]]:
    """A text without the amounts of a bill at its end, and those: 'hammer 230 + premium 57.50'."""
    starts = [match.end() for match in re.finditer(r"\s+", text[:_LONGEST])]
    for start in starts if len(re.findall(r"\d", text)) > 1 else ():
        told = money_parts(text[start:], say)
        if len(told) > 1:
            return re.sub(r"^\w+ \d+\s+(?=\D)", "", text[:start].rstrip(" ,;:-|*\u2013/")), told
    return text, {}


def _parts(text: str, between: re.Pattern[str]) -> list[tuple[int, str]]:
    """The parts of a text with where each begins."""
    starts = [0, *(match.end() for match in between.finditer(text))]
    return [(at, text[at:end]) for at, end in zip(starts, [*starts[1:], len(text)], strict=True)]


def _names_piece(part: str, titles: Callable[[str], Mapping[str, Any]], say: SheetWords) -> bool:
    named = part if say.of_title(part) else without_booking(part, say)
    return any(titles(named).get(name) for name in _NAMES)


def without_booking(text: str, say: SheetWords) -> str:
    """A text without the words that bookings begin with, which are of no piece."""
    words = text.split()
    for many in range(min(_EVENTS, len(words)), 0, -1):
        if say.has("booking", folded(" ".join(words[:many]).rstrip(":"))):
            return without_booking(" ".join(words[many:]), say)
    return text


def _from_piece(text: str, say: SheetWords) -> str:
    """A text that begins as bookings do, from what happened or from the piece on."""
    if without_booking(text, say) == text or say.begins_piece(text):
        return text
    words = text.split()
    for place, word in enumerate(words):
        said = folded(word.strip(":,.-"))
        rest = " ".join(words[place:])
        sold = "sold" in (say.event(said), say.titles.get(said))
        if sold or say.begins_piece(rest):
            return " ".join(words[place:])
    return text


def without_event(text: str, say: SheetWords) -> str:
    """A title without the words before it that say what happened: 'sale of', 'vendita'."""
    words = text.split()
    for many in range(min(_EVENTS, len(words) - 1), 0, -1):
        said = folded(" ".join(words[:many]).strip(":,.-"))
        known = said in say.events or said in say.titles
        if known or say.has("of-a-purchase", said) or say.has("of-a-sale", said):
            rest = " ".join(words[many:]).lstrip(":-, ")
            first, _, piece = rest.partition(" ")
            led = say.has("from", folded(first)) and say.begins_piece(piece)
            return piece if led else rest
    return text
