"""Text in another language: which it is, and whether it tells of the condition."""

from collections.abc import Set as AbstractSet

from appraise.base.dataclass import dataclass
from appraise.listing.passage import Passage

FEWEST = 3  # different small words of a language from which a sentence is in it
SHARE = 0.2  # of the different words of the sentence
SHARE_OF_ALL = 0.75  # of that share, where no sentence is enough by itself


@dataclass(frozen=True, slots=True)
class Foreign:
    """A stretch in another language.

    Attributes:
        tongue: The language, as its name in English.
        condition: Whether words for damage stand in it.
        first, last: Places of its first word and after its last one.
    """

    tongue: str
    condition: bool
    first: int
    last: int


def foreign(passage: Passage) -> Foreign | None:
    """The language in which most of the foreign sentences are; None where all is English.

    A text of short sentences, none of which is enough by itself, is looked at as a whole.
    """
    quoted = {place for quote in passage.quotes for place in passage.places(quote.start, quote.end)}
    norms = {word.norm for word in passage.words}
    if all(len(norms & words) < FEWEST for words in passage.vocabulary.foreign.values()):
        return None
    found: dict[str, list[Foreign]] = {}
    for first, last in _sentences(passage):
        told = _told(passage, first, last, quoted, FEWEST, SHARE)
        if told is not None:
            found.setdefault(told.tongue, []).append(told)
    if not found:
        return _told(passage, 0, len(passage.words), quoted, FEWEST + 1, SHARE * SHARE_OF_ALL)
    most = max(found.values(), key=len)
    worst = [one for one in most if one.condition]
    return (worst or most)[0]


def _told(
    passage: Passage, first: int, last: int, quoted: AbstractSet[int], fewest: int, share: float
) -> Foreign | None:
    """The language of a stretch, if enough of its different words are of one."""
    known = passage.vocabulary.tongues
    norms = {
        passage.words[at].norm
        for at in range(first, last)
        if at not in quoted and not passage.words[at].is_mark
    }
    counts = {tongue: len(norms & words) for tongue, words in passage.vocabulary.foreign.items()}
    tongue, many = max(counts.items(), key=lambda one: one[1], default=("", 0))
    if many < fewest or many < share * len(norms):
        return None
    states = known.get(("tongue-state", tongue), frozenset())
    return Foreign(tongue, any(norm in states for norm in norms), first, last)


def _sentences(passage: Passage) -> list[tuple[int, int]]:
    found, first = [], 0
    for place, end in enumerate(passage.ends):
        if end:
            found.append((first, place))
            first = place + 1
    found.append((first, len(passage.words)))
    return [(low, high) for low, high in found if low < high]
