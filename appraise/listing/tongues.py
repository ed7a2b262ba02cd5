"""Text in another language: which it is, and whether it tells of the condition."""

from dataclasses import dataclass

from appraise.listing.passage import Passage

FEWEST = 3  # different small words of a language from which a sentence is in it
SHARE = 0.2  # of the different words of the sentence


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
    """The language in which most of the foreign sentences are; None where all is English."""
    known = passage.vocabulary.tongues
    found: dict[str, list[Foreign]] = {}
    for first, last in _sentences(passage):
        norms = {word.norm for word in passage.words[first:last] if not word.is_mark}
        counts = {
            tongue: len(norms & small)
            for (field, tongue), small in known.items()
            if field == "tongue"
        }
        tongue, many = max(counts.items(), key=lambda one: one[1], default=("", 0))
        if many >= FEWEST and many >= SHARE * len(norms):
            states = known.get(("tongue-state", tongue), frozenset())
            told = Foreign(tongue, any(norm in states for norm in norms), first, last)
            found.setdefault(tongue, []).append(told)
    if not found:
        return None
    most = max(found.values(), key=len)
    worst = [one for one in most if one.condition]
    return (worst or most)[0]


def _sentences(passage: Passage) -> list[tuple[int, int]]:
    found, first = [], 0
    for place, end in enumerate(passage.ends):
        if end:
            found.append((first, place))
            first = place + 1
    found.append((first, len(passage.words)))
    return [(low, high) for low, high in found if low < high]
