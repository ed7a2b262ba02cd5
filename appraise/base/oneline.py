"""Text of any origin as one plain line, and as a filter compares it."""

import json
import re
import unicodedata

_JOINERS = "\u200c\u200d"  # they hold letters of some scripts together
_UNSEEN = frozenset({"Cc", "Cf", "Cs", "Co", "Cn"})
# Controls but for line feed and tab, joiners and marks without width, marks that turn the reading
# direction, separators of lines, halves of characters, tags: general categories Cc, Cf, Zl, Zp, Cs.
_RAW = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\xad\u0600-\u0605\u061c\u06dd\u070f\u08e2\u180e\u200b-\u200f"
    "\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb\U000e0001-\U000e007f\ud800-\udfff]"
)


def visible(text: str) -> str:
    """A text as it may go to a terminal: what would drive it, or hide, stands as its JSON escape.

    Inside a JSON string the escape means what it stands for, so that documents lose nothing.
    """
    return _RAW.sub(lambda match: json.dumps(match[0])[1:-1], text)


def plain(text: str) -> str:
    """A text on one line: every blank one space, and no sign that cannot be seen.

    Left out are control characters, marks that turn the reading direction, halves of characters
    and code points that mean nothing (Unicode general categories Cc, Cf, Cs, Co, Cn).
    """
    words = " ".join(text.split())
    if words.isprintable():
        return words
    seen = (c for c in words if c in _JOINERS or unicodedata.category(c) not in _UNSEEN)
    return " ".join("".join(seen).split())


def folded(text: str) -> str:
    """Lower case without accents, single spaces: 'Früh  ÖRTEL' and 'fruh ortel' are one."""
    if text.isascii():
        return " ".join(text.lower().split())
    parts = unicodedata.normalize("NFKD", text)
    bare = "".join(each for each in parts if not unicodedata.combining(each))
    return " ".join(bare.casefold().split())


def counted(many: int, what: str) -> str:
    """So many of a thing: '1 piece', '3 pieces'."""
    return f"{many:,} {what}" if many == 1 else f"{many:,} {what}s"
