"""The left column while the next question is chosen: the answer just given, and no digits."""

from __future__ import annotations

from appraise.app.examine.state import NUMBERED, Examination
from appraise.app.lines import EMPTY, Line, fold, line
from appraise.app.marks import Marks
from appraise.records.piece import UNTOLD

CHOOSING = "Choosing the next question ..."
NO_CHECKS = "There are no checks for this kind of piece. i changes the kind."


def waiting(exam: Examination, marks: Marks, width: int) -> list[Line]:
    """What was answered last, in quiet, and that the next question is being chosen."""
    if not exam.checks:
        return [EMPTY, EMPTY, *fold(NO_CHECKS, width, role="quiet")]
    if not exam.shown:
        return [EMPTY, EMPTY, line((CHOOSING, "quiet"))]
    part = exam.knowledge.parts[exam.check.part].name
    out = [line((part, "quiet")), EMPTY, *fold(exam.check.ask, width, role="quiet"), EMPTY]
    given = exam.piece.found(exam.at)
    for answer in exam.check.answers[:NUMBERED]:
        out += _answer(answer.says, answer.id == given, marks, width)
    if given not in {answer.id for answer in exam.check.answers[:NUMBERED]}:
        place = exam.check.index(given)
        says = exam.check.answers[place].says if place >= 0 else "cannot tell"
        out += _answer(says, given != "", marks, width)
    elif given != UNTOLD:
        out.append(line("      ", ("cannot tell", "quiet")))
    return [*out, EMPTY, line((CHOOSING, "quiet"))]


def _answer(says: str, given: bool, marks: Marks, width: int) -> list[Line]:
    """An answer without its digit; the one given keeps its mark."""
    lead = f" {marks.here if given else ' '}    "
    return fold(says, width, lead, role="strong" if given else "quiet", lead_role="quiet")
