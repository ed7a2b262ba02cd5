"""A text ready for reading: its words, sentences, what they stand for and how they are said."""

from bisect import bisect_left
from collections.abc import Callable, Sequence
from functools import cached_property
from itertools import compress
from typing import Any, TypeVar

from appraise.base.dataclass import dataclass
from appraise.knowledge.records import Knowledge
from appraise.listing.jewellery import LOCKET, SITTERS, without_worn
from appraise.listing.patterns import Ground, Met
from appraise.listing.quoted import Quote, quotes
from appraise.listing.scope import Scope, scope_of
from appraise.listing.vocabulary import BRIEF, TYPED, Hit, Vocabulary, vocabulary
from appraise.listing.words import Word, cut, sentence_ends

_SILENT = (".", "\n")  # marks that say nothing where they end no sentence
MARKED = 12  # words after one for a mark that may be of it
_NAMED = ("process", "format", "case.material")
T = TypeVar("T")


@dataclass
class Passage:
    """A text with everything that is found in it once and used by every reader of a field.

    Attributes:
        text: As handed in.
        knowledge: The trade's knowledge.
        brief: Whether short forms count, as in a line typed by the user.
        masks: Stretches of the text that already mean something else: sizes, amounts, days.
    """

    text: str
    knowledge: Knowledge
    brief: bool = False
    masks: Sequence[tuple[int, int]] = ()

    @cached_property
    def vocabulary(self) -> Vocabulary:
        """The words of the trade."""
        return vocabulary(self.knowledge)

    @cached_property
    def words(self) -> list[Word]:
        """The words, numbers and marks; full stops and line breaks within a sentence are not."""
        return self._cut[0]

    @cached_property
    def ends(self) -> list[bool]:
        """Whether each word ends a sentence."""
        return self._cut[1]

    @cached_property
    def _cut(self) -> tuple[list[Word], list[bool]]:
        words = cut(self.text)
        ends = sentence_ends(self.text, words)
        kept = [end or word.norm not in _SILENT for word, end in zip(words, ends, strict=True)]
        return list(compress(words, kept)), list(compress(ends, kept))

    @cached_property
    def _starts(self) -> list[int]:
        return [word.start for word in self.words]

    @cached_property
    def sentence(self) -> list[int]:
        """The number of the sentence in which each word stands."""
        numbers, now = [], 0
        for end in self.ends:
            numbers.append(now)
            now += end
        return numbers

    @cached_property
    def ground(self) -> Ground:
        """The words as patterns see them."""
        return self.vocabulary.ground(self.words, self.ends, self.masked)

    @cached_property
    def met(self) -> Met:
        """Every pattern that the words bear out, by layer."""
        return self.vocabulary.met(self.ground, range(len(self.words)))

    @cached_property
    def _met_typed(self) -> Met:
        """The same of the layers of a typed line."""
        return self.vocabulary.met(self.ground, range(len(self.words)), typed=True)

    @cached_property
    def masked(self) -> frozenset[int]:
        """Places of the words under the masks."""
        return frozenset(place for low, high in self.masks for place in self.places(low, high))

    def places(self, start: int, end: int) -> range:
        """Places of the words between two places of the text, those they cut included."""
        first = self.at(start)
        if first and self.words[first - 1].end > start:
            first -= 1
        return range(first, self.at(end))

    @cached_property
    def things(self) -> list[Hit]:
        """What is named: processes, formats, parts, states and the like.

        Jewellery that a sitter wears is not among them: it is no housing.
        """
        hits = self.hits(BRIEF if self.brief else "thing")
        if not any(hit.term.value == LOCKET for hit in hits):
            return hits
        people = [one for one in (*self.hits("sitter"), *hits) if one.term.field in SITTERS]
        small = self.vocabulary.sets["filler"] | self.vocabulary.sets["adjective"]
        return without_worn(hits, people, self.words, self.ends, small)

    @cached_property
    def speech(self) -> list[Hit]:
        """Manners of speaking."""
        return self.hits("speech")

    @cached_property
    def scope(self) -> Scope:
        """What is denied and what is muted."""
        plural = [False] * len(self.words)
        for hit in self.things:
            named = hit.term.field in _NAMED or hit.term.value == "case"
            if named and self.words[hit.last - 1].norm.endswith("s"):
                plural[hit.last - 1] = True
        return scope_of(self.words, self.ends, self.speech, self.things, plural, self.brief)

    @cached_property
    def marks(self) -> list[tuple[int, int]]:
        """Where names of makers may stand: from a word for a mark to the end of its sentence."""
        found = []
        for hit in self.speech:
            if hit.term.field == "cue" and hit.term.value != "inscription":
                last = hit.last
                while last < len(self.words) and last < hit.last + MARKED and not self.ends[last]:
                    last += 1
                found.append(self.span(hit.first, max(last, hit.last)))
        return found

    def hits(self, layer: str) -> list[Hit]:
        """Hits of another layer, found once."""
        if layer not in self._found:
            met = self._met_typed if layer in TYPED else self.met
            self._found[layer] = self.vocabulary.longest(met.get(layer, ()))
        return self._found[layer]

    @cached_property
    def quotes(self) -> list[Quote]:
        """Its quoted words."""
        return list(quotes(self.text))

    def once(self, find: "Callable[[Passage], T]") -> T:
        """What a reader of a field finds in the text, found once and kept for the others."""
        if find not in self._kept:
            self._kept[find] = find(self)
        found: T = self._kept[find]
        return found

    @cached_property
    def _kept(self) -> dict[object, Any]:
        return {}

    @cached_property
    def _found(self) -> dict[str, list[Hit]]:
        return {}

    def claimed(self, hits: Sequence[Hit], *fields: str) -> list[Hit]:
        """Hits of some fields that claim something of the piece."""
        return [
            hit
            for hit in hits
            if hit.term.field in fields and self.scope.claims(hit.first, hit.last)
        ]

    def at(self, place: int) -> int:
        """The first word that starts at or after a place of the text."""
        return bisect_left(self._starts, place)

    def span(self, first: int, last: int) -> tuple[int, int]:
        """Start and end in the text of some words."""
        return self.words[first].start, self.words[last - 1].end
