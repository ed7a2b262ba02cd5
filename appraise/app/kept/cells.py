"""What a list says of a piece that one owns in few cells."""

from __future__ import annotations

from collections.abc import Sequence

from appraise.base.dates import year_range
from appraise.collection.upkeep import Due

SOON = 90  # days within which something that is due is shown in the table
DUE_WORDS = {"look": "look", "loan": "back", "return": "return", "origin": "origin"}


def years(dated: str) -> str:
    """The years of a date in few cells: '1855-62'."""
    if not dated:
        return ""
    first, last = year_range(dated, 0)
    if first == last:
        return str(first)
    if first and last and first // 100 == last // 100:
        return f"{first}-{last % 100:02}"
    return f"{first or ''}-{last or ''}"


def due_word(dues: Sequence[Due]) -> str:
    """What presses most, in few cells; empty where nothing is due soon."""
    if not dues or dues[0].left > SOON:
        return ""
    first = dues[0]
    word = DUE_WORDS[first.sort]
    if first.on is None:
        return f"{word} now"
    return f"{word} now" if first.left <= 0 else f"{word} in {first.left} d"
