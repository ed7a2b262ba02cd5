"""What may be told of what to pay: the one thing that every place with a limit or an offer shows.

A limit is told with an offer where it stands plain, without one where something is still to be
known, as two limits where the worth is in doubt, and else not at all but for the reason.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from math import floor
from typing import TYPE_CHECKING

from appraise.base.dataclass import dataclass
from appraise.base.percents import percent
from appraise.reading.matter import judged
from appraise.records.holds import no_maximum

if TYPE_CHECKING:
    from appraise.base.money import Money
    from appraise.pricing.bill import Bill
    from appraise.pricing.estimate import Estimate
    from appraise.verdict.gate import GateOutcome
    from appraise.verdict.judge import Verdict

NOT_ONE = "No estimate: it is not judged as one piece."
NO_PRICES = "Log a few prices to get a limit."
IN_ORDER = "if all else is in order"
LIMIT, MAXIMUM = "limit", "maximum bid"
NOTHING_LEFT = {
    LIMIT: "Do not buy: the costs exceed what it is worth.",
    MAXIMUM: "Do not bid: the costs exceed what it is worth.",
}


@dataclass(frozen=True, slots=True)
class Pay:
    """What may be told of what to pay.

    Attributes:
        name: What the most is called: a limit at a stall or shop, a maximum bid at a sale.
        limit: The most to pay, in the currency of the sale; None where none is told.
        opening: What to offer first; None where no limit stands plain, and at a sale.
        bill: The bill at the limit; None without one.
        missing: What has to be known before the limit stands plain; '' where nothing is.
        outcomes: Where the worth is in doubt, the two limits with their chances.
        reason: Why there is no limit, one sentence; '' where there is one or two.
    """

    name: str = LIMIT
    limit: Money | None = None
    opening: Money | None = None
    bill: Bill | None = None
    missing: str = ""
    outcomes: tuple[GateOutcome, ...] = ()
    reason: str = ""


def pay_of(verdict: Verdict) -> Pay:
    """What a verdict lets one say of what to pay."""
    money, gate = verdict.money, verdict.gate
    if verdict.holds_back:
        return Pay(reason=no_maximum(verdict.holds_back))
    if verdict.estimate is None or verdict.worth is None:
        return Pay(reason=no_estimate(verdict))
    if verdict.no_terms:
        return Pay(reason=f"No limit: {verdict.no_terms}")
    if money is None or gate is None:
        return Pay(reason=no_estimate(verdict))
    name = MAXIMUM if money.at_a_sale else LIMIT
    if gate.outcomes:
        return Pay(name, missing=gate.missing, outcomes=gate.outcomes)
    limit, bill = money.advice.walk_away, money.advice.bill
    if limit is None:
        return Pay(name, reason=NOTHING_LEFT[name])
    return Pay(name, limit, money.opening if gate.plain else None, bill, gate.missing)


def no_estimate(verdict: Verdict) -> str:
    """Why there is no estimate at all, one sentence."""
    if not judged(verdict.piece):
        return NOT_ONE
    estimate = verdict.estimate
    if estimate is None or estimate.entries == 0:
        return NO_PRICES
    return f"No estimate: {_similar(estimate)} of 5 needed."


def _similar(estimate: Estimate) -> str:
    count = floor(estimate.like)
    return f"{count} similar {'entry' if count == 1 else 'entries'}"


def sentences(pay: Pay, home: str, asked: Money | None = None) -> Iterator[str]:
    """What to pay in sentences, beside what is asked.

    Args:
        pay: What may be told.
        home: The user's currency, which is not named.
        asked: What is asked, or None.
    """
    if pay.reason:
        yield pay.reason
    elif pay.outcomes:
        told = ", ".join(f"{most(one, home)} {one.says} ({percent(one.chance)})"
                         for one in pay.outcomes)  # fmt: skip
        lead = f"Asked {short(asked, home)}; no plain" if asked is not None else "No plain"
        yield f"{lead} {pay.name}: {told}."
    elif pay.limit is not None:
        condition = f" {IN_ORDER}: {pay.missing}" if pay.missing else ""
        offer = f"; offer {short(pay.opening, home)}" if pay.opening is not None else ""
        yield f"{_against(pay, pay.limit, home, asked)}{condition}{offer}."


def most(one: GateOutcome, home: str) -> str:
    """The limit of one outcome, or 'nothing'."""
    return "nothing" if one.limit is None else short(one.limit, home)


def _against(pay: Pay, limit: Money, home: str, asked: Money | None) -> str:
    """The limit beside what is asked."""
    told = f"{pay.name} of {short(limit, home)}"
    if asked is None or asked.currency != limit.currency:
        return f"{pay.name[0].upper()}{pay.name[1:]} {short(limit, home)}"
    over = asked.amount - limit.amount
    if over <= 0:
        return f"Asked {short(asked, home)}: within your {told}"
    by = short(type(limit)(over, limit.currency), home)
    return f"Asked {short(asked, home)}: {by} above your {told}"


def short(amount: Money, home: str) -> str:
    """An amount without its currency where that is the user's own, and without idle cents."""
    value = amount.amount
    told = f"{value:,.0f}" if value == value.to_integral_value() else f"{value:,.2f}"
    assert isinstance(value, Decimal)
    return told if amount.currency == home else f"{told} {amount.currency}"
