"""The desk as lines: three panes, or one under the other on a narrow screen."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from appraise.app.glances import Glance, LotGlance, Purse
from appraise.app.lines import (
    EMPTY,
    Bit,
    Line,
    clip,
    cut,
    does,
    ends,
    fill,
    fold,
    fold_to,
    grounded,
    length,
    line,
)
from appraise.app.marks import FINE, WARN, Marks
from appraise.base.dataclass import dataclass
from appraise.base.logday import LogDay, day_in_words
from appraise.records.entry import Entry

SIDE_BY_SIDE = 72  # cells from which the columns stand side by side
NUMBERED = 9  # pieces that a digit opens
BAR = 30  # cells of the budget's bar
GROUNDS = ("on-paper", "on-sheet", "on-rail")
FIRST_STEPS = (
    ("n", "new", "Start a piece: type what you see in one line."),
    ("l", "listing", "Review a listing: paste its text."),
    ("p", "prices", "Log a price you met: each one improves the estimates."),
)
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
        currency: Of all prices.
        demo: Whether this is the invented demo.
        open: The pieces under examination, the one touched last first.
        lately: The last entries of the log.
        purse: What is left to spend; None where there is no budget.
        wants: How many kept pieces want something, in one line; empty where none does.
        marks: The signs to draw with.
        today: The day for which prices are stated.
        at: The piece that is marked.
        lots: The lots that are followed, the one that closes first on top.
        hides: Whether amounts are hidden.
    """

    currency: str
    demo: bool = False
    open: Sequence[Glance] = ()
    lately: Sequence[Entry] = ()
    purse: Purse | None = None
    wants: str = ""
    marks: Marks = FINE
    today: date = date.min
    at: int = 0
    lots: Sequence[LotGlance] = ()
    hides: bool = False

    @property
    def begun(self) -> bool:
        """Whether there is anything yet."""
        return bool(self.open or self.lately or self.lots)


def desk_lines(desk: Desktop, width: int, height: int) -> list[Line]:
    """What lies on the desk in `height` lines: three panes on grounds of their own."""
    foot = _foot(desk, width)
    rows = max(0, height - len(foot))
    beside = _beside(desk, width, rows) if width >= SIDE_BY_SIDE else _below(desk, width, rows)
    return [cut(row, width) for row in (*beside, *foot)][:height]


def desk_title(desk: Desktop, width: int) -> Line:
    """The name, the currency and the day."""
    day = f"{desk.today.day} {desk.today:%B %Y}"
    right = f"prices in {desk.currency}   {day}" if width >= 40 else ""
    return ends(line((" appraise", "head")), line((right, "quiet"), " "), width)


def _foot(desk: Desktop, width: int) -> list[Line]:
    """What needs attention, and what all of this is for."""
    purpose = DEMO if desk.demo else PURPOSE
    foot = [line(" ", (told, "quiet")) for told in fold_to(purpose, max(1, width - 2), 2)]
    if desk.wants:
        says = line(" ", (clip(desk.wants, max(1, width - 2), desk.marks), "doubt"))
        foot.insert(0, does(says, "list('kept')"))
    return foot


def _beside(desk: Desktop, width: int, rows: int) -> list[Line]:
    """The panes side by side, told apart by their grounds."""
    sizes = (width - 2 * (width // 3), width // 3, width // 3)
    columns = [_column(n, desk, size - 3, rows - 1) for n, size in enumerate(sizes)]
    out = []
    for place in range(rows):
        row: list[Bit] = []
        for column, size, ground in zip(columns, sizes, GROUNDS, strict=True):
            cell = column[place - 1] if 0 < place <= len(column) else EMPTY
            row += grounded(fill((("  ", ""), *cell), size), ground)
        out.append(tuple(row))
    return out


def _below(desk: Desktop, width: int, rows: int) -> list[Line]:
    """The panes one under the other, lots before prices where there are some."""
    room = max(4, rows // 2)
    first, second, third = (_column(n, desk, max(1, width - 2), room) for n in range(3))
    after, last = (second, third) if desk.lots else (third, second)
    out = [((" ", ""), *row) for row in (*first[:room], EMPTY, *after, EMPTY, *last)]
    return [*out, *[EMPTY] * rows][:rows]


def _column(number: int, desk: Desktop, width: int, rows: int) -> list[Line]:
    if number == 0:
        return _open(desk, width, rows) if desk.begun else _first_steps(width)
    if number == 1:
        purse = desk.purse
        told = closing_lines(desk.lots, purse.line if purse else "", width, rows, desk.marks)
        bar = budget_bar(purse, width, desk.marks) if purse and not desk.hides else ()
        return [*[does(row, "list('lot')") for row in told], *([bar] if bar and purse else [])]
    return [does(row, "prices") for row in _paid(desk, width)]


def closing_lines(
    lots: Sequence[LotGlance], purse: str, width: int, rows: int, marks: Marks
) -> list[Line]:
    """The desk's column of lots in at most so many lines, the budget at its end."""
    out = [line(("closes next", "head")), EMPTY]
    foot = [EMPTY, *fold(purse, width, role="quiet")] if purse else []
    if not lots:
        return [*out, *fold("No marked lots. o: add one.", width), *foot]
    room = rows - len(out) - len(foot)
    for place, one in enumerate(lots):
        block = _block(one, width, marks)
        rest = len(lots) - place
        if len(block) > room - (1 if rest > 1 else 0) and place:
            out.append(line((f"  and {rest} more: ", "quiet"), ("o", "key")))
            break
        out += block
        room -= len(block)
    while out and out[-1] == EMPTY:
        out.pop()
    return [cut(row, width) for row in (*out, *foot)]


def _block(one: LotGlance, width: int, marks: Marks) -> list[Line]:
    sign = WARN if one.urgent else " "
    first, *more = fold_to(one.title, max(1, width - 2), 2, marks)
    role = "warn" if one.urgent else "quiet"
    out = [line((sign, "warn"), " ", (first, "strong" if one.urgent else ""))]
    out += [line("  ", (text, "strong" if one.urgent else "")) for text in more]
    out += [line("  ", (text, role)) for text in fold_to(one.stands, max(1, width - 2), 2, marks)]
    out += [line("  ", (text, "quiet")) for text in fold_to(one.bid, max(1, width - 2), 1, marks)]
    return [*out, EMPTY]


def _first_steps(width: int) -> list[Line]:
    """Three things to do first."""
    out = [line(("three ways to begin", "head")), EMPTY]
    for key, act, says in FIRST_STEPS:
        out += [does(row, act) for row in fold(says, width, f"{key}  ", lead_role="key")]
        out.append(EMPTY)
    return out


def budget_bar(purse: Purse, width: int, marks: Marks) -> Line:
    """The budget as a bar: what was paid, what the bids that stand would cost, what is left."""
    room = max(1, min(width, BAR))
    paid = min(room, round(purse.paid * room))
    bids = min(room - paid, round(purse.bids * room))
    rest = room - paid - bids
    return line(
        (marks.bar * paid, "bar"), (marks.bar * bids, "doubt"), (marks.rule * rest, "quiet")
    )


def _open(desk: Desktop, width: int, rows: int) -> list[Line]:
    """What was I doing?"""
    out = [line(("on the table", "head")), EMPTY]
    if not desk.open:
        told = "Nothing is open. Press n and type what you see in one line, or paste a listing."
        return [*out, *[does(row, "new") for row in fold(told, width)]]
    most = max(1, (rows - 3) // 4)
    top = max(0, min(desk.at - most // 2, len(desk.open) - most))
    for place, one in enumerate(desk.open[top : top + most], start=top):
        out += [does(row, f"take_up({place + 1})") for row in _piece(desk, one, place, width)]
        out.append(EMPTY)
    left = len(desk.open) - top - most
    return [*out, *([line((f"    and {left} more below", "quiet"))] if left > 0 else [])]


def _piece(desk: Desktop, one: Glance, place: int, width: int) -> list[Line]:
    """A piece under examination: its number, its title, and how far it has come."""
    here = place == desk.at
    sign = desk.marks.here if here else " "
    number = str(place + 1) if place < NUMBERED else " "
    first, *second = fold_to(one.title, max(1, width - 4), 2, desk.marks)
    role = "strong" if here else ""
    many = "1 answer" if one.answers == 1 else f"{one.answers} answers"
    many = "not read yet" if one.unread else many
    return [
        line(f"{sign} ", (number, "key"), " ", (first, role)),
        *(line("    ", (text, role)) for text in second),
        line((f"    {many}, {one.day.day} {one.day:%b}", "quiet")),
    ]


def _short_day(day: LogDay, today: date) -> str:
    """A day in few cells; the year of one of this year goes without saying."""
    if not isinstance(day, date):
        return day_in_words(str(day))
    return f"{day.day} {day:%b}" if day.year == today.year else f"{day.day} {day:%b %Y}"


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
        day = line((_short_day(one.date, desk.today), "quiet"))
        if length(paid) + length(day) + 2 <= width:
            out.append(ends(paid, day, width))
        else:
            out += [paid, day]
        out += [line(clip(one.title or one.motif or one.process, width, desk.marks)), EMPTY]
    return out
