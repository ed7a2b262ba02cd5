"""What stands beside question and verdict where there is room: findings so far, similar sales."""

from __future__ import annotations

import re

from appraise.app.examine.figure import apart
from appraise.app.examine.shown import Shown
from appraise.app.examine.state import Examination
from appraise.app.lines import EMPTY, Line, clip, does, fill, line
from appraise.app.marks import Marks
from appraise.documents.words import KNOWN, amount
from appraise.knowledge.records import Check
from appraise.records.piece import UNTOLD

FIGURES = 17  # cells for the two amounts beside a title
NEAREST = ("similar in your log", "similar in log", "similar")
NEXT = 3
PHOTO = 14  # lines
LEAST = 3  # lines from which findings are told at all


def findings(exam: Examination, marks: Marks, width: int, rows: int) -> list[Line]:
    """What was found, the last one first, each a line that leads to its check."""
    out = []
    for name, finding in reversed(list(exam.piece.findings.items())):
        check = exam.knowledge.checks.get(name)
        if check is None or finding.answer == UNTOLD:
            continue
        place = check.index(finding.answer)
        says = check.answers[place].says if place >= 0 else finding.answer
        known = "" if finding.known == "in-hand" else f", {KNOWN[finding.known]}"
        lead, says = _words(check, says, place)
        told = clip(f"{says}{known}", max(4, width - len(lead) - 1), marks)
        row = fill(line((f"{lead} ", "quiet"), told), width)
        out.append(does(row, f"go_to_check('{name}')"))
    if rows < LEAST or not out:
        return []
    left = len(out) - (rows - 1)
    shown = out if left <= 0 else [*out[: rows - 2], line((f"and {left + 1} more", "quiet"))]
    return [line(("found so far", "head")), *shown]


def _words(check: Check, says: str, place: int) -> tuple[str, str]:
    """What a finding is about, and what was found.

    The name of a fault stands before its degrees alone: where it was looked for and is absent, the
    answer speaks of the part. A bare yes or no stands behind its question.
    """
    first = re.split(r"\W", says, maxsplit=1)[0].lower()
    if check.defect is not None:
        absent = place == 0 and first not in ("none", "no")
        return f"{check.part if absent else check.defect.name}:", says
    return (check.ask if first in ("yes", "no") else f"{check.part}:"), says


def similar(exam: Examination, shown: Shown, width: int) -> list[Line]:
    """The nearest entries: what was logged, and what that makes for this piece."""
    estimate = exam.verdict.estimate if exam.verdict else None
    if not shown.money or estimate is None or not estimate.comparables:
        return []
    room = width - FIGURES
    head = next((one for one in NEAREST if len(one) <= room), "")
    out = [line((f"{head:<{room}}", "head"), ("   paid  adjusted", "quiet"))]
    for one in estimate.comparables:
        title = clip(shown.titles.get(one.id, one.id), room - 1, shown.marks)
        figures = f" {amount(one.price):>6}", (f" {amount(one.adjusted):>9}", "strong")
        out.append(line(f"{title:<{room}}", *figures))
    return out


def beside(exam: Examination, shown: Shown, width: int, height: int) -> list[Line]:
    """The pane beside the verdict of a very wide screen."""
    drawn = apart(exam, shown.marks, width)
    photos = shown.photos(width, min(PHOTO, height // 3))
    top = [EMPTY, *photos, *(does(row, "point(1)") for row in drawn)]
    sold = similar(exam, shown, width)
    top += [*sold, EMPTY] if sold else []
    top += _next(exam, shown.marks, width)
    return [*top, *findings(exam, shown.marks, width, height - len(top))]


def _next(exam: Examination, marks: Marks, width: int) -> list[Line]:
    """The checks that tell most now, beside the one that is asked."""
    names = [name for name in exam.best if name != exam.at][:NEXT] if exam.current else []
    out = [line(("check next", "head"))] if names else []
    for name in names:
        told = clip(exam.knowledge.checks[name].ask, width, marks)
        out.append(does(fill(line(told), width), f"go_to_check('{name}')"))
    return [*out, EMPTY] if out else []
