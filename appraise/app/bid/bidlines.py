"""The bid page as lines."""

from __future__ import annotations

from datetime import date

from appraise.app.lines import EMPTY, Line, cut, fold, line
from appraise.app.marks import Marks
from appraise.base.percents import percent
from appraise.documents.bid import (
    Maximum,
    bill_rows,
    columned,
    condition,
    exchange_said,
    named,
    next_said,
    terms_said,
    under,
)
from appraise.pricing.bill import Bill
from appraise.verdict.pay import sentences

INDENT, LABEL, AMOUNT = "   ", 16, 14  # cells of the bill
CURVE = 46  # cells of a line of the curve before its bar
BAR = 20


def bid_lines(told: Maximum, as_of: date, width: int, marks: Marks) -> list[Line]:
    """The page in lines of a width.

    Args:
        told: The maximum with its bill and what to expect of it.
        as_of: The day, by which terms are old or not.
        width: Cells.
        marks: The signs to draw with.
    """
    pay = told.pay
    out = [*fold(terms_said(told.house, as_of), width, role="quiet"), EMPTY]
    out += fold(told.why, width) if told.why else []
    if pay.limit is None:
        for says in sentences(pay, told.ceiling.currency):
            out += [EMPTY, *fold(says, width, role="warn")]
        return out
    out += [*fold(under(told), width), EMPTY]
    if pay.bill is not None and (told.costs or not told.haggled):
        out += _bill(pay.bill, told.haggled, width)
    out += [EMPTY, line(f"{named(pay)}: ", (f"{pay.limit}", "head"))]
    if pay.missing:
        out += fold(condition(pay), width, role="doubt")
    if pay.opening is not None:
        out.append(line("offer ", (f"{pay.opening}", "strong"), " first"))
    after = next_said(told)
    out += fold(after, width, role="quiet") if after else []
    return [cut(row, width) for row in (*out, EMPTY, *_curve(told, width, marks))]


def _bill(bill: Bill, haggled: bool, width: int) -> list[Line]:
    """The bill, a name that does not fit beside its amount above it: no amount is ever cut."""
    rows = bill_rows(bill, haggled)
    columns = list(columned(rows, LABEL, AMOUNT))
    room = width - len(INDENT)
    out: list[Line] = []
    for place, (name, amount) in enumerate(rows):
        role = "strong" if place == len(rows) - 1 else ""
        if len(columns[place]) <= room:
            out.append(line(INDENT, (columns[place], role)))
        elif len(name) + 1 + len(amount) <= room:
            out.append(line(INDENT, (f"{name}{amount:>{room - len(name)}}", role)))
        else:
            out += [*fold(name, width, INDENT), line((f"{amount:>{width}}", role))]
    said = exchange_said(bill)
    return [*out, *(fold(said, width, INDENT, role="quiet") if said else ())]


def _curve(told: Maximum, width: int, marks: Marks) -> list[Line]:
    """What to expect of the maximum and of some about it, with a bar for the gain."""
    if not told.curve:
        return []
    heads = f"{'maximum':>9}{'total':>10}{'chance to win':>15}{'gain':>10}"
    out = [line((heads, "quiet"))]
    most = max(abs(one.surplus) for one in told.curve) or 1.0
    room = max(0, min(BAR, width - CURVE))
    for one in told.curve:
        here = one.bid == told.bid
        figures = (
            f"{one.bid.plain:>9}{one.cost.plain:>10}{percent(one.win):>15}{one.surplus:>10.2f}"
        )
        bar = marks.bar * round(room * max(0.0, one.surplus) / most)
        out.append(line((figures, "strong" if here else ""), "  ", (bar, "bar")))
    note = (
        "Chance to win: share of similar sales in your log that went for less. Gain: average over "
        "bids won and lost. Decide on one maximum before the sale."
    )
    return [*out, EMPTY, *fold(note, width, role="quiet")]
