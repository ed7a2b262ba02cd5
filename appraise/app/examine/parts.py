"""The parts of the piece, each with its mark: unseen, in order, doubtful, serious or odd."""

from __future__ import annotations

from appraise.app.examine.shown import Shown
from appraise.app.examine.state import ENOUGH, Examination
from appraise.app.lines import EMPTY, Line, line
from appraise.app.marks import DOUBT, ORDER, UNSEEN, WARN
from appraise.app.widgets.marked import ROLES, PartMark, rail
from appraise.reading.applying import progress
from appraise.records.piece import UNTOLD
from appraise.verdict import doubted_parts

SEVEREST = 3
MEANT = {ORDER: "in order", DOUBT: "doubtful", WARN: "serious or odd", UNSEEN: "not checked"}


def part_marks(exam: Examination) -> list[PartMark]:
    """Every part that is asked about, in its order, with how many answers it has."""
    states, done = states_of(exam), progress(exam.piece, exam.checks)
    return [
        PartMark(part, states[part], f"{done[part][0] or '':>2}", f"go_to_part('{part}')")
        for part in exam.parts
    ]


def place_of(exam: Examination) -> int:
    """The place of the part that is looked at; -1 where none is."""
    part = exam.check.part if exam.shown else ""
    return exam.parts.index(part) if part in exam.parts else -1


def rail_lines(exam: Examination, shown: Shown, width: int, height: int) -> list[Line]:
    """The rail: parts, how many answers there are, and what the marks mean."""
    marks = shown.marks
    drawn = rail(part_marks(exam), place_of(exam), width, height, marks)
    told = sum(one != UNTOLD for one in map(exam.piece.found, exam.piece.findings))
    word = "answer" if told == 1 else "answers"
    foot = [EMPTY, line("  ", (f"{told} {word}", "quiet"))]
    if exam.enough:
        foot.append(line("  ", (ENOUGH, "good")))
    foot += [EMPTY]
    foot += [
        line("  ", (marks.sign(one), ROLES[one]), (f" {MEANT[one]}", "quiet")) for one in MEANT
    ]
    return [EMPTY, *drawn, *foot] if len(drawn) + len(foot) < height else drawn


def states_of(exam: Examination) -> dict[str, str]:
    """Each part's mark: a fault or strong warning, a doubt, in order, or not looked at."""
    found = dict.fromkeys(exam.parts, UNSEEN)
    for check in exam.checks:
        answer = exam.piece.found(check.id)
        if answer and answer != UNTOLD:
            found[check.part] = ORDER
    if exam.verdict is None:
        return found
    reading = exam.verdict.reading
    for fault in reversed(reading.condition.faults):
        if fault.check.part in found:
            grave = fault.active or fault.step == SEVEREST
            found[fault.check.part] = WARN if grave else DOUBT
    for part in doubted_parts(reading, exam.verdict.warnings, exam.knowledge):
        if found.get(part) == ORDER:
            found[part] = DOUBT
    if reading.odd_one_out and reading.odd_one_out.part in found:
        found[reading.odd_one_out.part] = WARN
    return found
