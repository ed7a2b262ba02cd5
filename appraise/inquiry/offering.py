"""Which of the checks that make sense to put before a person."""

from collections.abc import Callable, Mapping

from appraise.knowledge.records import Check
from appraise.reading.applying import likely
from appraise.records.piece import IN_HAND, OWN, UNTOLD, Piece

OFFERED = 0.28  # a check is offered where its part and its material are as likely as this
MATERIAL = "case.material"


def offered(check: Check, piece: Piece, chances: Mapping[str, float]) -> bool:
    """Whether to put a check that makes sense before a person.

    Its process or housing is likely, what it hangs on has been answered so (or, for the material
    of the case, is likely), and it needs no piece in hand where there is none. Who has called the
    process something is not asked at once whether it is so: what tells it is looked at instead.
    """
    if check.hand and piece.default_known != IN_HAND:
        return False
    if check.id == OWN and piece.called:
        return False
    if min(likely(check.only, chances), likely(check.suits, chances)) < OFFERED:
        return False
    return all(
        _answered(other, answers, piece, chances.get) for other, answers in check.when.items()
    )


def _answered(
    other: str, answers: tuple[str, ...], piece: Piece, chance: Callable[[str], float | None]
) -> bool:
    """Whether what a check hangs on has been answered so, or is likely."""
    told = piece.found(other)
    if told not in ("", UNTOLD):
        return told in answers
    return other == MATERIAL and sum(chance(word) or 0.0 for word in answers) >= OFFERED
