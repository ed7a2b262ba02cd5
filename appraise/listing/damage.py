"""Damage told in words: a part and what happened to it, in either order, and how badly."""

from collections.abc import Sequence
from dataclasses import dataclass

from appraise.knowledge.wordings import Term
from appraise.listing.vocabulary import Hit, Vocabulary
from appraise.listing.words import SENTENCE_ENDS, Word

NEAR = 3  # words that may stand between a state and the part after it
FAR = 12  # words back over which a part is still the one spoken of
MISSING = "missing"


@dataclass(frozen=True, slots=True)
class Damage:
    """One thing said of the condition.

    Attributes:
        check: The defect's check id.
        step: '0' to '3'; '0' where damage is denied.
        first, last: Places of the first word and after the last one.
        score: Likeness of the words, 0 to 1.
        term: The term that it was read by.
    """

    check: str
    step: str
    first: int
    last: int
    score: float
    term: Term


def damage(words: Sequence[Word], hits: Sequence[Hit], known: Vocabulary) -> list[Damage]:
    """Everything that the hits say of the condition, in their order."""
    used: set[int] = set()
    found = [made for made in _missing(words, hits, known, used) if made]
    for place, hit in enumerate(hits):
        if hit.term.field == "defect":
            found.append(_made(words, hits, hit.term, hit, hit))
        elif hit.term.field == "state" and place not in used:
            term, other = _part_for(words, hits, place, known, used)
            if term is not None:
                found.append(_made(words, hits, term, hit, hits[other] if other >= 0 else hit))
    return sorted(found, key=lambda one: one.first)


def _missing(
    words: Sequence[Word], hits: Sequence[Hit], known: Vocabulary, used: set[int]
) -> list[Damage | None]:
    """Parts that are denied outright: 'no seal', 'without a clasp'."""
    found: list[Damage | None] = []
    for place, hit in enumerate(hits[:-1]):
        after = hits[place + 1]
        term = known.pairs.get((after.term.value, MISSING)) if _is_part(after) else None
        if hit.term.field != "denial" or term is None or after.first - hit.last > 1:
            continue
        following = hits[place + 2] if place + 2 < len(hits) else None
        if following and following.term.field == "state" and following.first - after.last < NEAR:
            continue
        used.add(place + 1)
        check, step = term.value.split()
        found.append(Damage(check, step, hit.first, after.last, after.score, term))
    return found


def _is_part(hit: Hit) -> bool:
    return hit.term.field == "part"


def _part_for(
    words: Sequence[Word], hits: Sequence[Hit], place: int, known: Vocabulary, used: set[int]
) -> tuple[Term | None, int]:
    """The defect that a state makes of the nearest fitting part, and the place of that part.

    A part that has no state yet is preferred, the one before to the one after.
    """
    state = hits[place]
    before = _reachable(words, hits, range(place - 1, -1, -1), state, FAR)
    after = _reachable(words, hits, range(place + 1, len(hits)), state, NEAR)
    order = sorted((*before[:2], *after[:1]), key=lambda at: (at in used, at > place))
    for at in order:
        term = known.pairs.get((hits[at].term.value, state.term.value))
        if term is not None:
            used.add(at)
            return term, at
    return known.pairs.get(("", state.term.value)), -1


def _reachable(
    words: Sequence[Word], hits: Sequence[Hit], places: range, state: Hit, reach: int
) -> list[int]:
    """Parts among the hits at `places` that no end of sentence parts from the state."""
    found = []
    for at in places:
        hit = hits[at]
        low, high = (hit.last, state.first) if hit.first < state.first else (state.last, hit.first)
        if high - low > reach or any(words[one].norm in SENTENCE_ENDS for one in range(low, high)):
            break
        if _is_part(hit):
            found.append(at)
    return found


def _made(words: Sequence[Word], hits: Sequence[Hit], term: Term, state: Hit, other: Hit) -> Damage:
    check, step = term.value.split()
    first, last = min(state.first, other.first), max(state.last, other.last)
    degree = _degree(hits, first, last)
    if degree:
        step = str(max(1, min(3, int(degree) if degree == "1" else int(step) + 1)))
    if _denied(words, hits, state, first):
        step = "0"
    return Damage(check, step, first, last, min(state.score, other.score), term)


def _degree(hits: Sequence[Hit], first: int, last: int) -> str:
    near = (h for h in hits if h.term.field == "degree" and first - 2 <= h.first <= last)
    return next((hit.term.value for hit in near), "")


def _denied(words: Sequence[Word], hits: Sequence[Hit], state: Hit, first: int) -> bool:
    for hit in hits:
        if hit.term.field == "denial" and first - NEAR <= hit.first < state.first:
            between = range(hit.last, state.first)
            return not any(words[at].norm in SENTENCE_ENDS for at in between)
    return False
