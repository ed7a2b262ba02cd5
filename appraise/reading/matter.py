"""What lies there, before it is judged: a picture in a case, or something else."""

from dataclasses import replace

from appraise.knowledge.records import UNJUDGED, Knowledge
from appraise.records.piece import UNTOLD, Piece

CASED = "cased"
CONTENT = "piece.content"
EMPTY = ("nothing", "package")
NOT_JUDGED = ("painting", "keepsake", "fired")


def as_it_lies(piece: Piece) -> Piece:
    """The piece with its kind by what lies in the case, where that was noted."""
    content = piece.found(CONTENT)
    if piece.kind == "cased" and content in EMPTY:
        return replace(piece, kind="empty-case", images=())
    if piece.kind == "cased" and content in NOT_JUDGED:
        return replace(piece, kind="other", images=())
    return piece


def judged(piece: Piece) -> bool:
    """Whether there is a reading of it as one piece."""
    return piece.kind not in UNJUDGED and not bare(piece)


def bare(piece: Piece) -> bool:
    """Whether nothing says what it is: no kind but the usual one, no answer, size or writing."""
    told = (finding for finding in piece.findings.values() if finding.answer != UNTOLD)
    return piece.kind == CASED and not (
        any(True for _ in told)
        or piece.measured
        or piece.named_format
        or piece.writings
        or any(image.findings for image in piece.images)
    )


def content_of(piece: Piece, knowledge: Knowledge) -> str:
    """What was noted as lying in the case, in words; empty for nothing noted."""
    check = knowledge.checks.get(CONTENT)
    place = check.index(piece.found(CONTENT)) if check is not None else -1
    return check.answers[place].says if check is not None and place >= 0 else ""
