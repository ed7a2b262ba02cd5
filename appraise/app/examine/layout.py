"""The whole Examine screen as lines, for any size of terminal."""

from __future__ import annotations

from appraise.app.examine.frames import package
from appraise.app.examine.panel import best_of, hundred, panel, states_of
from appraise.app.examine.purse import amount
from appraise.app.examine.question import question, top_half, warnings
from appraise.app.examine.shown import Shown
from appraise.app.examine.state import KNOWN_WORDS, Examination
from appraise.app.examine.strip import strip
from appraise.app.lines import EMPTY, Line, beside, clip, ends, inset, length, line, ruled
from appraise.app.marks import Marks
from appraise.reading.asking import progress

NARROW, WIDE, TALL = 72, 110, 34
PANELS = {"usual": 34, "wide": 50}
FRAME = 4  # lines of head, rules and progress


def screen(exam: Examination, shown: Shown, width: int, height: int) -> list[Line]:
    """Head, question and panel side by side, progress; narrow screens drop the panel."""
    marks = shown.marks
    rows = max(0, height - FRAME)
    across = 0 if width < NARROW else PANELS["wide" if width >= WIDE else "usual"]
    main = width - across - 1 if across else width
    left = inset(_left(exam, shown, main - 2, rows, bool(across)))
    done = progress(exam.piece, exam.checks)
    foot = strip(done, exam.parts, exam.check.part if exam.shown else "", width, marks)
    if not across:
        rule, last = ruled("", width, marks), ruled(exam.aside, width, marks)
        return [_head(exam, shown, width), rule, *[*left, *[EMPTY] * rows][:rows], last, foot]
    right = inset(panel(exam.verdict, shown, across - 2, rows))
    body = beside(left, right, (main, across), rows, marks.wall)
    return [
        _head(exam, shown, width),
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
    known = (f"[{KNOWN_WORDS[exam.how_known]}]", "strong")
    right = line((f"{piece.channel}  ", "quiet"), known, (price, ""), " ")
    if length(right) > width // 2:
        right = line(known, " ") if width >= 2 * len(known[0]) else EMPTY
    room = width - length(right) - 3
    title = clip(piece.title or "untitled piece", max(4, room), shown.marks)
    return ends(line(" ", (title, "head")), right, width)


def _left(exam: Examination, shown: Shown, width: int, rows: int, panelled: bool) -> list[Line]:
    marks = shown.marks
    if rows < TALL or not panelled:
        if panelled:
            return question(exam, marks, width, rows)
        summary = _summary(exam, shown, width)
        if rows < 12:
            summary = []
        return [*question(exam, marks, width, rows - len(summary), alone=True), *summary]
    top = top_half(exam, marks, width)
    below = warnings(exam, marks, width)
    room = rows - len(top) - len(below) - 2
    drawn = package(exam, marks, width, max(0, min(room, 14)))
    gap = rows - len(top) - len(drawn) - len(below)
    lead = 1 if gap > 1 else 0
    return [*top, *[EMPTY] * (gap - lead), *drawn, *[EMPTY] * lead, *below][:rows]


def _summary(exam: Examination, shown: Shown, width: int) -> list[Line]:
    """Two lines in place of the panel, for a screen that has no room for it."""
    verdict = exam.verdict
    if verdict is None:
        return [EMPTY, EMPTY]
    reading = verdict.reading
    chances = {**best_of(reading), **states_of(reading)}
    states = ", ".join(f"{word} {hundred(chance)}" for word, chance in chances.items())
    span = f"{reading.together.first}-{reading.together.last}"
    worth = verdict.worth
    if worth is not None and shown.money:
        low, middle, high = (amount(one) for one in (worth.low, worth.median, worth.high))
        told = f", worth {low} .. {middle} .. {high}"
        span += told if len(span + told) <= width else f", worth {middle}"
    return [line((clip(told, width, shown.marks), "strong")) for told in (states, span)]
