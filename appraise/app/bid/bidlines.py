"""The bid page as lines."""

from __future__ import annotations

from datetime import date

from appraise.app.lines import EMPTY, Line, cut, fold, line
from appraise.app.marks import Marks
from appraise.base.money import Money
from appraise.pricing.bill import Bill, all_in
from appraise.report.bid import Maximum, bill_rows, columned, exchange_said, next_bid, terms_said

INDENT, LABEL, AMOUNT = "   ", 16, 14  # cells of the bill
CURVE = 44  # cells of a line of the curve before its bar
BAR = 20


def bid_lines(
    told: Maximum, opening: Money | None, as_of: date, width: int, marks: Marks
) -> list[Line]:
    """The page in lines of a width.

    Args:
        told: The maximum with its bill and what to expect of it.
        opening: What to offer first at a stall; None elsewhere.
        as_of: The day, by which terms are old or not.
        width: Cells.
        marks: The signs to draw with.
    """
    out = [*fold(terms_said(told.house, as_of), width, role="quiet"), EMPTY]
    if told.why:
        out += fold(told.why, width)
    out += [*fold(f"may cost {told.ceiling} in all", width), EMPTY]
    if told.bid is None or told.bill is None:
        return [*out, line(("so: do not buy; nothing is left for it", "warn"))]
    out += _bill(told.bill, width)
    out += [EMPTY, line("so: ", (f"{told.bid} at most", "head"))]
    if opening is not None:
        out.append(line("offer ", (f"{opening}", "strong"), " first"))
    after = next_bid(told)
    if after is not None:
        cost = all_in(told.venue, after).total
        out += fold(f"the next step, {after.plain}, would cost {cost} in all", width, role="quiet")
    return [cut(row, width) for row in (*out, EMPTY, *_curve(told, width, marks))]


def _bill(bill: Bill, width: int) -> list[Line]:
    """The bill, a name that does not fit beside its amount above it: no amount is ever cut."""
    rows = bill_rows(bill)
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
    heads = f"{'maximum':>9}{'in all':>10}{'wins in 100':>13}{'gain':>10}"
    out = [line((heads, "quiet"))]
    most = max(abs(one.surplus) for one in told.curve) or 1.0
    room = max(0, min(BAR, width - CURVE))
    for one in told.curve:
        here = one.bid == told.bid
        figures = (
            f"{one.bid.plain:>9}{one.cost.plain:>10}{100 * one.win:>13.0f}{one.surplus:>10.2f}"
        )
        bar = marks.bar * round(room * max(0.0, one.surplus) / most)
        out.append(line((figures, "strong" if here else ""), "  ", (bar, "bar")))
    note = (
        "Wins: such sales that go for less, by your log. Gain: on average over won and lost; "
        "one maximum, decided beforehand."
    )
    return [*out, EMPTY, *fold(note, width, role="quiet")]
