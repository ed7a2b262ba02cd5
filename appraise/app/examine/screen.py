"""The panes of the Examine screen as lines."""

from __future__ import annotations

from appraise.app.examine.found import PHOTO, findings, similar
from appraise.app.examine.panel import panel
from appraise.app.examine.parts import part_marks, place_of
from appraise.app.examine.purse import MONEY, money_lines
from appraise.app.examine.question import question
from appraise.app.examine.rooms import Rooms
from appraise.app.examine.shown import Shown
from appraise.app.examine.state import Examination
from appraise.app.lines import EMPTY, Line, clip, ends, fold_to, length, line
from appraise.app.marks import DOUBT, WARN
from appraise.app.widgets.band import band, forms_of
from appraise.app.widgets.marked import strip
from appraise.documents.words import KNOWN, portrayal
from appraise.verdict import Verdict, pay_of
from appraise.verdict.headline import DOUBTFUL, ORDER

AIRY = 22  # lines of a pane from which its first one is blank
ROOMY = 8  # lines below a question from which a photo stands there
PANEL = 28  # lines that a panel takes before something else stands below it


def head(exam: Examination, shown: Shown, width: int, rows: int) -> list[Line]:
    """The title, then where it is met, how things are known, and what is asked."""
    piece = exam.piece
    asked = piece.asking
    price = "" if asked is None else f"  asked {asked}" if shown.money else "  asked ..."
    known = (KNOWN[exam.how_known], "strong")
    forms = [line((f"{piece.channel}  ", "quiet"), known, price), line(known, price), line(known)]
    right = next((one for one in forms if length(one) <= width // 2), EMPTY)
    title = clip(piece.title or "untitled piece", max(4, width - length(right) - 2), shown.marks)
    return [ends(line((title, "head")), right, width)]


def answer(exam: Examination, shown: Shown, width: int, rows: int) -> list[Line]:
    """The band: the verdict in its one sentence."""
    return verdict_band(exam.verdict, shown, width, rows)


def verdict_band(verdict: Verdict | None, shown: Shown, width: int, rows: int) -> list[Line]:
    """The band of a verdict; what to do about the price stands in it where it may be seen."""
    if verdict is None:
        return band((), "", width, rows, shown.marks)
    money = shown.money and shown.learnt
    told = forms_of(verdict.headline, pay_of(verdict).missing, money)
    return band(told, tone_of(verdict, shown), width, rows, shown.marks)


def tone_of(verdict: Verdict, shown: Shown) -> str:
    """The tone of the headline; a price above the limit is doubtful, where amounts may be seen."""
    tone, limit, asked = verdict.headline.tone, pay_of(verdict).limit, verdict.piece.asking
    if tone != ORDER or limit is None or asked is None or not (shown.money and shown.learnt):
        return tone
    over = asked.currency == limit.currency and asked.amount > limit.amount
    return DOUBTFUL if over else tone


def left(exam: Examination, shown: Shown, rooms: Rooms, width: int, height: int) -> list[Line]:
    """The question, and below it what has room nowhere else."""
    below = _alone(exam, shown, width) if rooms.alone else []
    below = [*_portrayed(exam, shown, width), *below]
    if not rooms.strip:
        aside = fold_to(exam.aside, width, 2, shown.marks) if exam.aside else []
        below = [*(line((row, "good")) for row in aside), *below]
    lead = [EMPTY] * (height >= AIRY)
    room = height - len(below) - len(lead)
    top = [*lead, *question(exam, shown.marks, width, room, bool(rooms.more))]
    told: list[Line] = []
    if not rooms.more and not rooms.alone:
        room = height - len(top) - len(below) - 1
        told = list(shown.photos(width, min(PHOTO, room))) if room >= ROOMY else []
        told += findings(exam, shown.marks, width, room - len(told))
    gap = height - len(top) - len(told) - len(below)
    return [*top, *[EMPTY] * max(0, gap), *told, *below]


def _portrayed(exam: Examination, shown: Shown, width: int) -> list[Line]:
    """Whether it suits the year that it is to portray, where one is named."""
    told = portrayal(exam.verdict.reading) if exam.verdict else ""
    return [line((row, "quiet")) for row in fold_to(told, width, 2, shown.marks)] if told else []


def right(exam: Examination, shown: Shown, width: int, height: int) -> list[Line]:
    """The verdict, and the similar sales where it leaves room and no other pane has them."""
    lead = [EMPTY] * (height >= AIRY)
    sold = [] if shown.apart else similar(exam, shown, width)
    room = height - len(lead)
    if len(sold) + 1 + PANEL <= room:
        top = panel(exam.verdict, shown, width, room - len(sold) - 1)
        return [*lead, *top, EMPTY, *sold]
    return [*lead, *panel(exam.verdict, shown, width, room)]


def _alone(exam: Examination, shown: Shown, width: int) -> list[Line]:
    """Where no panel stands beside: the first warning, and what to pay."""
    verdict = exam.verdict
    if verdict is None:
        return []
    out = []
    for one in verdict.warnings[:1]:
        mark, role = (WARN, "warn") if one.strong else (DOUBT, "doubt")
        more = f" and {len(verdict.warnings) - 1} more: " if len(verdict.warnings) > 1 else ""
        told = clip(one.says, max(1, width - len(more) - 3), shown.marks)
        key = ("w" if more else "", "key@open('why')")
        out.append(line((f"{mark} ", role), told, (more, "quiet"), key))
    return [*out, *money_lines(verdict, shown, width, MONEY)]


def foot(exam: Examination, shown: Shown, width: int, rows: int) -> list[Line]:
    """The parts in one line, where there is no rail; what is to be said in passing goes before."""
    if exam.aside:
        return [line((clip(exam.aside, width, shown.marks), "good"))]
    return [strip(part_marks(exam), place_of(exam), width, shown.marks)]
