"""The controlled vocabulary of the knowledge files, made ready for matching."""

from collections.abc import Iterable, Iterator, Sequence
from collections.abc import Set as AbstractSet
from functools import lru_cache
from typing import NamedTuple

from appraise.base.collecting import without_collecting
from appraise.knowledge.patterns import ERA, TONGUES, is_pair
from appraise.knowledge.records import Knowledge
from appraise.knowledge.wordings import LAYERS, Phrase, Term
from appraise.listing.likeness import Speller
from appraise.listing.patterns import Ground, Key, Met, Tree, Walked, ground_of, walk
from appraise.listing.words import Word, fold

BRIEF = "brief"
ONE_OF_MANY = 0.999  # likeness of a plural to its singular
MOST_KEPT = 20_000  # words whose readings are kept
SHORTEST_STEM = 3  # letters; 'is' is no plural of 'i'
WARN, UNLESS = "warn", "unless"
TURNED = frozenset(
    ("mat", "preserver", "glass", "hinge", "hinges", "clasp", "clasps", "hook", "hooks", "pad",
     "velvet", "seal", "seals", "spine", "lid")
)  # fmt: skip
"""Parts that begin something new behind a comma."""
_SMALL = frozenset(("the", "a", "one", "its", "cover", "brass", "paper"))
_LAYER_OF = {name: layer for layer, names in LAYERS.items() for name in names}
TYPED = (BRIEF, "deal")  # layers that count only in a line typed by the user


Readings = tuple[tuple[str, float], ...]  # forms of a word, best first, with their likeness


class Hit(NamedTuple):
    """Words that stand for something.

    Attributes:
        term: The term.
        first, last: Places of the first word and after the last one.
        score: Likeness of the words to the term's own, 0 to 1.
    """

    term: Term
    first: int
    last: int
    score: float


class Warned(NamedTuple):
    """Words that a phrase of the knowledge files warns of."""

    phrase: str
    first: int
    last: int


class Vocabulary:
    """Terms and phrases of the knowledge files as two trees, with a speller over their words.

    One tree is of every layer that a text is read for, the other of what counts in a typed line.

    Attributes:
        terms, phrases: As in the knowledge.
        pairs: Terms by (part, state) that together mean damage, in the order of the files.
        sets: Folded words by small field: 'filler', 'adjective', 'item', 'relative' ...
        counts: Numbers by the words for them.
        groups: For each folded word the names, '@gone', by which patterns know its kin.
        tongues: Folded words of other languages, by (field, language); no word is taken for them.
        foreign: The same by language alone.
        known: Every word that stands in some pattern, first names aside.
    """

    def __init__(self, knowledge: Knowledge) -> None:
        self.terms = knowledge.terms
        self.phrases = knowledge.phrases
        self.pairs: dict[tuple[str, str], list[Term]] = {}
        self.sets: dict[str, set[str]] = {name: set() for name in LAYERS["small"]}
        self.counts: dict[str, int] = {}
        self.groups: dict[str, list[str]] = {}
        self._forms: dict[str, tuple[Readings, frozenset[str]]] = {}
        self.tongues: dict[tuple[str, str], frozenset[str]] = {}
        for term in knowledge.terms.values():
            self._learn(term)
        self.foreign: dict[str, frozenset[str]] = {}
        for (_, tongue), folded in self.tongues.items():
            self.foreign[tongue] = self.foreign.get(tongue, frozenset()) | folded
        given = self.sets["given"]
        small = set().union(*(some for name, some in self.sets.items() if name != "given"))
        self.known = small.union(knowledge.words.known)
        self._skips = self.sets["filler"] | self.sets["adjective"] | {"(", ")"}
        self._speller = Speller(self.sets["spelled"], self.known, given)
        rows: list[Phrase | Term] = [*self.phrases.values(), *self.terms.values()]
        begins = knowledge.words.begins
        self._tree = Tree(begins, lambda at: _patterns(rows[at]))
        self._typed = Tree(begins, lambda at: _typed_patterns(rows[at]))

    def _learn(self, term: Term) -> None:
        """What a term says other than by patterns."""
        if term.field in TONGUES:
            folded = {fold(word) for pattern in term.synonyms for word in pattern.split()}
            self.tongues[term.field, term.value] = frozenset(folded)
        elif term.field in self.sets:
            folded = {fold(word) for pattern in term.synonyms for word in pattern.split()}
            self.sets[term.field].update(folded)
            for word in folded if term.field == "group" else ():
                self.groups.setdefault(word, []).append(f"@{term.value}")
            if term.field == "count":
                self.counts.update(dict.fromkeys(folded, int(term.value)))
        else:
            for pattern in filter(is_pair, term.synonyms):
                self._pair(pattern, term)

    def _pair(self, pattern: str, term: Term) -> None:
        """`<part> <state>`: two terms that together mean a third, in either order."""
        parts, states = (name.strip("<>").split("|") for name in pattern.split())
        for part in parts:
            for state in states:
                self.pairs.setdefault((part, state), []).append(term)

    def forms(self, norm: str) -> Readings:
        """What a folded word may be read as: itself, its singular, the word that was meant."""
        return self._read(norm)[0]

    def _read(self, norm: str) -> tuple[Readings, frozenset[str]]:
        """The readings of a folded word with their likeness, and without."""
        found = self._forms.get(norm)
        if found is None:
            readings = self._readings(norm)
            found = readings, frozenset(form for form, _ in readings)
            if len(self._forms) < MOST_KEPT:
                self._forms[norm] = found
        return found

    def _readings(self, norm: str) -> Readings:
        readings = [(norm, 1.0)]
        for ending in ("s", "es"):
            stem = norm[: -len(ending)]
            if norm.endswith(ending) and len(stem) >= SHORTEST_STEM and stem in self.known:
                readings.append((stem, ONE_OF_MANY))
                break
        if norm not in self.known and len(readings) == 1:
            meant = self._speller.nearest(norm)
            readings.extend([meant] if meant else ())
            if meant is not None and meant[0].endswith("s") and meant[0][:-1] in self.known:
                readings.append((meant[0][:-1], meant[1]))
        kin = {
            name: score for form, score in reversed(readings) for name in self.groups.get(form, ())
        }
        return (*readings, *kin.items())

    def ground(
        self, words: Sequence[Word], ends: Sequence[bool], taken: frozenset[int] = frozenset()
    ) -> Ground:
        """Words ready for matching.

        Args:
            words: The words of a text.
            ends: Whether each is the end of a sentence.
            taken: Places of words that already mean something else.
        """
        norms = [word.norm for word in words]
        known = self._forms
        both = [known.get(norm) or self._read(norm) for norm in norms]
        for place in taken:
            both[place] = ((), frozenset())
        forms, names = zip(*both, strict=True) if both else ((), ())
        small = [norm in self._skips for norm in norms]
        return ground_of(forms, names, small, ends, _turns(norms))

    def met(self, ground: Ground, places: Iterable[int], typed: bool = False) -> Met:
        """Every pattern that begins at some places, by layer.

        Args:
            ground: The words.
            places: The places of the words at which a pattern may begin, in their order.
            typed: Whether of the layers of a typed line, else of all others.
        """
        tree, found = self._typed if typed else self._tree, Met()
        for place in places:
            for form, _ in ground.forms[place]:
                if form in tree.begins:
                    walk(tree, ground, place, found)
                    break
        return found

    def longest(self, met: Sequence[Walked], barred: AbstractSet[str] = frozenset()) -> list[Hit]:
        """The longest terms of what is met in a layer, from the left, without overlap.

        Args:
            met: What is met, in the order of the places at which it begins.
            barred: Ids of the terms that are left out.
        """
        rows = [one for one in met if not barred >= set(one[4])] if barred else met
        chosen: list[Walked] = []
        for row in rows:
            if not chosen or row[0] >= chosen[-1][1]:
                chosen.append(row)
            elif row[0] == chosen[-1][0] and row > chosen[-1]:
                chosen[-1] = row
        return [
            Hit(self.terms[key], place, end, score)
            for place, end, _, score, keys in chosen
            for key in keys
            if key not in barred
        ]

    def warned(self, met: Sequence[Walked]) -> list[Warned]:
        """Every phrase of what is met in a layer, the longest reading of each from each place."""
        longest: dict[tuple[str, int], int] = {}
        for place, end, _, _, keys in met:
            for key in keys:
                longest[key, place] = max(end, longest.get((key, place), 0))
        return [Warned(key, place, end) for (key, place), end in longest.items()]


def _patterns(one: Phrase | Term) -> Iterator[tuple[str, Key]]:
    """The patterns of a phrase or term for which every text is read, with their layers."""
    if isinstance(one, Phrase):
        yield from ((pattern, (WARN, one.id)) for pattern in one.synonyms)
        yield from ((pattern, (UNLESS, one.id)) for pattern in one.unless)
        return
    layer = "time" if one.field == ERA else _LAYER_OF[one.field]
    if layer not in (*TYPED, "small"):
        yield from ((each, (layer, one.id)) for each in one.synonyms if not is_pair(each))


def _typed_patterns(one: Phrase | Term) -> Iterator[tuple[str, Key]]:
    """The same of what counts in a typed line."""
    if isinstance(one, Phrase) or one.field in LAYERS["small"]:
        return
    layer = _LAYER_OF[one.field]
    names = [layer] if layer in TYPED else [BRIEF] if layer in ("thing", "sitter", "shown") else []
    for pattern in one.synonyms:
        yield from ((pattern, (name, one.id)) for name in names if not is_pair(pattern))
    yield from ((pattern, (BRIEF, one.id)) for pattern in one.brief)


def _turns(norms: Sequence[str]) -> list[bool]:
    """For each word whether it is a comma with another part right behind it: ', mat spotted'."""
    turns = [False] * len(norms)
    for at in (at for at, norm in enumerate(norms) if norm == ","):
        after = norms[at + 1 : at + 3]
        small = after[:1] and after[0] in _SMALL
        turns[at] = not TURNED.isdisjoint(after if small else after[:1])
    return turns


@lru_cache(maxsize=4)
def vocabulary(knowledge: Knowledge) -> Vocabulary:
    """The vocabulary of some knowledge, made once for each; 5 ms."""
    with without_collecting():
        return Vocabulary(knowledge)
