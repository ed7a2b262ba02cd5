"""Word patterns, as knowledge files write them, laid out as a tree that is walked word by word.

gutta percha          these words in a row
whole|full plate      one word or the other
hand? coloured        the word before '?' may be absent
not .. original       up to four filler words may stand between (is, very, been, quite ...)
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import product

MOST_FILLERS = 4
GAP = ".."


@dataclass(slots=True)
class Node:
    """A place in the tree: the words that may follow, and what ends here."""

    next: dict[str, "Node"] = field(default_factory=dict)
    gap: "Node | None" = None
    ends: list[str] = field(default_factory=list)


def spelt_out(pattern: str) -> Iterator[tuple[str, ...]]:
    """Every row of plain words and gaps that a pattern stands for."""
    choices: list[tuple[str, ...]] = []
    for piece in pattern.lower().split():
        words = tuple(piece.removesuffix("?").split("|"))
        choices.append((*words, "") if piece.endswith("?") else words)
    for row in product(*choices):
        yield tuple(word for word in row if word)


def plant(root: Node, pattern: str, key: str) -> set[str]:
    """Grow the tree by a pattern that stands for `key`; the words it uses."""
    used: set[str] = set()
    for row in spelt_out(pattern):
        node = root
        for word in row:
            if word == GAP:
                node.gap = node.gap or Node()
                node = node.gap
            else:
                node = node.next.setdefault(word, Node())
                used.add(word)
        if key not in node.ends:
            node.ends.append(key)
    return used


def walk(
    root: Node, forms: Sequence[Sequence[tuple[str, float]]], fillers: Sequence[bool], start: int
) -> list[tuple[int, float, tuple[str, ...]]]:
    """Every pattern that begins with the word at `start`.

    Args:
        root: The tree.
        forms: For each word of the text its readings, best first, with their likeness.
        fillers: Whether a gap may pass over the word.
        start: Where to begin.

    Returns:
        (end, likeness, keys): the place after the last word, the least likeness on the way and
        what the pattern stands for.
    """
    found: list[tuple[int, float, tuple[str, ...]]] = []
    trail: list[tuple[Node, int, float]] = [(root, start, 1.0)]
    while trail:
        node, place, score = trail.pop()
        if node.ends and place > start:
            found.append((place, score, tuple(node.ends)))
        if node.gap is not None:
            for skipped in range(MOST_FILLERS + 1):
                trail.append((node.gap, place + skipped, score))
                if place + skipped >= len(fillers) or not fillers[place + skipped]:
                    break
        if place < len(forms):
            for word, likeness in forms[place]:
                child = node.next.get(word)
                if child is not None:
                    trail.append((child, place + 1, min(score, likeness)))
    return found
