"""The whole Examine screen as lines, for any size of terminal."""

from __future__ import annotations

from appraise.app.examine.band import band
from appraise.app.examine.frames import package
from appraise.app.examine.panel import panel
from appraise.app.examine.question import question, top_half, warnings
from appraise.app.examine.shown import Shown
from appraise.app.examine.state import Examination
from appraise.app.examine.strip import strip
from appraise.app.lines import EMPTY, Line, beside, clip, ends, inset, length, line, ruled
from appraise.app.marks import Marks
from appraise.documents.words import KNOWN
from appraise.reading.applying import progress

NARROW, WIDE, TALL = 72, 110, 32
PANELS = {"usual": 34, "wide": 50}
FRAME = 4  # lines of head, rules and progress


def screen(exam: Examination, shown: Shown, width: int, height: int) -> list[Line]:
    """Head, band, question and panel side by side, progress; narrow screens drop the panel."""
    marks = shown.marks
    told = inset(band(exam.verdict, shown, width - 2, height))
    rows = max(0, height - FRAME - len(told))
    across = 0 if width < NARROW else PANELS["wide" if width >= WIDE else "usual"]
    main = width - across - 1 if across else width
    left = inset(_left(exam, shown, main - 2, rows, bool(across)))
    done = progress(exam.piece, exam.checks)
    foot = strip(done, exam.parts, exam.check.part if exam.shown else "", width, marks)
    head = [_head(exam, shown, width), *told]
    if not across:
        rule, last = ruled("", width, marks), ruled(exam.aside, width, marks)
        return [*head, rule, *[*left, *[EMPTY] * rows][:rows], last, foot]
    right = inset(panel(exam.verdict, shown, across - 2, rows))
    body = beside(left, right, (main, across), rows, marks.wall)
    return [
        *head,
        _rule(marks, main, across, marks.down),
        *body,
        _rule(marks, main, across, marks.up, exam.aside),
        foot,
    ]


def _rule(marks: Marks, main: int, across: int, joint: str, told: str = "") -> Line:
    """A rule with a joint; it carries what is to be said in passing."""
    return (*ruled(told, main, marks), *line((f"{joint}{marks.rule * across}", "quiet")))


def _head(exam: Examination, shown: Shown, width: int) -> Line:
    """The title, then where it is met, how things are known, and what is asked."""
    piece = exam.piece
    asked = piece.asking
    price = "" if asked is None else f"  asked {asked.plain}" if shown.money else "  asked ..."
    known = (f"[{KNOWN[exam.how_known]}]", "strong")
    right = line((f"{piece.channel}  ", "quiet"), known, (price, ""), " ")
    if length(right) > width // 2:
        right = line(known, " ") if width >= 2 * len(known[0]) else EMPTY
    room = width - length(right) - 3
    title = clip(piece.title or "untitled piece", max(4, room), shown.marks)
    return ends(line(" ", (title, "head")), right, width)


def _left(exam: Examination, shown: Shown, width: int, rows: int, panelled: bool) -> list[Line]:
    marks = shown.marks
    if rows < TALL or not panelled:
        return question(exam, marks, width, rows, alone=not panelled)
    top = top_half(exam, marks, width)
    below = warnings(exam, marks, width)
    room = rows - len(top) - len(below) - 2
    drawn = package(exam, marks, width, max(0, min(room, 14)))
    gap = rows - len(top) - len(drawn) - len(below)
    lead = 1 if gap > 1 else 0
    return [*top, *[EMPTY] * (gap - lead), *drawn, *[EMPTY] * lead, *below][:rows]
