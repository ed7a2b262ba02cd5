"""Word patterns, as knowledge files write them, laid out as a tree that is walked word by word.

gutta percha          these words in a row
whole|full plate      one word or the other
hand? coloured        the word before '?' may be absent
not .. original       up to four small words may stand between (is, very, been, red ...)
union ... soldiers    up to eight words of any sort, within the sentence
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import product

SMALL, WIDE, AHEAD = "..", "...", ">"
MOST = {SMALL: 4, WIDE: 8, AHEAD: 0}

Walked = tuple[int, int, float, tuple[str, ...]]
Forms = Sequence[tuple[tuple[str, float], ...]]


@dataclass(slots=True)
class Node:
    """A place in the tree: the words that may follow, and what ends here."""

    next: dict[str, "Node"] = field(default_factory=dict)
    gaps: dict[str, "Node"] = field(default_factory=dict)
    ends: list[str] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Ground:
    """The words of a text as patterns see them.

    Attributes:
        forms: For each word its readings, best first, with their likeness.
        small: Whether a small gap may pass over the word.
        wall: Whether no gap may pass over it.
    """

    forms: Forms
    small: Sequence[bool]
    wall: Sequence[bool]

    def passes(self, gap: str, place: int) -> bool:
        """Whether a gap may pass over the word at `place`."""
        if place >= len(self.wall) or self.wall[place]:
            return False
        return gap == WIDE or self.small[place]


def spelt_out(pattern: str) -> Iterator[tuple[str, ...]]:
    """Every row of plain words and gaps that a pattern stands for; none ends in a gap."""
    choices: list[tuple[str, ...]] = []
    for piece in pattern.lower().split():
        words = tuple(piece.removesuffix("?").split("|"))
        choices.append((*words, "") if piece.endswith("?") else words)
    for choice in product(*choices):
        row = [word for word in choice if word]
        while row and row[-1] in MOST:
            row.pop()
        yield tuple(row)


def plant(root: Node, pattern: str, key: str) -> set[str]:
    """Grow the tree by a pattern that stands for `key`; the words it uses."""
    used: set[str] = set()
    for row in spelt_out(pattern):
        node = root
        for word in row:
            if word in MOST:
                node = node.gaps.setdefault(word, Node())
            else:
                node = node.next.setdefault(word, Node())
                used.add(word)
        if key not in node.ends:
            node.ends.append(key)
    return used


def walk(root: Node, ground: Ground, start: int) -> list[Walked]:
    """Every pattern that begins with the word at `start`.

    Returns:
        (end, reach, likeness, keys): the places after the last word and after the words that had
        to follow, the least likeness on the way and what the pattern stands for.
    """
    found: list[Walked] = []
    trail: list[tuple[Node, int, float, int]] = [(root, start, 1.0, 0)]
    while trail:
        node, place, score, kept = trail.pop()
        if node.ends and place > start:
            found.append((kept or place, place, score, tuple(node.ends)))
        for gap, after in node.gaps.items():
            own = place if gap == AHEAD else kept
            trail.append((after, place, score, own))
            for skipped in range(MOST[gap]):
                if not ground.passes(gap, place + skipped):
                    break
                trail.append((after, place + skipped + 1, score, own))
        if place < len(ground.forms):
            for word, likeness in ground.forms[place]:
                child = node.next.get(word)
                if child is not None:
                    trail.append((child, place + 1, min(score, likeness), kept))
    return found
