"""The money lines of the panel: worth, chance and offer, or why there are none."""

from __future__ import annotations

from typing import TYPE_CHECKING

from appraise.app.lines import EMPTY, Line, clip, fold, fold_to, length, line, spread
from appraise.base.percents import percent
from appraise.documents.words import CHANCE, about, amount
from appraise.verdict import Verdict, pay_of
from appraise.verdict.pay import IN_ORDER, LIMIT, MAXIMUM, most, no_estimate, short

if TYPE_CHECKING:
    from appraise.app.examine.shown import Shown
    from appraise.app.marks import Marks
    from appraise.pricing.estimate import Estimate
    from appraise.pricing.worth import Worth
    from appraise.verdict.gate import GateOutcome
    from appraise.verdict.pay import Pay

LOW, HIGH = 4, 11  # lines of money in a low panel and in a tall one
NEAREST = ("similar in your log", "similar in log", "similar")
NARROW = {LIMIT: LIMIT, MAXIMUM: "bid"}  # what the most is called where there is little room
FIGURES = 17  # cells for the two amounts beside a title


def money_lines(verdict: Verdict, shown: Shown, width: int, tall: bool) -> list[Line]:
    """The money in a fixed number of lines."""
    rows = HIGH if tall else LOW
    if not shown.money:
        out = [line(("money hidden  ", "quiet"), ("m", "key"), (" shows it", "quiet"))]
    elif not shown.learnt:
        out = [line(("worth  ", "quiet"), ("the log is being read ...", "quiet"))]
    elif verdict.worth is None:
        told = fold_to(no_estimate(verdict), width, rows, shown.marks)
        out = [line((row, "doubt")) for row in told]
    else:
        out = _opinion(verdict, verdict.worth, width, rows, shown.marks)
    if tall and shown.money and verdict.estimate is not None:
        out = [*out, *_comparables(verdict.estimate, shown, width)]
    return [*out, *[EMPTY] * (rows - len(out))][:rows]


def _opinion(verdict: Verdict, worth: Worth, width: int, rows: int, marks: Marks) -> list[Line]:
    """The worth, the chance that it is worth the price, and what to pay, which goes before them."""
    told = about(worth.low, worth.median, worth.high, verdict.currency)
    whole = line(("worth ", "quiet"), (told, "strong"))
    short = f"about {amount(worth.median)} ({amount(worth.low)}-{amount(worth.high)})"
    first = whole if length(whole) <= width else line((short, "strong"))
    offer = _pay(pay_of(verdict), verdict.currency, width, rows - 1, marks)
    lead = f"      from {worth.estimate.like:.0f} "
    whose = next((one for one in NEAREST if length(line((lead + one, ""))) <= width), "similar")
    by = line((f"{lead}{whose}", "quiet"))
    chance = fold(_chance(verdict), width, role="quiet")
    spare = rows - 1 - len(offer)
    between = [by, *chance] if spare > len(chance) else chance if spare >= len(chance) else []
    return [first, *between, *offer]


def _chance(verdict: Verdict) -> str:
    """The chance that it is worth the price, or why there is none."""
    chance = verdict.money.worth_its_cost if verdict.money is not None else None
    if chance is not None:
        return f"{percent(chance)} {CHANCE}"
    asked = verdict.piece.asking
    if asked is None:
        return "no asking price yet: press i"
    return f"asked in {asked.currency}: no rate entered" if verdict.money is not None else ""


def _pay(pay: Pay, home: str, width: int, rows: int, marks: Marks) -> list[Line]:
    """The amounts to act on, each a group of words that stays whole."""
    if pay.reason:
        return [line((row, "warn")) for row in fold_to(pay.reason, width, max(1, rows), marks)]
    if pay.outcomes:
        return _outcomes(pay, home, width, marks)
    assert pay.limit is not None
    groups = []
    if pay.opening is not None:
        groups.append(line(("offer ", "quiet"), (short(pay.opening, home), "strong")))
    limit = line((f"{pay.name} ", "quiet"), (short(pay.limit, home), "strong"))
    if pay.missing:
        limit = line(*limit, (_in_order(width - length(limit)), "quiet"))
    groups.append(limit)
    if pay.bill is not None and pay.bill.total != pay.limit:
        groups.append(line((f"total {short(pay.bill.total, home)}", "quiet")))
    return spread(groups, width)


def _in_order(room: int) -> str:
    """The condition of a limit, as long as there is room for."""
    told = (f" {IN_ORDER}", " if all is in order", " if in order")
    return next((words for words in told if len(words) <= room), "")


def _outcomes(pay: Pay, home: str, width: int, marks: Marks) -> list[Line]:
    """The two ways in which the doubt may end, with the most to pay then; in brief where narrow.

    Amounts and chances stay whole: where nothing else fits, the words before them are cut.
    """
    forms = [
        [_outcome(one.brief if brief else one.says, one, name, home) for one in pay.outcomes]
        for name in (pay.name, NARROW[pay.name])
        for brief in (False, True)
    ]
    fits = (told for told in forms if all(length(row) <= width for row in told))
    return next(fits, [_clipped(one, pay, home, width, marks) for one in pay.outcomes])


def _outcome(says: str, one: GateOutcome, name: str, home: str) -> Line:
    limit = most(one, home) if one.limit is None else f"{name} {most(one, home)}"
    return line((f"{says} ({percent(one.chance)}): ", "quiet"), (limit, "strong"))


def _clipped(one: GateOutcome, pay: Pay, home: str, width: int, marks: Marks) -> Line:
    """One way with its words cut to the room that is left."""
    rest = length(_outcome("", one, NARROW[pay.name], home))
    return _outcome(clip(one.brief, max(1, width - rest), marks), one, NARROW[pay.name], home)


def _comparables(estimate: Estimate, shown: Shown, width: int) -> list[Line]:
    """The nearest entries: what was logged, and what that makes for this piece."""
    if not estimate.comparables:
        return []
    room = width - FIGURES
    head = next((one for one in NEAREST if len(one) <= room), "")
    out = [EMPTY, line((f"{head:<{room}}   paid  adjusted", "quiet"))]
    for one in estimate.comparables:
        title = clip(shown.titles.get(one.id, one.id), room, shown.marks)
        out.append(
            line(f"{title:<{room}}", f" {amount(one.price):>6}", f" {amount(one.adjusted):>9}")
        )
    return out
