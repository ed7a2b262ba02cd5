"""What web pages leave in a pasted text: entities, tags, and letters that only look like letters.

'&quot;', '&frac34;' and '&pound;' become the signs they are, '<br>' a line break, '<b>' nothing,
full-width and mathematical letters the plain ones (Unicode's own compatibility forms). That is
done once, at the entrance; what is then found is told by its place in the text as it was handed in.
"""

import re
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import replace
from html import unescape
from unicodedata import normalize

from appraise.base.dataclass import dataclass
from appraise.listing.records import Claim, Flag, Listing

_BREAKS = "p|div|li|br|tr|ul|ol|table|h[1-6]|hr|dd|dt|blockquote|section|article"
_MARKS = "b|i|u|a|em|strong|span|font|small|big|center|tbody|sup|sub|img|s|mark"
_WRITTEN = re.compile(
    r"(?P<entity>&(?:#\d{1,7}|#[xX][0-9a-fA-F]{1,6}|[a-zA-Z][a-zA-Z0-9]{1,31});)"
    rf"|(?P<breaks></?(?:{_BREAKS})(?:[ /][^<>]{{0,300}})?>)"
    r"|(?P<cell></t[dh]>)|(?P<opens><t[dh](?:[ /][^<>]{0,300})?>)"
    rf"|(?P<mark></?(?:{_MARKS})(?:[ /][^<>]{{0,300}})?>)"
    r"|(?P<nothing>[\u00ad\u200b-\u200d\u2060\ufeff])"
    r"|(?P<plus>\u2795)"
    r"|(?P<form>[\uff01-\uff5e\ufb00-\ufb06\U0001d400-\U0001d7ff])",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Unescaped:
    """A text without what web pages leave, and the way back to the text as it was handed in.

    Attributes:
        text: Without entities, tags and letters in disguise.
        original: As handed in.
        ends: Places in `text` after each sign that stands for one of them.
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
        at = bisect_left(self.begins, place) - 1
        inside = at >= 0 and self.ends[at] > place
        return (self.ends[at] if inside else place) + (self.shifts[at] if at >= 0 else 0)

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
    """A text with everything of web pages resolved; 'p&p' without a semicolon is no entity."""
    if text.isascii() and "&" not in text and "<" not in text:
        return Unescaped(text, text)
    pieces: list[str] = []
    begins: list[int] = []
    ends: list[int] = []
    shifts: list[int] = []
    last = length = 0
    for match in _WRITTEN.finditer(text):
        sign = _plain(match)
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


def _plain(match: re.Match[str]) -> str:
    """What stands for an entity, a tag or a letter."""
    written = match.group()
    if match["entity"]:
        return unescape(written)
    if match["form"]:
        return normalize("NFKC", written)
    if match["cell"]:
        return ": "  # 'Format: Quarter plate', a row of a table
    if match["plus"]:
        return "+"
    return "\n" if match["breaks"] else ""
