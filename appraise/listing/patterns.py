"""Word patterns of the knowledge (`appraise.knowledge.patterns`), walked word by word as a tree.

A pattern of groups of words stands for thousands of rows, and a text meets few of them: a place in
the tree is laid out when a text first comes to it.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import field
from itertools import product

from appraise.base.dataclass import dataclass
from appraise.knowledge.patterns import AHEAD, MOST, SMALL, WIDE, choices_of

Key = tuple[str, str]  # a layer, and what a pattern stands for in it
Walked = tuple[int, int, int, float, tuple[str, ...]]
Met = dict[str, list[Walked]]
Forms = Sequence[tuple[tuple[str, float], ...]]


Pattern = tuple[list[tuple[str, ...]], Key]  # what may stand in each place, and what it means


@dataclass(slots=True, eq=False)
class Node:
    """A place in the tree: the words that may follow, and what ends here.

    Attributes:
        coming: Patterns with the place of each that comes next; None once laid out.
        next: The places after each word.
        gaps: The places after each gap; nothing ends there.
        ends: What the patterns that end here stand for, by layer.
        reach: Every word that may follow, over gaps too; None where one of these is wide.
    """

    coming: Sequence[tuple[Pattern, int]] | None = None
    next: dict[str, "Node"] = field(default_factory=dict)
    gaps: dict[str, "Node"] = field(default_factory=dict)
    ends: Sequence[tuple[str, tuple[str, ...]]] = ()
    reach: AbstractSet[str] | None = None

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
        layers: dict[str, list[str]] = {}
        for layer, key in ends:
            layers.setdefault(layer, []).append(key)
        self.ends = [(layer, tuple(keys)) for layer, keys in layers.items()]
        self.reach = base.sum_up()
        self.next, self.gaps = base.next, base.gaps
        self.coming = None

    def sum_up(self) -> AbstractSet[str] | None:
        """Every word that may follow, over gaps too; None where one of these is wide."""
        behind = [after.sum_up() for after in self.gaps.values()]
        words = [one for one in behind if one is not None]
        bounded = WIDE not in self.gaps and len(words) == len(behind)
        self.reach = frozenset(self.next).union(*words) if bounded else None
        return self.reach


@dataclass(frozen=True, slots=True)
class Ground:
    """The words of a text as patterns see them.

    Attributes:
        forms: For each word its readings, best first, with their likeness.
        small: Whether a small gap may pass over the word.
        past: For each sort of gap and each place, the farthest place to which the gap leads.
        near: For each place the readings of its word, and of what small gaps lead to from there.
    """

    forms: Forms
    small: Sequence[bool]
    past: Mapping[str, Sequence[int]]
    near: Sequence[AbstractSet[str]]


def ground_of(
    forms: Forms,
    names: Sequence[AbstractSet[str]],
    small: Sequence[bool],
    walls: Sequence[bool],
    turns: Sequence[bool],
) -> Ground:
    """Words made ready for patterns.

    Args:
        forms: For each word its readings, best first, with their likeness.
        names: The same without likeness.
        small: Whether a small gap may pass over the word.
        walls: Whether no gap may pass over it.
        turns: Whether no wide gap may: a comma before another part.
    """
    last = len(forms) - 1
    narrow, wide = [0] * len(forms), [0] * len(forms)
    near = list(names)
    narrow_end = wide_end = last
    for place in range(last, -1, -1):
        if walls[place] or not small[place]:
            narrow_end = place
            if walls[place] or turns[place]:
                wide_end = place
        elif place < last:
            near[place] = names[place] | near[place + 1]
        far = place + MOST[SMALL]
        narrow[place] = far if far < narrow_end else narrow_end
        far = place + MOST[WIDE]
        wide[place] = far if far < wide_end else wide_end
    return Ground(forms, small, {SMALL: narrow, WIDE: wide, AHEAD: range(len(forms))}, near)


def spelt_out(pattern: str) -> Iterator[tuple[str, ...]]:
    """Every row of plain words and gaps that a pattern stands for; none ends in a gap."""
    for choice in product(*choices_of(pattern)):
        row = [word for word in choice if word]
        while row and row[-1] in MOST:
            row.pop()
        yield tuple(row)


class Tree:
    """Patterns with what each stands for; only what a text may begin is taken apart.

    Attributes:
        begins: By first word the numbers of the rows that have a pattern which may begin with it.
    """

    def __init__(
        self, begins: Mapping[str, Sequence[int]], row: Callable[[int], Iterable[tuple[str, Key]]]
    ) -> None:
        """A tree of rows: `row` gives the patterns of one, each with what it stands for."""
        self.begins = begins
        self._row = row
        self._rows: dict[int, list[Pattern]] = {}
        self._nodes: dict[str, Node] = {}

    def after(self, word: str) -> Node:
        """The place after a first word, one of `begins`."""
        if word not in self._nodes:
            rows = [pattern for at in self.begins[word] for pattern in self._patterns(at)]
            self._nodes[word] = Node(list(_begun(rows, word)))
        return self._nodes[word]

    def _patterns(self, at: int) -> list[Pattern]:
        if at not in self._rows:
            self._rows[at] = [(choices_of(pattern), key) for pattern, key in self._row(at)]
        return self._rows[at]


def _begun(patterns: Iterable[Pattern], word: str) -> Iterator[tuple[Pattern, int]]:
    """The patterns that may begin with a word, with the place of each that comes next."""
    for pattern in patterns:
        for place, words in enumerate(pattern[0], start=1):
            if word in words:
                yield pattern, place
            if "" not in words:
                break


Coming = dict[str, list[tuple[Pattern, int]]]


def _following(
    coming: Sequence[tuple[Pattern, int]],
) -> tuple[list[Key], dict[tuple[str, ...], Coming]]:
    """What ends at a place, and behind which gaps which words may follow with what comes then."""
    ends: dict[Key, None] = {}
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


def walk(tree: Tree, ground: Ground, start: int, met: Met) -> None:
    """Every pattern that begins with the word at `start`, added to what is met in each layer.

    That is (start, end, reach, likeness, keys): the places after the last word and after the words
    that had to follow, the least likeness on the way and what the pattern stands for.
    """
    forms, past, near, size = ground.forms, ground.past, ground.near, len(ground.forms)
    trail: list[tuple[Node, int, float, int]] = [
        (tree.after(word), start + 1, likeness, 0)
        for word, likeness in forms[start]
        if word in tree.begins
    ]
    while trail:
        node, place, score, kept = trail.pop()
        if node.coming is not None:
            node.lay_out()
        for layer, keys in node.ends:
            met.setdefault(layer, []).append((start, kept or place, place, score, keys))
        if place == size or (node.reach is not None and near[place].isdisjoint(node.reach)):
            continue
        for gap, after in node.gaps.items():
            own = place if gap == AHEAD else kept
            places = range(place, past[gap][place] + 1)
            if after.gaps:
                trail += [(after, at, score, own) for at in places]
                continue
            following = after.next
            for at in places:
                for word, likeness in forms[at]:
                    if word in following:
                        less = likeness if likeness < score else score
                        trail.append((following[word], at + 1, less, own))
        following = node.next
        for word, likeness in forms[place]:
            if word in following:
                less = likeness if likeness < score else score
                trail.append((following[word], place + 1, less, kept))
