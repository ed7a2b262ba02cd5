"""The drawing beside the answers: of how to look, of the answer given, or of the one pointed at."""

from collections.abc import Callable, Iterator, Sequence

from textual.worker import get_current_worker

from appraise.app.examine.state import NUMBERED, Examination
from appraise.app.lines import EMPTY, Line, beside, length, line
from appraise.app.marks import Marks
from appraise.app.widgets.drawing import drawn, filled, known
from appraise.base.cells import ROWS, fitting
from appraise.knowledge.records import Answer, Check

LEAST = 24  # cells that the answers keep, unless all of them have room in fewer
SIZES = (12, ROWS, 6)  # lines of cells, the largest first
GAP = 2
WIDEST = 36  # cells

Block = list[Line]


def pictured(
    exam: Examination, answers: Callable[[int], Block], marks: Marks, width: int
) -> Iterator[Block]:
    """The answers with the drawing at their right, the largest first.

    Args:
        exam: What is examined.
        answers: Gives the answers in lines of at most so many cells, the last line empty.
        marks: The signs to draw with.
        width: The cells of both.
    """
    plain = answers(width)
    for rows in SIZES if shown(exam) else ():
        picture = _captioned(exam, rows, marks)
        across = max(map(length, picture))
        room = width - across - GAP
        if room < LEAST and (room < LEAST // 2 or len(answers(room)) > len(plain)):
            continue
        left = answers(room)[:-1]
        tall = max(len(left), len(picture))
        yield [*beside(left, picture, (room, across), tall, " " * GAP), EMPTY]


def apart(exam: Examination, marks: Marks, width: int) -> Block:
    """The drawing in a pane of its own, as large as it can be."""
    if not exam.asked or not shown(exam):
        return []
    rows = next((rows for rows in SIZES if fitting(width, rows)[1] == rows), SIZES[-1])
    return [*_captioned(exam, rows, marks), EMPTY]


def _captioned(exam: Examination, rows: int, marks: Marks) -> Block:
    """The drawing that stands there, and under its middle what it shows.

    Columns at its sides that are blank in every drawing of the check are left out, so that none
    moves the answers when another one is looked at.
    """
    found = shown(exam)
    if found is None:
        return []
    number, name, says = found
    size = fitting(WIDEST, rows)
    drawings = tuple(one[1] for one in drawn_of(exam))
    first, last = filled(drawings, *size, marks.grain)
    picture = [line((row[first:last], "bar")) for row in drawn(name, *size, marks.grain)]
    told = f"{number} {says}".strip()
    lead = " " * ((last - first - len(told)) // 2)
    return [*picture, line(lead, (told, "quiet"))] if len(told) <= last - first else picture


def draw_ahead(checks: Sequence[Check], marks: Marks) -> None:
    """Make the drawings of checks in every size, so that they are there when they are asked.

    A drawing takes 1 ms, once in a run, so a worker makes them.
    """
    for check in checks:
        drawings = tuple(one[1] for one in _drawn_of(check, check.answers[:NUMBERED]))
        for rows in SIZES if drawings and not get_current_worker().is_cancelled else ():
            filled(drawings, *fitting(WIDEST, rows), marks.grain)


def shown(exam: Examination) -> tuple[str, str, str] | None:
    """The drawing that stands there now: the answer's number or '', its name, what it shows."""
    found = drawn_of(exam)
    if not found:
        return None
    given = exam.piece.found(exam.at)
    places = [place for place, one in enumerate(found) if one[3] == given]
    number, name, says, _ = found[((places or [0])[0] + exam.pointed) % len(found)]
    return number, name, says


def drawn_of(exam: Examination) -> list[tuple[str, str, str, str]]:
    """What can be drawn at a check: number, name, words, and the answer's id.

    How to look comes first, or of damage what is meant by it.
    """
    return _drawn_of(exam.check, exam.answers[:NUMBERED])


def _drawn_of(check: Check, offered: Sequence[Answer]) -> list[tuple[str, str, str, str]]:
    lead = "what is meant" if check.defect else "how to look"
    found = [("", check.figure, lead, "")]
    found += [(str(n), one.figure, one.says, one.id) for n, one in enumerate(offered, start=1)]
    return [one for one in found if one[1] in known()]
