"""Which checks make sense for a piece, and how far each part was looked at."""

from collections import Counter
from collections.abc import Iterable, Mapping
from functools import lru_cache

from appraise.knowledge.records import Check, Knowledge
from appraise.reading.evidence import makes_sense, told_otherwise
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
    checks, open_, limited = _checks_of(knowledge, piece.kind, everything)
    fits = {words: likely(words, chances) >= LIKELY for words in limited}
    left_out = {
        check.id
        for check in open_
        if (check.sizes and told_otherwise(check, piece))
        or (
            check.id not in piece.findings
            and not (fits[check.only] and (not check.when or makes_sense(check, piece)))
        )
    }
    return tuple([check for check in checks if check.id not in left_out])


@lru_cache(maxsize=64)
def _checks_of(
    knowledge: Knowledge, kind: str, everything: bool
) -> tuple[tuple[Check, ...], tuple[Check, ...], frozenset[tuple[str, ...]]]:
    """The checks of a kind in the order of the files, and those that do not always apply.

    Beside them the words of processes and housings to which these are limited.
    """
    checks = tuple(
        check
        for check in knowledge.checks.values()
        if kind in check.kinds and (everything or check.risk != "conservator")
    )
    open_ = tuple(check for check in checks if check.sizes or check.when or check.only)
    return checks, open_, frozenset(check.only for check in open_)


def likely(words: Iterable[str], chances: Mapping[str, float]) -> float:
    """P(the piece is of one of some processes or housings); 1 where none is named.

    Words that name no process or housing of the kind count as certain.
    """
    known = [chances[word] for word in words if word in chances]
    return min(1.0, sum(known)) if known else 1.0


def progress(piece: Piece, checks: tuple[Check, ...]) -> dict[str, tuple[int, int]]:
    """By part: checks answered (or passed over with 'cannot tell'), of those that apply."""
    parts = Counter([check.part for check in checks])
    done = Counter([check.part for check in checks if check.id in piece.findings])
    return {part: (done[part], of) for part, of in parts.items()}
