"""The money of the panel: its picture, and in words worth, chance and offer, or why not."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from appraise.app.examine.shown import Shown
from appraise.app.lines import Line, clip, does, fold, fold_to, length, line, spread
from appraise.app.marks import Marks
from appraise.app.widgets.moneyaxis import ROWS, Mark, money_axis
from appraise.base.percents import percent
from appraise.documents.words import CHANCE, about, amount
from appraise.verdict import Verdict, pay_of
from appraise.verdict.gate import GateOutcome
from appraise.verdict.pay import IN_ORDER, LIMIT, MAXIMUM, Pay, most, no_estimate, short

if TYPE_CHECKING:
    from appraise.pricing.worth import Worth

OWN = " a bid by a value of your own"
MONEY, PICTURE = 4, ROWS  # lines of the words in a low panel, and of the picture
NEAREST = ("from {} similar in your log", "from {} similar in log", "from {} similar", "{} similar")
NARROW = {LIMIT: LIMIT, MAXIMUM: "bid"}  # what the most is called where there is little room


def money_lines(verdict: Verdict, shown: Shown, width: int, rows: int) -> list[Line]:
    """The money in words, in so many lines at most."""
    if not shown.money:
        hidden = line(("money hidden  ", "quiet"), ("m", "key"), (" shows it", "quiet"))
        return [does(hidden, "app.discretion")]
    if not shown.learnt:
        return [line(("worth  ", "quiet"), ("the log is being read ...", "quiet"))]
    if verdict.worth is None:
        told = fold_to(no_estimate(verdict), width, max(1, rows - 1), shown.marks)
        own = does(line(("p", "key"), (OWN, "quiet")), "app.press('p')")
        return [*(line((row, "doubt")) for row in told), own][:rows]
    return _opinion(verdict, verdict.worth, width, rows, shown.marks)[:rows]


def money_picture(verdict: Verdict, shown: Shown, width: int) -> list[Line]:
    """The money on its axis: similar sales, the range of the worth, the limit and what is asked."""
    worth = verdict.worth
    if worth is None or not (shown.money and shown.learnt):
        return []
    dots = [one.adjusted for one in worth.estimate.comparables]
    span = worth.low, worth.median, worth.high
    return money_axis(dots, span, list(_noted(verdict)), width, shown.marks)


def _noted(verdict: Verdict) -> Iterator[Mark]:
    """The limit and what is asked, where they are in the user's own currency."""
    home, pay, asked = verdict.currency, pay_of(verdict), verdict.piece.asking
    limit = pay.limit if pay.limit is not None and pay.limit.currency == home else None
    if limit is not None:
        told = short(limit, home)
        yield Mark(f"{NARROW[pay.name]} {told}", told, float(limit.amount), "head")
    if asked is not None and asked.currency == home:
        over = limit is not None and asked.amount > limit.amount
        told, role = short(asked, home), "warn" if over else "good"
        yield Mark(f"asked {told}", told, float(asked.amount), role)


def _opinion(verdict: Verdict, worth: Worth, width: int, rows: int, marks: Marks) -> list[Line]:
    """The worth, the chance that it is worth the price, and what to pay, which goes before them."""
    told = about(worth.low, worth.median, worth.high, verdict.currency)
    brief = f"about {amount(worth.median)} ({amount(worth.low)}-{amount(worth.high)})"
    counts = [f"  {one.format(f'{worth.estimate.like:.0f}')}" for one in NEAREST]
    by = next((one for one in counts if len(told) + len(one) <= width), "")
    first = line((told if len(told) <= width else brief, "strong"), (by, "quiet"))
    offer = _pay(pay_of(verdict), verdict.currency, width, rows - 1, marks)
    chance = fold(_chance(verdict), width, role="quiet")
    alone = [] if by else [line((counts[0].strip(), "quiet"))]
    spare = rows - 1 - len(offer)
    between = next((o for o in ([*alone, *chance], chance) if len(o) <= spare), [])
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
