"""Word patterns, as the knowledge files write them, and by which words they begin.

gutta percha          these words in a row
whole|full plate      one word or the other
hand? coloured        the word before '?' may be absent
not .. original       up to four small words may stand between (is, very, been, red ...)
union ... soldiers    up to eight words of any sort, within the sentence
@gone|off from        any word of the group 'gone' (which is a reading of it), or 'off'
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import field

from appraise.base.dataclass import dataclass
from appraise.knowledge.wordings import LAYERS, Phrase, Term

SMALL, WIDE, AHEAD = "..", "...", ">"
MOST = {SMALL: 4, WIDE: 8, AHEAD: 0}
ERA = "era"
TONGUES = ("tongue", "tongue-state")


@dataclass(frozen=True, slots=True)
class WordIndex:
    """The words of all patterns. It follows from terms and phrases alone.

    Attributes:
        begins: By a first word the places, among all phrases and then all terms, of those that
            have a pattern which may begin with it.
        known: Every word that stands in some pattern, but for those of the small fields.
    """

    begins: Mapping[str, tuple[int, ...]] = field(default_factory=dict)
    known: tuple[str, ...] = ()


def word_index(phrases: Iterable[Phrase], terms: Iterable[Term]) -> WordIndex:
    """The words of some phrases and terms; 20 ms for all of them."""
    begins: dict[str, dict[int, None]] = {}
    known: dict[str, None] = {}
    rows: list[Phrase | Term] = [*phrases, *terms]
    for at, one in enumerate(rows):
        small = isinstance(one, Term) and one.field in LAYERS["small"]
        for pattern in patterns_of(one):
            choices = choices_of(pattern)
            for word in first_words(choices):
                begins.setdefault(word, {})[at] = None
            if not small:
                known.update((word, None) for words in choices for word in words)
    plain = (word for word in known if word and word not in MOST)
    return WordIndex({word: tuple(places) for word, places in begins.items()}, tuple(plain))


def patterns_of(one: Phrase | Term) -> Sequence[str]:
    """The patterns of a phrase or term that are looked for in a text."""
    if isinstance(one, Phrase):
        return (*one.synonyms, *one.unless)
    if one.field in LAYERS["small"]:
        return one.synonyms if one.field == ERA else ()
    return (*(each for each in one.synonyms if not is_pair(each)), *one.brief)


def is_pair(pattern: str) -> bool:
    """Whether it names two terms that together mean a third: `<part> <state>`."""
    return pattern.startswith("<")


def choices_of(pattern: str) -> list[tuple[str, ...]]:
    """What may stand in each place of a pattern; '' where it may be empty."""
    choices: list[tuple[str, ...]] = []
    for piece in pattern.lower().split():
        words = tuple(piece.removesuffix("?").split("|"))
        choices.append((*words, "") if piece.endswith("?") else words)
    return choices


def first_words(choices: Iterable[Sequence[str]]) -> Iterator[str]:
    """The words with which a pattern may begin."""
    for words in choices:
        yield from (word for word in words if word and word not in MOST)
        if "" not in words:
            return
