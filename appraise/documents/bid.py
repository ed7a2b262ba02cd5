"""One maximum and its bill: what a winning bid costs in total, line by line."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from appraise.base.dataclass import dataclass
from appraise.base.jsonvalues import json_value, picked
from appraise.base.money import Money, as_json
from appraise.base.percents import percent
from appraise.documents.document import Block, Document, Paragraph, Section, Table, section
from appraise.pricing.bid import Outlook, Terms, advise, outlook
from appraise.pricing.bill import Bill, Line, all_in, next_above, on_ladder
from appraise.pricing.money import in_currency_of
from appraise.records.venue import TERMS, Venue
from appraise.verdict.pay import IN_ORDER, LIMIT, MAXIMUM, NOTHING_LEFT, Pay, pay_of, sentences

if TYPE_CHECKING:
    from appraise.pricing.worth import Worth
    from appraise.verdict import Verdict
    from appraise.verdict.gate import GateOutcome

NO_HOUSE = "No venue chosen: no premium, tax or shipping added."
NO_TERMS = "No venue chosen: no premium or tax added, only the shipping of the listing."
FAR = Decimal("1.5")
"""How many times the maximum a price is far above it (judgement)."""
ANYWAY = "To work out a bill anyway, give the most it may cost as --ceiling."
DECIDE = "Decide on one maximum before the sale."
PURPOSE = "For buying decisions only."
ROUND = "The limit is the next round figure below."
OLD = 365  # days after which terms are said to be old
AROUND = (Decimal("0.6"), Decimal("0.8"), Decimal(1), Decimal("1.2"))
"""Maxima about one's own for which it is told what to expect."""
CURVE = ("maximum", "total", "chance to win", "average gain", "")
YOURS = "yours"
NOTE = (
    "Chance to win: share of similar sales in your log that went for less. Gain: average over bids "
    "won and lost."
)
HAMMER, PRICE = "hammer", "price"
NAMES = {"carriage": "shipping"}
"""What lines of a bill are called where that is not their name in the JSON."""


@dataclass(frozen=True, slots=True)
class Maximum:
    """One maximum at one place.

    Attributes:
        house: Where; None: no house is named.
        ceiling: The most that it may cost in total, base currency.
        pay: What may be told of what to pay there.
        why: Where the ceiling comes from, a sentence; empty where the user gave it.
        curve: What to expect of it and of maxima about it; empty where no log tells.
        held: Why no maximum is shown, each as the end of a sentence; empty where it is.
        asked: What is asked, or the opening bid; None where that is not known.
    """

    house: Venue | None
    venue: Venue
    ceiling: Money
    pay: Pay
    why: str = ""
    curve: tuple[Outlook, ...] = ()
    held: tuple[str, ...] = ()
    asked: Money | None = None

    @property
    def bid(self) -> Money | None:
        """The largest legal bid within the ceiling; None where none is told."""
        return self.pay.limit

    @property
    def bill(self) -> Bill | None:
        """The bill at that bid, or None."""
        return self.pay.bill

    @property
    def haggled(self) -> bool:
        """Whether it is bargained over: no bids, no increments and no rivals."""
        return self.pay.name == LIMIT

    @property
    def costs(self) -> bool:
        """Whether anything comes on top of what is paid."""
        return self.bill is not None and self.bill.total != self.bid


def of_sum(
    house: Venue | None,
    venue: Venue,
    ceiling: Money,
    bid: Money | None,
    why: str = "",
    name: str = MAXIMUM,
) -> Maximum:
    """The maximum for a sum that the user gives, which nothing is to be said against."""
    bill = all_in(venue, bid) if bid is not None else None
    reason = "" if bid is not None else NOTHING_LEFT[name]
    return Maximum(house, venue, ceiling, Pay(name, bid, bill=bill, reason=reason), why)


def of_worth(
    worth: Money,
    doubt: float,
    terms: Terms,
    house: Venue | None,
    venue: Venue,
    name: str = MAXIMUM,
) -> Maximum:
    """The maximum for a worth that the user gives.

    Args:
        worth: In the base currency.
        doubt: Its uncertainty, as a share.
        terms: What the buyer decided beforehand.
        house: Where it is bought; None: nowhere that is named.
        venue: The terms there.
        name: What the most is called there.
    """
    told = advise(float(worth.amount), doubt, terms, venue)
    why = shaded(float(worth.amount), worth.currency, told.shade.middle, terms.bidders)
    return of_sum(house, venue, told.ceiling, told.walk_away, f"your value: {why}", name)


def of_verdict(verdict: Verdict, house: Venue | None, bidders: int) -> Maximum:
    """The maximum for a piece that was judged for the venue at which it is sold."""
    worth, money, pay = verdict.worth, verdict.money, pay_of(verdict)
    assert worth is not None
    assert money is not None
    advice, home = money.advice, verdict.currency
    why = shaded(worth.median, home, advice.shade.middle, bidders)
    told = Maximum(
        house, money.venue, advice.ceiling, pay, why,
        held=verdict.holds_back, asked=in_currency_of(money.venue, verdict.piece.asking),
    )  # fmt: skip
    return told if told.haggled else replace(told, curve=curve_about(told, worth))


def shaded(worth: float, currency: str, factor: float, bidders: int) -> str:
    """Where the ceiling starts from: the worth, and what the winner's curse leaves of it."""
    if factor == 1.0:
        return f"worth {worth:,.2f} {currency}"
    return (
        f"worth {worth:,.2f} {currency}; bid as if {worth * factor:,.2f}, because the winner of "
        f"{bidders} bidders usually overestimates"
    )


def above_said(told: Maximum) -> str:
    """That what is asked is above the maximum; '' where it is not."""
    asked, most = told.asked, told.bid
    if asked is None or most is None or asked.currency != most.currency or asked <= most:
        return ""
    far = "far " if asked.amount >= FAR * most.amount else ""
    return f"Asked {asked}: that is {far}above your {told.pay.name}."


def terms_said(house: Venue | None, as_of: date, venue: Venue | None = None) -> str:
    """On which terms the bill rests, and when they were last checked.

    `venue`: the terms as they are reckoned with; without a house they may hold a shipping.
    """
    if house is None:
        return NO_TERMS if venue is not None and venue.listed else NO_HOUSE
    if house.checked is None:
        told = "were never checked"
    else:
        old = (as_of - house.checked).days > OLD
        told = f"checked on {house.checked}{', more than a year ago' if old else ''}"
    return f"{house.name}: terms {told}. {TERMS}"


def line_name(row: Line, haggled: bool = False) -> str:
    """What a line of a bill is called, with what there is to say of it; no hammer at a stall."""
    name = PRICE if haggled and row.name == HAMMER else NAMES.get(row.name, row.name)
    return f"{name} ({row.note})" if row.note else name


def bill_table(bill: Bill, haggled: bool = False, caption: str = "") -> Table:
    """The lines of a bill as name and amount, the total last, another currency named."""
    home = bill.total.currency
    rows = [(line_name(one, haggled), _told(one.amount, home)) for one in bill.lines]
    if bill.invoice.currency != home:
        theirs = sum(one.amount.currency != home for one in bill.lines)
        rows.insert(theirs, ("their invoice", _told(bill.invoice, home)))
    rows.append(("total", _told(bill.total, home)))
    return Table(caption, (), tuple(rows), (1,), strong=len(rows) - 1)


def exchange_said(bill: Bill) -> str:
    """The exchange rate behind a bill and its day; '' where nothing is converted."""
    told = bill.exchange
    if told is None:
        return ""
    day = f", entered for {told.on}" if told.on else ""
    return f"your rate: 1 {told.currency} = {told.rate.normalize():f} {told.base}{day}"


def _told(amount: Money, home: str) -> str:
    return amount.plain if amount.currency == home else str(amount)


def next_bid(told: Maximum) -> Money | None:
    """The next legal bid above the maximum; None where no bid is made or none is called."""
    if told.bid is None or told.haggled:
        return None
    above = next_above(told.venue.ladder, told.bid.amount)
    return Money(above, told.bid.currency) if above > told.bid.amount else None


def curve_about(told: Maximum, worth: Worth) -> tuple[Outlook, ...]:
    """What to expect of a maximum and of some about it, by the log; none where no bid is made."""
    if told.bid is None:
        return ()
    amounts = {on_ladder(told.venue.ladder, told.bid.amount * share) for share in AROUND}
    bids = [Money(one, told.bid.currency) for one in sorted(amounts) if one > 0]
    return outlook(worth.prob_at_least, worth.median, told.venue, bids)


def bid_document(told: Maximum, as_of: date) -> Document:
    """The bill as a bill, then the maximum, then what to expect."""
    purpose = PURPOSE if told.haggled or told.bid is None else f"{DECIDE} {PURPOSE}"
    return Document("", bid_sections(told, as_of), purpose=purpose)


def bid_sections(told: Maximum, as_of: date) -> tuple[Section, ...]:
    """The bill, the maximum, and what to expect of it, or why there is no maximum."""
    terms = Paragraph(terms_said(told.house, as_of, told.venue), "quiet")
    head = (terms, Paragraph(told.why))
    pay = told.pay
    if pay.limit is None:
        says = [Paragraph(one, "warn") for one in sentences(pay, told.ceiling.currency)]
        return section("bill", "", *head, *says, Paragraph(ANYWAY if told.held else ""))
    bill = section("bill", "", *head, Paragraph(under(told)), *_bill(told))
    most = (
        Paragraph(f"{named(pay)}: {pay.limit}", "lead"),
        Paragraph(f"offer {pay.opening} first" if pay.opening is not None else ""),
        Paragraph(above_said(told), "warn"),
        Paragraph(condition(pay), "doubt"),
        Paragraph(next_said(told), "quiet"),
    )
    return (*bill, *section("most", "", *most), *_curve(told))


def _bill(told: Maximum) -> Iterator[Block]:
    """The bill, where anything comes on top, and the rate behind it."""
    bill = told.bill
    if bill is not None and (told.costs or not told.haggled):
        yield bill_table(bill, told.haggled)
        yield Paragraph(exchange_said(bill), "quiet")


def _curve(told: Maximum) -> tuple[Section, ...]:
    """What to expect of the maximum and of some about it, by the prices of the log."""
    most = max((abs(one.surplus) for one in told.curve), default=0.0) or 1.0
    rows = tuple(
        (one.bid.plain, one.cost.plain, percent(one.win), f"{one.surplus:.2f}",
         YOURS if one.bid == told.bid else "")
        for one in told.curve
    )  # fmt: skip
    at = next((n for n, one in enumerate(told.curve) if one.bid == told.bid), None)
    bars = tuple(max(0.0, one.surplus) / most for one in told.curve)
    table = Table("", CURVE, rows, (0, 1, 2, 3), at, bars)
    return section("curve", "What to expect", table, Paragraph(NOTE if rows else "", "quiet"))


def under(told: Maximum) -> str:
    """What the whole bill has to stay within; of a price alone, how the limit comes of it."""
    if told.haggled and not told.costs:
        return ROUND
    return f"total must stay within {told.ceiling}"


def named(pay: Pay) -> str:
    """What the most is called, at the beginning of a line."""
    return f"{pay.name[0].upper()}{pay.name[1:]}"


def condition(pay: Pay) -> str:
    """Under which condition a limit holds; '' where it holds under none."""
    return f"It holds {IN_ORDER}: {pay.missing}." if pay.missing else ""


def next_said(told: Maximum) -> str:
    """The bid above the maximum and what it would cost; '' where no bid is made."""
    after = next_bid(told)
    if after is None:
        return ""
    return f"Next increment: {after.plain} ({all_in(told.venue, after).total} in total)"


def bill_json(bill: Bill | None) -> list[dict[str, Any]]:
    """The lines of a bill, each with its note if it has one."""
    rows = bill.lines if bill else ()
    return [picked(one, "name amount note" if one.note else "name amount") for one in rows]


def exchange_json(bill: Bill | None) -> dict[str, Any] | None:
    """The exchange rate behind a bill; None where nothing is converted."""
    told = bill.exchange if bill else None
    return picked(told, "currency base on", rate=f"{told.rate.normalize():f}") if told else None


def bid_json(told: Maximum, as_of: date) -> dict[str, Any]:
    """The same as JSON, schema "appraise.bid/1"."""
    house, bill, pay = told.house, told.bill, told.pay
    return {
        "schema": "appraise.bid/1",
        "as_of": as_of.isoformat(),
        "venue": house.name if house else None,
        "terms_checked": json_value(house.checked if house else None),
        "terms": terms_said(house, as_of, told.venue),
        **picked(told, "why held bid"),
        "ceiling": as_json(told.ceiling) if told.bid is not None else None,
        "missing": pay.missing or None,
        "outcomes": [outcome_json(one) for one in pay.outcomes],
        "why_not": pay.reason or None,
        "bill": bill_json(bill),
        "exchange": exchange_json(bill),
        "total": as_json(bill.total) if bill else None,
        "next": as_json(next_bid(told)),
        "curve": [
            picked(one, "bid", total=one.cost, chance_to_win=one.win)
            | {"surplus": round(one.surplus, 2)}
            for one in told.curve
        ],
    }


def outcome_json(one: GateOutcome) -> dict[str, Any]:
    """One of several outcomes, and the limit if it comes so."""
    return {"if": one.says, **picked(one, "chance limit")}
