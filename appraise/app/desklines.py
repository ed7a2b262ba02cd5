"""The desk as lines: three plain columns, or one under the other on a narrow screen."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from appraise.app.drafts import Glance
from appraise.app.lines import EMPTY, Line, clip, cut, ends, fill, fold, fold_to, length, line
from appraise.app.lots.summary import LotGlance, closing_lines
from appraise.app.marks import Marks
from appraise.base.logday import LogDay
from appraise.records.entry import Entry

SIDE_BY_SIDE = 72  # cells from which the columns stand side by side
NUMBERED = 9  # pieces that a digit can take up
PURPOSE = "For buying decisions only; not an appraisal for insurance, tax or estate."
DEMO = "A throw-away copy of the invented demo: no price in it was ever paid."
WORDS = {
    "bought": "paid",
    "sold": "sold for",
    "asking": "asked",
    "hammer": "hammer",
    "unsold": "unsold at",
    "refused": "refused at",
    "swap": "swapped",
    "gift": "given",
    "returned": "returned",
}


@dataclass(frozen=True, slots=True)
class Desktop:
    """What lies on the desk.

    Attributes:
        marks: The signs to draw with.
        today: The day for which prices are stated.
        currency: Of all prices.
        demo: Whether this is the invented demo.
        open: The pieces under examination, the one touched last first.
        lately: The last entries of the log.
        at: The piece that is marked.
        lots: The lots that are followed, the one that closes first on top.
        purse: What is left to spend, in one line; empty where there is no budget.
        wants: How many kept pieces want something, in one line; empty where none does.
    """

    marks: Marks
    today: date
    currency: str
    demo: bool
    open: Sequence[Glance]
    lately: Sequence[Entry]
    at: int
    lots: Sequence[LotGlance] = ()
    purse: str = ""
    wants: str = ""


def desk_lines(desk: Desktop, width: int, height: int) -> list[Line]:
    """The whole desk in `height` lines."""
    day = f"{desk.today.day} {desk.today:%B %Y}"
    right = f"prices in {desk.currency}   {day}" if width >= 40 else ""
    head = ends(line((" appraise", "head")), line((right, "quiet"), " "), width)
    rule = line((desk.marks.rule * width, "quiet"))
    purpose = DEMO if desk.demo else PURPOSE
    foot = [line(" ", (told, "quiet")) for told in fold_to(purpose, max(1, width - 2), 2)]
    if desk.wants:
        foot.insert(0, line(" ", (clip(desk.wants, max(1, width - 2), desk.marks), "doubt")))
    rows = max(0, height - 3 - len(foot))
    body = _beside(desk, width, rows) if width >= SIDE_BY_SIDE else _below(desk, width, rows)
    filled = [*body, *[EMPTY] * rows][:rows]
    return [cut(row, width) for row in (head, rule, EMPTY, *filled, *foot)][:height]


def _beside(desk: Desktop, width: int, rows: int) -> list[Line]:
    each = (width - 8) // 3
    columns = [column[:rows] for column in _columns(desk, each, rows)]
    out = []
    for place in range(max(map(len, columns))):
        cells = [column[place] if place < len(column) else EMPTY for column in columns]
        first, second, third = (fill(cell, each) for cell in cells)
        gap = ("   ", "")
        out.append(((" ", ""), *first, gap, *second, gap, *third))
    return out


def _below(desk: Desktop, width: int, rows: int) -> list[Line]:
    first, second, third = _columns(desk, max(1, width - 2), max(4, rows // 2))
    room = max(4, rows // 2)
    after, last = (second, third) if desk.lots else (third, second)
    return [((" ", ""), *row) for row in (*first[:room], EMPTY, *after, EMPTY, *last)]


def _columns(desk: Desktop, width: int, rows: int) -> tuple[list[Line], list[Line], list[Line]]:
    closing = closing_lines(desk.lots, desk.purse, width, rows, desk.marks)
    return _open(desk, width, rows), closing, _paid(desk, width)


def _open(desk: Desktop, width: int, rows: int) -> list[Line]:
    """What was I doing?"""
    out = [line(("on the table", "head")), EMPTY]
    if not desk.open:
        told = "Nothing is open. Press n and type what you see in one line, or paste a listing."
        return [*out, *fold(told, width)]
    most = max(1, (rows - 2) // 4)
    top = max(0, min(desk.at - most // 2, len(desk.open) - most))
    for place, one in enumerate(desk.open[top : top + most], start=top):
        here = place == desk.at
        sign = desk.marks.here if here else " "
        number = str(place + 1) if place < NUMBERED else " "
        first, *second = fold_to(one.title, max(1, width - 4), 2, desk.marks)
        role = "strong" if here else ""
        out.append(line(f"{sign} ", (number, "key"), " ", (first, role)))
        out += [line("    ", (text, role)) for text in second]
        many = "1 answer" if one.answers == 1 else f"{one.answers} answers"
        out += [line((f"    {many}, {one.day.day} {one.day:%b}", "quiet")), EMPTY]
    return out


def _short_day(day: LogDay) -> str:
    return f"{day.day} {day:%b %Y}" if isinstance(day, date) else str(day)


def _paid(desk: Desktop, width: int) -> list[Line]:
    """What did I pay lately?"""
    out = [line(("latest prices", "head")), EMPTY]
    if not desk.lately:
        told = "No prices yet. Every price you log, bought or not, improves the estimates."
        return [*out, *fold(told, width)]
    for one in desk.lately:
        amount = one.price.plain if one.price else ""
        other = (
            f" {one.price.currency}" if one.price and one.price.currency != desk.currency else ""
        )
        paid = line((f"{WORDS[one.record]} ", "quiet"), (amount + other, "strong"))
        day = line((_short_day(one.date), "quiet"))
        if length(paid) + length(day) + 1 <= width:
            out.append(ends(paid, day, width))
        else:
            out += [paid, day]
        out += [line(clip(one.title or one.motif or one.process, width, desk.marks)), EMPTY]
    return out
