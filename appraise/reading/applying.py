"""Which checks make sense for a piece, and how far each part was looked at."""

from collections import Counter
from collections.abc import Iterable, Mapping
from functools import lru_cache

from appraise.knowledge.records import Check, Knowledge
from appraise.reading.evidence import without_sense
from appraise.reading.formats import sizes_known
from appraise.records.piece import Piece

LIKELY = 0.05


def applying(
    piece: Piece, knowledge: Knowledge, chances: Mapping[str, float], everything: bool = False
) -> tuple[Check, ...]:
    """The checks that make sense for a piece, in the order of the files.

    Args:
        piece: Its kind and findings so far.
        knowledge: The checks.
        chances: Probability of each process, family and housing word.
        everything: Also those that only a conservator should make.
    """
    checks, comparing, limited = _checks_of(knowledge, piece.kind, everything)
    left_out = without_sense(piece, knowledge)
    for words, names in limited.items():
        if likely(words, chances) < LIKELY:
            left_out |= names
    left_out -= piece.findings.keys()
    if comparing and sizes_known(piece):
        left_out |= comparing
    return tuple([check for check in checks if check.id not in left_out])


@lru_cache(maxsize=64)
def _checks_of(
    knowledge: Knowledge, kind: str, everything: bool
) -> tuple[tuple[Check, ...], frozenset[str], Mapping[tuple[str, ...], frozenset[str]]]:
    """The checks of a kind in the order of the files.

    Beside them those that ask what two measures tell, and by words of processes and housings those
    that are limited to these.
    """
    checks = tuple(
        check
        for check in knowledge.checks.values()
        if kind in check.kinds and (everything or check.risk != "conservator")
    )
    limited = {
        words: frozenset(check.id for check in checks if check.only == words)
        for words in {check.only for check in checks if check.only}
    }
    return checks, frozenset(check.id for check in checks if check.sizes), limited


def likely(words: Iterable[str], chances: Mapping[str, float]) -> float:
    """P(the piece is of one of some processes or housings); 1 where none is named.

    Words that name no process or housing of the kind count as certain.
    """
    known = [chances[word] for word in words if word in chances]
    return min(1.0, sum(known)) if known else 1.0


def progress(piece: Piece, checks: tuple[Check, ...]) -> dict[str, tuple[int, int]]:
    """By part: checks answered (or passed over with 'cannot tell'), of those that apply."""
    found, of = piece.findings, Counter([check.part for check in checks])
    done = dict.fromkeys(of, 0)
    for part in [check.part for check in checks if check.id in found]:
        done[part] += 1
    return {part: (done[part], count) for part, count in of.items()}
