"""A second look at a filter that found nothing: the words it may have meant.

It reads the vocabulary of the whole log, so it belongs off the key path: in a worker with
a log of its own, or after Enter.
"""

import sqlite3
from collections.abc import Collection, Sequence

from appraise.base.dataclass import dataclass
from appraise.records.filter import FilterTerm, terms, written
from appraise.store.log import Log
from appraise.store.search import FIELDS, TEXT_FIELDS, WORD_FIELDS

_SHORTEST = 4  # letters; a shorter word has a neighbour everywhere
_LEAST = 0.75  # similarity from 0 to 1: one slip in four letters, two in eight


@dataclass(frozen=True, slots=True)
class Guess:
    """What a filter may have meant: the same with its words put right."""

    query: str


def guess(log: Log, query: str) -> Guess | None:
    """The filter with each word that the log does not know replaced by the nearest it does.

    Nearness is the optimal string alignment distance (Damerau, 1964, restricted), in which
    two letters changed about are one slip; a word half typed is held against beginnings.

    Returns:
        None when every word is known, or one has no near neighbour.

    Raises:
        InputError: when the filter cannot be understood.
    """
    read = terms(query, FIELDS)
    with log.snapshot():
        known = {
            field: _vocabulary(log.connection, field) for field in {each.field for each in read}
        }
    right = [_right(term, known[term.field]) for term in read]
    meant = [term for term in right if term is not None]
    return Guess(written(meant)) if len(meant) == len(read) and meant != list(read) else None


def _right(term: FilterTerm, known: Collection[str]) -> FilterTerm | None:
    """The term as it stands when the log knows it, mended when a neighbour is near."""
    if term.field not in ("", *WORD_FIELDS, *TEXT_FIELDS) or term.value == "?" or term.negated:
        return term
    parts = [
        word if _known(word, known, term.field) else _nearest(word, known)
        for word in term.value.split(_joint(term.field))
    ]
    if not all(parts):
        return None
    return FilterTerm(term.field, _joint(term.field).join(part for part in parts if part))


def _joint(field: str) -> str:
    return "," if field in WORD_FIELDS else " "


def _known(word: str, known: Collection[str], field: str) -> bool:
    if field in WORD_FIELDS:
        return any(each.startswith(word) for each in known)
    return any(word in each for each in known)


def _nearest(word: str, known: Collection[str]) -> str:
    if len(word) < _SHORTEST:
        return ""
    from rapidfuzz import process  # 20 ms
    from rapidfuzz.distance import OSA

    whole = process.extractOne(
        word, sorted(known), scorer=OSA.normalized_similarity, score_cutoff=_LEAST
    )
    if whole:
        return str(whole[0])
    begun = sorted({each[: len(word)] for each in known if len(each) > len(word)})
    start = process.extractOne(word, begun, scorer=OSA.normalized_similarity, score_cutoff=_LEAST)
    return str(start[0]) if start else ""


def _vocabulary(connection: sqlite3.Connection, field: str) -> Collection[str]:
    """The words that entries bear in a field, or anywhere."""
    if field in WORD_FIELDS:
        rows = connection.execute(f"SELECT DISTINCT {field} FROM shelf")
        return {word for (value,) in rows for word in str(value).split()}
    column = field if field in TEXT_FIELDS else "words" if not field else ""
    if not column:
        return ()
    found: set[str] = set()
    for (text,) in connection.execute(f"SELECT {column} FROM shelf"):
        found.update(_bare(text.split()))
    return found


def _bare(words: Sequence[str]) -> Sequence[str]:
    return [word.strip(".,;:!?()[]\"'") for word in words]
