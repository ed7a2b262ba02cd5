"""A typed line while it is being read: the piece so far, and what became of which word."""

from collections.abc import Iterator
from dataclasses import field

from appraise.base.dataclass import dataclass
from appraise.listing.amounts import Amount
from appraise.listing.counted import damage_counts
from appraise.listing.numbers import bare_numbers, looks_like_year, number
from appraise.listing.passage import Passage
from appraise.listing.words import Word
from appraise.records.piece import Piece

FIRST_YEAR, LAST_YEAR = 1835, 1960  # a bare number between them is a year, not a price
TO_COME = 2100  # up to here one is a year where another number may be the price


@dataclass
class LineDraft:
    """A line while it is being read.

    Attributes:
        passage: The line, made ready for reading.
        piece: What it says so far.
        taken: Places of the words that have found their meaning.
        harmed: Those of them that tell of damage.
        understood: Start, words and meaning of each stretch of them.
        lost: Start and words of each stretch that was not understood.
        notes: What has to be said beside it, in whole sentences.
        said: Words of the knowledge by field, of a kind of which no check is asked.
        count: How many pieces it is about, as far as it says.
    """

    passage: Passage
    piece: Piece = field(default_factory=Piece)
    taken: set[int] = field(default_factory=set)
    harmed: set[int] = field(default_factory=set)
    understood: list[tuple[int, str, str]] = field(default_factory=list)
    lost: list[tuple[int, str]] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    said: dict[str, str] = field(default_factory=dict)
    count: int = 1

    @property
    def words(self) -> list[Word]:
        """The words of the line."""
        return self.passage.words

    def take(self, start: int, end: int, meaning: str) -> None:
        """Mark the words between two places of the text as understood."""
        self.understood.append((start, self.passage.text[start:end].strip(), meaning))
        self.taken.update(self.passage.places(start, end))

    def take_words(self, first: int, last: int, meaning: str) -> None:
        """Mark some words as understood."""
        self.take(*self.passage.span(first, last), meaning)

    def lose(self, start: int, end: int) -> None:
        """Mark the words between two places of the text as not understood."""
        self.lost.append((start, self.passage.text[start:end].strip()))
        self.taken.update(self.passage.places(start, end))

    def told(self) -> tuple[tuple[str, str], ...]:
        """What was understood, in the order of the line."""
        return tuple((words, meaning) for _, words, meaning in sorted(self.understood))

    def not_told(self) -> tuple[str, ...]:
        """What was not, in the order of the line."""
        return tuple(words for _, words in sorted(self.lost))

    @property
    def kind_told(self) -> bool:
        """Whether a word of the line was taken for a kind of piece."""
        return any(meaning.startswith("kind ") for _, _, meaning in self.understood)

    def free(self, start: int, end: int) -> bool:
        """Whether none of the words between two places of the text has a meaning yet."""
        return not set(self.passage.places(start, end)) & self.taken


def bare_amounts(draft: LineDraft, currency: str) -> Iterator[Amount]:
    """Numbers that mean nothing else, as amounts of the usual currency.

    Years of old photographs are none; a later year is none where another number may be the price.
    """
    harms = damage_counts(draft.passage, draft.passage.things)
    text, places = draft.passage.text, draft.passage.places
    free = [one for one in bare_numbers(text) if draft.free(one.start, one.end)]
    numbers = [one for one in free if not harms & set(places(one.start, one.end))]
    others = [one for one in numbers if not looks_like_year(one.written, FIRST_YEAR, TO_COME)]
    last = LAST_YEAR if not others else TO_COME
    for bare in numbers:
        money = number(bare.written, currency)
        year = looks_like_year(bare.written, FIRST_YEAR, last)
        if money is not None and money.amount > 0 and not year:
            yield Amount(money, bare.start, bare.end)
