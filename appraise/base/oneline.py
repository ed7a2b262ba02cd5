"""Text of any origin as one plain line, and as a filter compares it."""

import unicodedata

_JOINERS = "\u200c\u200d"  # they hold letters of some scripts together
_UNSEEN = frozenset({"Cc", "Cf", "Cs", "Co", "Cn"})


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
