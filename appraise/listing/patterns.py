"""Word patterns, as knowledge files write them, laid out as a tree that is walked word by word.

gutta percha          these words in a row
whole|full plate      one word or the other
hand? coloured        the word before '?' may be absent
not .. original       up to four small words may stand between (is, very, been, red ...)
union ... soldiers    up to eight words of any sort, within the sentence
@gone|off from        any word of the group 'gone' (which is a reading of it), or 'off'
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import product
from threading import Lock

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


class Tree:
    """Patterns with what each stands for, laid out as far as texts have asked for them.

    Some 5,000 patterns take 300 ms to lay out, and a line of ten words meets few of them: a pattern
    waits under each word with which it may begin.
    """

    def __init__(self) -> None:
        self._root = Node()
        self._waiting: dict[str, list[tuple[str, str]]] = {}
        self._lock = Lock()

    def add(self, pattern: str, key: str) -> set[str]:
        """Add a pattern that stands for `key`; the words it uses."""
        choices = _choices(pattern)
        first = _first_words(choices)
        if any(word in MOST for word in first):
            _plant(self._root, pattern, key, "")
        else:
            for word in first:
                self._waiting.setdefault(word, []).append((pattern, key))
        return {word for choice in choices for word in choice if word and word not in MOST}

    def root(self, ground: Ground) -> Node:
        """The root of the tree, laid out for all patterns that begin with a word of a text."""
        found = ground.places.keys() & self._waiting.keys()
        if found:
            with self._lock:  # a text may be read while another thread reads one
                for word in found & self._waiting.keys():
                    for pattern, key in self._waiting[word]:
                        _plant(self._root, pattern, key, word)
                    del self._waiting[word]
        return self._root


def _first_words(choices: list[tuple[str, ...]]) -> list[str]:
    """The words and gaps with which a pattern may begin."""
    found: list[str] = []
    for choice in choices:
        found += filter(None, choice)
        if "" not in choice:
            break
    return found


def _plant(root: Node, pattern: str, key: str, first: str) -> None:
    """Grow a tree by those rows of a pattern that begin with a word; '': by all of them.

    The tree grows place by place, so that rows which begin alike are walked once.
    """
    heads: list[tuple[Node, tuple[str, ...]]] = [(root, ())]  # a node, and gaps after it
    for choice in _choices(pattern):
        grown: dict[tuple[int, tuple[str, ...]], tuple[Node, tuple[str, ...]]] = {}
        for node, gaps in heads:
            for word in choice:
                if node is not root or gaps or word in ("", first) or not first:
                    head = _stepped(node, gaps, word)
                    grown[id(head[0]), head[1]] = head
        heads = list(grown.values())
    for node, _ in heads:
        if node is not root and key not in node.ends:
            node.ends.append(key)


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
            for at in range(place, min(place + MOST[gap], size) + 1):
                if at > place and (wall[at - 1] or not (gap == WIDE or small[at - 1])):
                    break
                if after.gaps:
                    trail.append((after, at, score, own))
                elif at < size:
                    following = after.next
                    for word, likeness in forms[at]:
                        if word in following:
                            less = likeness if likeness < score else score
                            trail.append((following[word], at + 1, less, own))
        if place < size:
            following = node.next
            for word, likeness in forms[place]:
                if word in following:
                    less = likeness if likeness < score else score
                    trail.append((following[word], place + 1, less, kept))
    return found
