"""Misspelt words of the trade: found by likeness, guarded by words that are right as they are.

Optimal string alignment counts a swap of neighbours as one slip, which plain edit distance counts
as two; Jaro-Winkler forgives more in long words and favours a shared beginning (Winkler 1990).
"""

from collections.abc import Iterable
from collections.abc import Set as AbstractSet
from functools import cached_property

ENOUGH = 0.92  # Jaro-Winkler likeness from which a long word is taken for the known one
SHORTEST = 5  # letters from which one slip is forgiven
LONG = 8  # letters from which likeness counts as well
MOST = 24


class Speller:
    """Finds the known word that was meant.

    Args:
        known: The words of the trade, folded.
        plain: Sets of words that are never misspellings of them.
    """

    def __init__(self, known: Iterable[str], *plain: AbstractSet[str]) -> None:
        self._known = frozenset(known)
        self._plain = plain
        self._found: dict[str, tuple[str, float] | None] = {}

    @cached_property
    def _by_gap(self) -> dict[str, list[str]]:
        """Words by what is left of each without any one letter."""
        found: dict[str, list[str]] = {}
        for word in sorted(self._known):
            if len(word) >= SHORTEST and word.isalpha():
                for gap in _gaps(word):
                    found.setdefault(gap, []).append(word)
        return found

    @cached_property
    def _by_start(self) -> dict[str, list[str]]:
        """Long words by their first two letters."""
        found: dict[str, list[str]] = {}
        for word in sorted(self._known):
            if len(word) >= LONG and word.isalpha():
                found.setdefault(word[:2], []).append(word)
        return found

    def nearest(self, word: str) -> tuple[str, float] | None:
        """The known word that `word` (folded) was meant to be with its likeness, or None."""
        if not SHORTEST <= len(word) <= MOST or not word.isalpha():
            return None
        if any(word in some for some in self._plain):
            return None
        if word in self._found:
            return self._found[word]
        found = self._one_slip(word) or self._alike(word)
        if len(self._found) < 20_000:
            self._found[word] = found
        return found

    def _one_slip(self, word: str) -> tuple[str, float] | None:
        near = {known for gap in _gaps(word) for known in self._by_gap.get(gap, ())}
        if not near:
            return None
        from rapidfuzz.distance import OSA  # 7 ms, and most words are right as they are

        near = {
            known
            for known in near
            if set(word[:1]) <= set(known[:2]) and OSA.distance(word, known, score_cutoff=1) <= 1
        }
        return self._best(word, near)

    def _alike(self, word: str) -> tuple[str, float] | None:
        if len(word) < LONG - 1:
            return None
        near = self._by_start.get(word[:2], ())
        if not near:
            return None
        from rapidfuzz.distance import JaroWinkler

        return self._best(word, (k for k in near if JaroWinkler.similarity(word, k) >= ENOUGH))

    def _best(self, word: str, near: Iterable[str]) -> tuple[str, float] | None:
        from rapidfuzz.distance import JaroWinkler

        scored = [(JaroWinkler.similarity(word, known), known) for known in near]
        if not scored:
            return None
        score, known = max(scored)
        return known, round(min(score, 0.99), 3)


def _gaps(word: str) -> set[str]:
    """The word, and the word with any one letter left out; a swap shares one of them too."""
    return {word, *(word[:place] + word[place + 1 :] for place in range(len(word)))}
