"""Word patterns, as knowledge files write them, laid out as a tree that is walked word by word.

gutta percha          these words in a row
whole|full plate      one word or the other
hand? coloured        the word before '?' may be absent
not .. original       up to four small words may stand between (is, very, been, red ...)
union ... soldiers    up to eight words of any sort, within the sentence
"""

from collections.abc import Iterator, Mapping, Sequence
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
        places: For each reading the places of the words that can be read so.
    """

    forms: Forms
    small: Sequence[bool]
    wall: Sequence[bool]
    places: Mapping[str, Sequence[int]]


def spelt_out(pattern: str) -> Iterator[tuple[str, ...]]:
    """Every row of plain words and gaps that a pattern stands for; none ends in a gap."""
    for choice in product(*_choices(pattern)):
        row = [word for word in choice if word]
        while row and row[-1] in MOST:
            row.pop()
        yield tuple(row)


def _choices(pattern: str) -> list[tuple[str, ...]]:
    """What may stand in each place of a pattern; '' where it may be empty."""
    choices: list[tuple[str, ...]] = []
    for piece in pattern.lower().split():
        words = tuple(piece.removesuffix("?").split("|"))
        choices.append((*words, "") if piece.endswith("?") else words)
    return choices


def plant(root: Node, pattern: str, key: str) -> set[str]:
    """Grow the tree by a pattern that stands for `key`; the words it uses.

    The tree grows place by place, so that rows which begin alike are walked once.
    """
    used: set[str] = set()
    heads: list[tuple[Node, tuple[str, ...]]] = [(root, ())]  # a node, and gaps after it
    for choice in _choices(pattern):
        grown: dict[tuple[int, tuple[str, ...]], tuple[Node, tuple[str, ...]]] = {}
        used.update(word for word in choice if word and word not in MOST)
        for node, gaps in heads:
            for word in choice:
                head = _stepped(node, gaps, word)
                grown[id(head[0]), head[1]] = head
        heads = list(grown.values())
    for node, _ in heads:
        if key not in node.ends:
            node.ends.append(key)
    return used


def _stepped(node: Node, gaps: tuple[str, ...], word: str) -> tuple[Node, tuple[str, ...]]:
    """Where a word leads from a node with gaps after it; gaps wait for the word behind them."""
    if not word:
        return node, gaps
    if word in MOST:
        return node, (*gaps, word)
    for gap in gaps:
        node = _grown(node.gaps, gap)
    return _grown(node.next, word), ()


def _grown(after: dict[str, Node], word: str) -> Node:
    """What stands after a word, made where there is nothing yet."""
    found = after.get(word)
    if found is None:
        found = after[word] = Node()
    return found


def walk(root: Node, ground: Ground, start: int) -> list[Walked]:
    """Every pattern that begins with the word at `start`.

    Returns:
        (end, reach, likeness, keys): the places after the last word and after the words that had
        to follow, the least likeness on the way and what the pattern stands for.
    """
    forms, small, wall, size = ground.forms, ground.small, ground.wall, len(ground.forms)
    found: list[Walked] = []
    trail: list[tuple[Node, int, float, int]] = [(root, start, 1.0, 0)]
    while trail:
        node, place, score, kept = trail.pop()
        if node.ends and place > start:
            found.append((kept or place, place, score, tuple(node.ends)))
        for gap, after in node.gaps.items():
            own = place if gap == AHEAD else kept
            trail.append((after, place, score, own))
            for at in range(place, min(place + MOST[gap], size)):
                if wall[at] or not (gap == WIDE or small[at]):
                    break
                trail.append((after, at + 1, score, own))
        if place < size:
            for word, likeness in forms[place]:
                child = node.next.get(word)
                if child is not None:
                    trail.append((child, place + 1, min(score, likeness), kept))
    return found
