"""Entities of web pages in a pasted text: '&quot;', '&frac34;', '&pound;' as the signs they are.

They are resolved once, at the entrance; what is then found is told by its place in the text as it
was handed in.
"""

import re
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace
from html import unescape

from appraise.listing.records import Claim, Flag, Listing

_ENTITY = re.compile(r"&(?:#\d{1,7}|#[xX][0-9a-fA-F]{1,6}|[a-zA-Z][a-zA-Z0-9]{1,31});")


@dataclass(frozen=True, slots=True)
class Unescaped:
    """A text without entities, and the way back to the text as it was handed in.

    Attributes:
        text: Without entities.
        original: As handed in.
        ends: Places in `text` after each sign that was an entity.
        begins: Places in `text` before each.
        shifts: How many more characters of the original lie before each place of `ends`.
    """

    text: str
    original: str
    begins: Sequence[int] = ()
    ends: Sequence[int] = ()
    shifts: Sequence[int] = ()

    def start(self, place: int) -> int:
        """Where something that starts at a place of `text` starts in the original."""
        at = bisect_right(self.ends, place) - 1
        inside = at + 1 < len(self.begins) and self.begins[at + 1] < place
        if inside:
            place = self.begins[at + 1]
        return place + (self.shifts[at] if at >= 0 else 0)

    def end(self, place: int) -> int:
        """Where something that ends at a place of `text` ends in the original."""
        at = bisect_right(self.ends, place) - 1
        if at + 1 < len(self.begins) and self.begins[at + 1] < place:
            return self.ends[at + 1] + self.shifts[at + 1]
        return place + (self.shifts[at] if at >= 0 else 0)

    def back(self, listing: Listing) -> Listing:
        """What was read of `text`, told of the original."""
        if not self.ends:
            return listing
        return replace(
            listing,
            text=self.original,
            claims=tuple(self._claim(claim) for claim in listing.claims),
            flags=tuple(self._flag(flag) for flag in listing.flags),
        )

    def _claim(self, claim: Claim) -> Claim:
        start, end = self.start(claim.start), self.end(claim.end)
        return replace(claim, start=start, end=end, text=self.original[start:end])

    def _flag(self, flag: Flag) -> Flag:
        if flag.start is None or flag.end is None:
            return flag
        return replace(flag, start=self.start(flag.start), end=self.end(flag.end))


def unescaped(text: str) -> Unescaped:
    """A text with its entities resolved; one without a semicolon is none ('p&p')."""
    pieces: list[str] = []
    begins: list[int] = []
    ends: list[int] = []
    shifts: list[int] = []
    last = length = 0
    for match in _ENTITY.finditer(text):
        sign = unescape(match.group())
        if sign == match.group():
            continue
        pieces += [text[last : match.start()], sign]
        length += match.start() - last
        begins.append(length)
        length += len(sign)
        last = match.end()
        ends.append(length)
        shifts.append(last - length)
    if not ends:
        return Unescaped(text, text)
    return Unescaped("".join([*pieces, text[last:]]), text, begins, ends, shifts)
