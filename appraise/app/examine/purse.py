"""The money lines of the panel: worth, chance and offer, or why there are none."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from appraise.app.lines import EMPTY, Line, clip, fold_to, length, line, spread
from appraise.reading.words import percent
from appraise.verdict import Verdict
from appraise.verdict.gate import Outcome

if TYPE_CHECKING:
    from appraise.app.examine.shown import Shown
    from appraise.app.marks import Marks
    from appraise.pricing.estimate import Estimate

LOW, HIGH = 4, 11  # lines of money in a low panel and in a tall one
NEAREST = ("nearest in your log", "nearest in log", "nearest")
FIGURES = 17  # cells for the two amounts beside a title


def money_lines(verdict: Verdict, shown: Shown, width: int, tall: bool) -> list[Line]:
    """The money in a fixed number of lines."""
    rows = HIGH if tall else LOW
    if not shown.money:
        out = [line(("money hidden  ", "quiet"), ("m", "key"), (" shows it", "quiet"))]
    elif verdict.estimate is None:
        says = "the log is being read ..." if not shown.learnt else "no opinion: no log"
        out = [line(("worth  ", "quiet"), (says, "quiet"))]
    elif verdict.worth is None:
        out = _no_opinion(verdict.estimate, width)
    else:
        out = _opinion(verdict, width, rows, shown.marks)
    if tall and shown.money and verdict.estimate is not None:
        out = [*out, *_comparables(verdict.estimate, shown, width)]
    return [*out, *[EMPTY] * (rows - len(out))][:rows]


def amount(value: float) -> str:
    """Money to the unit, as the panel says it."""
    return f"{value:,.0f}" if value >= 1 else f"{value:.2f}"


def _no_opinion(estimate: Estimate, width: int) -> list[Line]:
    if estimate.entries == 0:
        told = "the log holds no price"
    else:
        told = f"{estimate.like:.0f} like it of {estimate.entries}, 5 needed"
    return [
        line(("worth  ", "quiet"), ("no opinion yet", "doubt")),
        line((clip(told, width), "quiet")),
    ]


def _opinion(verdict: Verdict, width: int, rows: int, marks: Marks) -> list[Line]:
    worth, money, estimate = verdict.worth, verdict.money, verdict.estimate
    assert worth is not None
    assert estimate is not None
    low, middle, high = amount(worth.low), amount(worth.median), amount(worth.high)
    worth_in = line(
        ("worth  ", "quiet"), f"{low} .. ", (middle, "strong"), f" .. {high} {verdict.currency}"
    )
    short = line(("worth ", "quiet"), f"{low}..", (middle, "strong"), f"..{high}")
    first = worth_in if length(worth_in) <= width else short
    if money is None:
        told = fold_to(verdict.no_terms, max(1, width), rows - 1, marks)
        return [first, *(line((row, "warn")) for row in told)]
    offer = [_held()] if verdict.holds_back else spread(_offer(verdict, width), width)
    spare = rows - 3 - len(offer)
    by = line((f"       by {estimate.like:.0f} like it in your log", "quiet"))
    return [first, *([by] if spare >= 0 else []), _chance(verdict), *offer]


def _held() -> Line:
    """That no maximum is given; the key for a bid says why."""
    return line(("no maximum is given: ", "warn"), ("p", "key"), (" says why", "quiet"))


def _chance(verdict: Verdict) -> Line:
    assert verdict.money is not None
    chance = verdict.money.worth_its_cost
    if chance is not None:
        told = min(99, max(1, round(100 * chance)))
        return line(("worth its cost: ", "quiet"), (f"{told}%", "strong"))
    asked = verdict.piece.asking
    if asked is None:
        return line(("no price asked: i notes it", "quiet"))
    return line((f"asked in {asked.currency}: no rate for it here", "quiet"))


def _offer(verdict: Verdict, width: int) -> list[Line]:
    """The amounts to act on, each a group of words that stays whole."""
    assert verdict.money is not None
    advice, opening, gate = verdict.money.advice, verdict.money.opening, verdict.gate
    if gate is not None and gate.outcomes:
        return _outcomes(gate.outcomes, width)
    if advice.walk_away is None or advice.bill is None:
        return [line(("do not buy: nothing is left for it", "warn"))]
    walk, total = advice.walk_away, advice.bill.total
    told = amount(float(walk.amount))
    if walk != total:
        code = "" if walk.currency == total.currency else f" {walk.currency}"
        whole = amount(float(total.amount))
        most = line(("maximum bid ", "quiet"), (f"{told}{code}", "strong"))
        return [most, line((f"total {whole}", "quiet"))]
    above = line(("limit ", "quiet"), (told, "strong"))
    if gate is not None and gate.missing:
        above = line(*above, (_in_order(width - length(above)), "quiet"))
    if opening is None:
        return [above]
    return [line(("offer ", "quiet"), (amount(float(opening.amount)), "strong")), above]


def _in_order(room: int) -> str:
    """The condition of a limit, as long as there is room for."""
    told = (" if all else is in order", " if all is in order", " if in order")
    return next((words for words in told if len(words) <= room), "")


def _outcomes(outcomes: Sequence[Outcome], width: int) -> list[Line]:
    """The two ways in which the doubt may end, with the most to pay then; in brief where narrow."""
    whole = [_outcome(one, one.says) for one in outcomes]
    if all(length(row) <= width for row in whole):
        return whole
    return [_outcome(one, one.brief) for one in outcomes]


def _outcome(one: Outcome, says: str) -> Line:
    limit = "nothing" if one.limit is None else f"limit {amount(float(one.limit.amount))}"
    return line((f"{says} {percent(one.chance)}: ", "quiet"), (limit, "strong"))


def _comparables(estimate: Estimate, shown: Shown, width: int) -> list[Line]:
    """The nearest entries: what was logged, and what that makes for this piece."""
    if not estimate.comparables:
        return []
    room = width - FIGURES
    head = next((one for one in NEAREST if len(one) <= room), "")
    out = [EMPTY, line((f"{head:<{room}} logged  for this", "quiet"))]
    for one in estimate.comparables:
        title = clip(shown.titles.get(one.id, one.id), room, shown.marks)
        out.append(
            line(f"{title:<{room}}", f" {amount(one.price):>6}", f" {amount(one.adjusted):>9}")
        )
    return out
