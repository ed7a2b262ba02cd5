"""The drawing beside the answers: of how to look, of the answer given, or of the one pointed at."""

from collections.abc import Callable, Iterator
from functools import cache, lru_cache

from appraise.app.examine.state import NUMBERED, Examination
from appraise.app.lines import EMPTY, Line, beside, clip, length, line
from appraise.app.marks import Marks
from appraise.base.cells import ROWS, cells, fitting
from appraise.knowledge.figures import drawing, names

WIDE, LEAST = 50, 30  # cells of both from which one is drawn, and that the answers keep
SIZES = (12, ROWS, 6)  # lines of cells, the largest first
GAP = 2
WIDEST = 36  # cells
BLANKS = " \u2800"

Block = list[Line]


def pictured(
    exam: Examination, answers: Callable[[int], Block], marks: Marks, width: int
) -> Iterator[Block]:
    """The answers with the drawing at their right, the largest first, and last without one.

    Args:
        exam: What is examined.
        answers: Gives the answers in lines of at most so many cells, the last line empty.
        marks: The signs to draw with.
        width: The cells of both.
    """
    found = shown(exam)
    for rows in SIZES if found and width >= WIDE else ():
        drawn = _captioned(exam, rows, marks)
        across = max(map(length, drawn))
        room = width - across - GAP
        if room >= LEAST:
            left = answers(room)[:-1]
            tall = max(len(left), len(drawn))
            yield [*beside(left, drawn, (room, across), tall, " " * GAP), EMPTY]
    yield answers(width)


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
    first, last = _filled(drawings, *size, marks.grain)
    drawn = [line((row[first:last], "bar")) for row in _cells(name, *size, marks.grain)]
    told = clip(says, last - first - 2, marks)
    words = line((number, "key"), f" {told}" if number else told)
    lead = " " * max(0, (last - first - length(words)) // 2)
    return [*drawn, line(lead, *words)]


def _filled(drawings: tuple[str, ...], across: int, rows: int, grain: str) -> tuple[int, int]:
    """From which column to which any of the drawings has a dot."""
    columns = [
        place
        for name in drawings
        for row in _cells(name, across, rows, grain)
        for place, cell in enumerate(row)
        if cell not in BLANKS
    ]
    return min(columns), max(columns) + 1


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
    answers = enumerate(exam.answers[:NUMBERED], start=1)
    lead = "what is meant" if exam.check.defect else "how to look"
    found = [("", exam.check.figure, lead, "")]
    found += [(str(n), one.figure, one.says, one.id) for n, one in answers]
    return [one for one in found if one[1] in _there()]


@cache
def _there() -> frozenset[str]:
    """The drawings that there are: a row of the user's own may name another one."""
    return frozenset(names())


@lru_cache(maxsize=64)
def _cells(name: str, across: int, rows: int, grain: str) -> tuple[str, ...]:
    return tuple(cells(drawing(name), across, rows, grain))
