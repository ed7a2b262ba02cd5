"""What a piece's findings tell the price model beside its damage: image quality, identification."""

from collections.abc import Iterator
from functools import lru_cache

from appraise.knowledge.records import Check, Knowledge
from appraise.records.piece import UNTOLD, Finding, Piece
from appraise.records.piece_words import IDENTIFIED

QUALITY, NAMED = "quality", "identified"
USUAL = 3.0  # the mark of a picture of the usual quality


def quality_of(piece: Piece, knowledge: Knowledge) -> float | None:
    """Image quality, 1 to 5 with 3 for the usual; None where nobody looked.

    The mean of the marks of what was found, each drawn towards the usual as far as it is not
    believed: a seller's "superb" moves it less than one's own eye. Of several images all count.
    """
    marks = []
    for check, finding in _told(piece, knowledge, QUALITY):
        mark = check.answers[check.index(finding.answer)].mark
        if mark is not None:
            believed = knowledge.weights.reliability[finding.known][check.sort]
            marks.append(USUAL + believed * (mark - USUAL))
    return round(sum(marks) / len(marks), 2) if marks else None


def identified_of(piece: Piece, knowledge: Knowledge) -> str:
    """How well the sitter is identified, a word of `IDENTIFIED`; '' where nobody looked."""
    found = [finding.answer for _, finding in _told(piece, knowledge, NAMED)]
    return max((one for one in found if one in IDENTIFIED), key=IDENTIFIED.index, default="")


def degree(identified: str) -> float | None:
    """A word of `IDENTIFIED` in equal steps from 0 to 1; None where it is none."""
    if identified not in IDENTIFIED:
        return None
    return IDENTIFIED.index(identified) / (len(IDENTIFIED) - 1)


def _told(piece: Piece, knowledge: Knowledge, feature: str) -> Iterator[tuple[Check, Finding]]:
    """The findings that tell a feature, those of every image."""
    telling = _telling(knowledge, feature)
    for findings in (piece.findings, *(one.findings for one in piece.images)):
        for name in [name for name in findings if name in telling]:
            check, finding = knowledge.checks[name], findings[name]
            told = finding.answer != UNTOLD and check.index(finding.answer) >= 0
            if told and piece.kind in check.kinds:
                yield check, finding


@lru_cache(maxsize=16)
def _telling(knowledge: Knowledge, feature: str) -> frozenset[str]:
    """The checks that tell a feature."""
    return frozenset(one.id for one in knowledge.checks.values() if one.feature == feature)
