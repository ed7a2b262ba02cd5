"""Word patterns, as knowledge files write them, walked word by word as a tree.

A pattern of groups of words stands for thousands of rows, and a text meets few of them: a place in
the tree is laid out when a text first comes to it.

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

SMALL, WIDE, AHEAD = "..", "...", ">"
MOST = {SMALL: 4, WIDE: 8, AHEAD: 0}

Walked = tuple[int, int, float, tuple[str, ...]]
Forms = Sequence[tuple[tuple[str, float], ...]]


Pattern = tuple[list[tuple[str, ...]], str]  # what may stand in each place, and what it means


@dataclass(slots=True, eq=False)
class Node:
    """A place in the tree: the words that may follow, and what ends here.

    Attributes:
        coming: Patterns with the place of each that comes next; None once laid out.
        next: The places after each word.
        gaps: The places after each gap; nothing ends there.
        ends: What the patterns that end here stand for.
    """

    coming: Sequence[tuple[Pattern, int]] | None = None
    next: dict[str, "Node"] = field(default_factory=dict)
    gaps: dict[str, "Node"] = field(default_factory=dict)
    ends: list[str] = field(default_factory=list)

    def lay_out(self) -> None:
        """Find what may follow; two threads that do it at once find the same."""
        if self.coming is None:
            return
        ends, words = _following(self.coming)
        shared: dict[tuple[tuple[int, int], ...], Node] = {}
        base = Node()
        for gaps, after in words.items():
            node = base
            for gap in gaps:
                node = node.gaps.setdefault(gap, Node())
            for word, coming in after.items():
                same = tuple((id(pattern), place) for pattern, place in coming)
                node.next[word] = shared.setdefault(same, Node(coming))
        self.next, self.gaps, self.ends = base.next, base.gaps, ends
        self.coming = None


@dataclass(frozen=True, slots=True)
class Ground:
    """The words of a text as patterns see them.

    Attributes:
        forms: For each word its readings, best first, with their likeness.
        small: Whether a small gap may pass over the word.
        wall: Whether no gap may pass over it.
        turn: Whether no wide gap may: a comma before another part.
        places: For each reading the places of the words that can be read so.
    """

    forms: Forms
    small: Sequence[bool]
    wall: Sequence[bool]
    turn: Sequence[bool]
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
    """Patterns with what each stands for."""

    def __init__(self) -> None:
        self._patterns: list[Pattern] = []
        self._root: Node | None = None

    def add(self, pattern: str, key: str) -> set[str]:
        """Add a pattern that stands for `key`; the words it uses."""
        choices = _choices(pattern)
        self._patterns.append((choices, key))
        self._root = None
        return {word for choice in choices for word in choice if word and word not in MOST}

    def root(self) -> Node:
        """The place before the first word, laid out."""
        if self._root is None:
            root = Node([(pattern, 0) for pattern in self._patterns])
            root.lay_out()
            self._root = root
        return self._root


Coming = dict[str, list[tuple[Pattern, int]]]


def _following(
    coming: Sequence[tuple[Pattern, int]],
) -> tuple[list[str], dict[tuple[str, ...], Coming]]:
    """What ends at a place, and behind which gaps which words may follow with what comes then."""
    ends: dict[str, None] = {}
    words: dict[tuple[str, ...], Coming] = {}
    for pattern, begin in coming:
        choices, key = pattern
        paths: list[tuple[int, tuple[str, ...]]] = [(begin, ())]
        while paths:
            place, gaps = paths.pop()
            if place == len(choices):
                ends[key] = None
                continue
            after = words.setdefault(gaps, {})
            for word in choices[place]:
                if not word:
                    paths.append((place + 1, gaps))
                elif word in MOST:
                    paths.append((place + 1, (*gaps, word)))
                else:
                    after.setdefault(word, []).append((pattern, place + 1))
    return list(ends), words


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
        if node.coming is not None:
            node.lay_out()
        if node.ends and place > start:
            found.append((kept or place, place, score, tuple(node.ends)))
        for gap, after in node.gaps.items():
            own = place if gap == AHEAD else kept
            for at in range(place, min(place + MOST[gap], size) + 1):
                wide = gap == WIDE and not ground.turn[at - 1]
                if at > place and (wall[at - 1] or not (wide or small[at - 1])):
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
