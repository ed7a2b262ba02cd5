"""The controlled vocabulary of the knowledge files, made ready for matching."""

from dataclasses import dataclass
from functools import lru_cache

from appraise.knowledge.records import Knowledge
from appraise.knowledge.wordings import Term
from appraise.listing.likeness import Speller
from appraise.listing.patterns import Node, plant, walk
from appraise.listing.words import Word, fold

_PAIR = 2


@dataclass(frozen=True, slots=True)
class Hit:
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


class Vocabulary:
    """Terms and phrases of the knowledge files as trees, with a speller over their words."""

    def __init__(self, knowledge: Knowledge) -> None:
        self.terms = knowledge.terms
        self.phrases = knowledge.phrases
        self.pairs: dict[tuple[str, str], Term] = {}
        self.fillers: frozenset[str] = frozenset()
        self._root, self._warn, self._unless = Node(), Node(), Node()
        words: set[str] = set()
        firm: set[str] = set()
        plain: set[str] = set()
        fillers: set[str] = set()
        for term in knowledge.terms.values():
            for pattern in term.synonyms:
                if term.field == "plain":
                    plain.update(fold(pattern).split())
                elif term.field == "filler":
                    fillers.update(fold(pattern).split())
                elif pattern.startswith("<"):
                    self._pair(pattern, term)
                else:
                    (firm if term.exact else words).update(plant(self._root, pattern, term.id))
        for phrase in knowledge.phrases.values():
            for pattern in phrase.synonyms:
                firm.update(plant(self._warn, pattern, phrase.id))
            for pattern in phrase.unless:
                firm.update(plant(self._unless, pattern, phrase.id))
        self.fillers = frozenset(fillers)
        self.known = frozenset(words | firm | fillers | plain)
        self._speller = Speller(words, self.known)

    def _pair(self, pattern: str, term: Term) -> None:
        """`<part> <state>`: two terms that together mean a third, in either order."""
        names = [name.strip("<>").split("|") for name in pattern.split()]
        if len(names) == _PAIR:
            for part in names[0]:
                for state in names[1]:
                    self.pairs[part, state] = term

    def forms(self, norm: str) -> tuple[tuple[str, float], ...]:
        """What a folded word may be read as: itself, its singular, the word that was meant."""
        readings = [(norm, 1.0)]
        if norm in self.known:
            if norm.endswith("s") and norm[:-1] in self.known:
                readings.append((norm[:-1], 1.0))
            return tuple(readings)
        for ending in ("s", "es"):
            if norm.endswith(ending) and norm[: -len(ending)] in self.known:
                return (*readings, (norm[: -len(ending)], 1.0))
        meant = self._speller.nearest(norm)
        return (*readings, meant) if meant else tuple(readings)

    def hits(self, words: list[Word], taken: set[int] | None = None) -> list[Hit]:
        """The longest terms in a row of words, from the left, without overlap.

        Args:
            words: The words of a text.
            taken: Places of words that already mean something else.
        """
        forms, skippable = self._ready(words, taken or set())
        found: list[Hit] = []
        place = 0
        while place < len(words):
            best = max(walk(self._root, forms, skippable, place), default=None)
            if best is None:
                place += 1
                continue
            end, score, keys = best
            found.extend(Hit(self.terms[key], place, end, score) for key in keys)
            place = end
        return found

    def _ready(
        self, words: list[Word], taken: set[int]
    ) -> tuple[list[tuple[tuple[str, float], ...]], list[bool]]:
        """Readings of each word, and which words a gap may pass over."""
        seen: dict[str, tuple[tuple[str, float], ...]] = {}
        forms: list[tuple[tuple[str, float], ...]] = []
        for place, word in enumerate(words):
            if place in taken:
                forms.append(())
                continue
            if word.norm not in seen:
                seen[word.norm] = self.forms(word.norm)
            forms.append(seen[word.norm])
        return forms, [word.norm in self.fillers for word in words]


@lru_cache(maxsize=4)
def vocabulary(knowledge: Knowledge) -> Vocabulary:
    """The vocabulary of some knowledge, made once for each."""
    return Vocabulary(knowledge)
