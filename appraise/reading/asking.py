"""Which checks make sense for a piece, and how far each part has been looked at."""

from collections.abc import Mapping

from appraise.knowledge.records import Check, Knowledge
from appraise.piece.records import Piece
from appraise.reading.evidence import makes_sense, told_otherwise

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
    return tuple(
        check
        for check in knowledge.checks.values()
        if piece.kind in check.kinds
        and (everything or check.risk != "conservator")
        and not told_otherwise(check, piece)
        and (check.id in piece.findings or _sensible(check, piece, chances))
    )


def _sensible(check: Check, piece: Piece, chances: Mapping[str, float]) -> bool:
    if not makes_sense(check, piece):
        return False
    return not check.only or max(chances.get(word, 1.0) for word in check.only) >= LIKELY


def progress(piece: Piece, checks: tuple[Check, ...]) -> dict[str, tuple[int, int]]:
    """By part: checks answered (or passed over with 'cannot tell'), of those that apply."""
    counts: dict[str, tuple[int, int]] = {}
    for check in checks:
        done, of = counts.get(check.part, (0, 0))
        counts[check.part] = (done + (check.id in piece.findings), of + 1)
    return counts
