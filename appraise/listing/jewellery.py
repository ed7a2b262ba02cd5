"""Jewellery that a sitter wears, which is no housing: 'lady with gilt brooch, in leather case'.

A locket or brooch holds the image where it is said to ('tintype in a gold locket'), or where
nothing speaks against it. It is worn where the image has a case or a plate too large for jewellery,
and where it is told of the sitter: 'her brooch', 'wearing a locket', a gilt brooch on a lady.
"""

from collections.abc import Sequence
from collections.abc import Set as AbstractSet

from appraise.listing.vocabulary import Hit
from appraise.listing.words import Word

HOUSING, LOCKET = "case.material", "locket"
LARGE = ("ninth", "sixth", "quarter", "third", "half", "whole")
"""Plates that no locket, brooch or ring holds; common practice."""
NO_HOUSING = ("sleeve", LOCKET)
SITTERS = ("subject", "shows")
DESCRIBED = 4  # words between 'in' and a jewel
_IN = frozenset(("in", "inside", "into", "within"))
_OWN = frozenset(("her", "his", "their", "jewellery", "jewelry", "jewels"))
_WEARS = _OWN | frozenset(("wearing", "wears", "wore", "with", "w", "w/", "has"))
_PAINT = frozenset(
    ("gilt", "gilded", "tinted", "painted", "coloured", "colored", "highlighted", "touched",
     "enhanced", "picked", "heightened")
)  # fmt: skip
_JEWELS = frozenset(
    ("brooch", "chain", "ring", "rings", "earrings", "watch", "cross", "pin", "locket", "bracelet",
     "necklace", "buttons")
)  # fmt: skip
_JOINS = frozenset((",", ":", "and", "&", "/"))


def without_worn(
    hits: Sequence[Hit],
    sitters: Sequence[Hit],
    words: Sequence[Word],
    ends: Sequence[bool],
    small: AbstractSet[str],
) -> list[Hit]:
    """The things named in a text, but for jewellery that is told of the sitter.

    Args:
        hits: What is named, in the order of the text.
        sitters: Words for people.
        words: The words of the text.
        ends: Whether each ends a sentence.
        small: Fillers and adjectives, which stand between a word and what it is said of.
    """
    jewels = [hit for hit in hits if hit.term.field == HOUSING and hit.term.value == LOCKET]
    if not jewels:
        return list(hits)
    cased = any(
        (hit.term.field == HOUSING and hit.term.value not in NO_HOUSING)
        or (hit.term.field == "format" and hit.term.value in LARGE)
        for hit in hits
    )
    worn = {
        hit.first
        for hit in jewels
        if not _holds(hit, words) and (cased or _told_of(hit, sitters, words, ends, small))
    }
    return [hit for hit in hits if hit not in jewels or hit.first not in worn]


def _holds(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether 'in' leads to a jewel, through what describes it: 'in a small brass locket'."""
    for word in reversed(words[max(0, hit.first - DESCRIBED) : hit.first + 1]):
        if word.norm in _IN:
            return True
        if word.is_mark or word.norm in _JOINS or word.norm in _WEARS:
            return False
    return False


def _told_of(
    hit: Hit,
    sitters: Sequence[Hit],
    words: Sequence[Word],
    ends: Sequence[bool],
    small: AbstractSet[str],
) -> bool:
    """Whether a jewel is told of somebody named before it in the sentence."""
    first = next((at + 1 for at in range(hit.first - 1, -1, -1) if ends[at]), 0)
    before = [one for one in sitters if first <= one.first and one.last <= hit.first]
    people = [one for one in before if not _owner(words[one.last - 1], one, hit)]
    wears = _wears_before(hit, words, small)
    return wears in _OWN or (bool(people) and (bool(wears) or _paint_beside(hit, words)))


def _owner(word: Word, sitter: Hit, hit: Hit) -> bool:
    """Whether people only say whose a jewel was made for: 'ladies gold locket'."""
    return hit.first - sitter.last <= 1 and word.text.lower().endswith("s")


def _paint_beside(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether paint is told right before a jewel or after it: 'gold tinted brooch'."""
    near = [*words[max(0, hit.first - 2) : hit.first], *words[hit.last : hit.last + 2]]
    return any(word.norm in _PAINT for word in near)


def _wears_before(hit: Hit, words: Sequence[Word], small: AbstractSet[str]) -> str:
    """The word for wearing that leads to a jewel, through a list of such: 'with chain and ring'."""
    for word in reversed(words[max(0, hit.first - 6) : hit.first]):
        if word.norm in _WEARS:
            return word.norm
        if word.norm not in small and word.norm not in _JOINS | _PAINT | _JEWELS:
            return ""
    return ""
