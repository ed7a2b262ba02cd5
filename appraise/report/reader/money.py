"""What a piece is worth to its buyer and what to bid; and what was paid for it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from appraise.piece.holds import no_maximum
from appraise.report.as_json import why_no_limit, why_no_price
from appraise.report.as_text import hundred
from appraise.report.bid import bill_rows, exchange_said
from appraise.report.reader.chart import Bar, Chart
from appraise.report.reader.document import Block, Facts, Paragraph, Picture, Table
from appraise.report.reader.matter import Matter

if TYPE_CHECKING:
    from appraise.base.money import Money
    from appraise.pricing.comparables import Comparable
    from appraise.pricing.money import MoneyAdvice
    from appraise.pricing.worth import Worth

LEAST = 0.5  # the lowest price that is drawn, in units of the currency
NO_VALUE = (
    "What is paid is a fact of its day and no statement of value. No estimate stands in this "
    "report: it is no appraisal for insurance, tax or estate. A licensed or qualified appraiser "
    "gives one."
)


def worth(matter: Matter) -> Iterator[Block]:
    """The worth by the user's own log, with the picture of prices and the entries behind it."""
    verdict = matter.verdict
    found = verdict.worth
    if found is None:
        yield Paragraph(why_no_price(verdict))
        return
    low, median, high = (f"{value:,.0f}" for value in (found.low, found.median, found.high))
    yield Paragraph(
        f"Worth {low} .. {median} .. {high} {verdict.currency} by your own log: the middle, and "
        f"the span that holds {round(10 * found.estimate.level)} times in 10.",
        "lead",
    )
    yield Paragraph(found.why)
    yield _prices(matter, found)


def _prices(matter: Matter, found: Worth) -> Picture:
    verdict, estimate = matter.verdict, found.estimate
    currency = verdict.currency
    nearest = [(_called(matter, one), one) for one in estimate.comparables]
    spans = (found.low, found.median, found.high), (estimate.low, estimate.median, estimate.high)
    bars = [
        _bar("this piece", *spans[0], strong=True),
        _bar("one that belongs together", *spans[1]),
        *(Bar(name, f"{one.adjusted:,.0f}", point=one.adjusted) for name, one in nearest),
    ]
    cost = verdict.money.cost if verdict.money else None
    line = (float(cost.amount), f"asked {cost}") if cost is not None and cost.amount > 0 else None
    says = (
        f"This piece: {found.low:,.0f} to {found.high:,.0f} {currency}, the middle "
        f"{found.median:,.0f}. {_nearest(len(nearest))}"
    )
    if line:
        says += f" It costs {cost} in all as asked."
    head = ("entry", "logged", "what differs", "brought to this piece")
    rows = tuple(
        (name, f"{one.price:,.0f}", _factors(one), f"{one.adjusted:,.0f}") for name, one in nearest
    )
    chart = Chart(f"Prices in {currency}, by ratio", says, "amounts", tuple(bars), line)
    return Picture(chart, Table(f"The nearest entries of your log, {currency}", head, rows, (1, 3)))


def _nearest(many: int) -> str:
    names = "entry of the log is" if many == 1 else "entries of the log are"
    return f"The {many} nearest {names} shown at the price brought to this piece."


def _bar(
    name: str, low: float | None, middle: float | None, high: float | None, strong: bool = False
) -> Bar:
    """A span of prices; nothing can be drawn at no price at all, which is far below any."""
    ends = max(low or 0.0, LEAST), max(high or 0.0, LEAST)
    told = f"{low or 0:,.0f} .. {middle or 0:,.0f} .. {high or 0:,.0f}"
    return Bar(name, told, ends, point=max(middle or 0.0, LEAST), strong=strong)


def _called(matter: Matter, one: Comparable) -> str:
    return matter.titles.get(one.id) or f"entry {one.id[:8]}"


def _factors(one: Comparable) -> str:
    told = ", ".join(f"{name} x{by:.2f}" for name, by in one.factors if abs(by - 1) >= 0.005)
    return told or "nothing that counts"


def bid(matter: Matter) -> Iterator[Block]:
    """What to offer, where to walk away, and the bill at that."""
    advice = matter.verdict.money
    if advice is None:
        if matter.verdict.no_terms:
            yield Paragraph(why_no_limit(matter.verdict), "warn")
        return
    if matter.verdict.holds_back:
        yield Paragraph(no_maximum(matter.verdict.holds_back), "warn")
        return
    walk = advice.advice.walk_away
    if walk is None:
        yield Paragraph("Do not buy: nothing is left for it.", "warn")
        return
    yield Paragraph(f"Walk away above {walk}.", "lead")
    rows = (
        ("asked", str(matter.piece.asking or "")),
        ("chance worth its cost", _chance(advice)),
        ("offer first", str(advice.opening or "")),
    )
    told = tuple((name, (says,)) for name, says in rows if says)
    if told:
        yield Facts(told)
    bill = advice.advice.bill
    if bill is not None and bill.total != walk:
        yield Table(
            f"The bill at that, {advice.venue.name}", ("line", "amount"), bill_rows(bill), (1,)
        )
        if bill.exchange is not None:
            yield Paragraph(f"{exchange_said(bill).capitalize()}.")


def _chance(advice: MoneyAdvice) -> str:
    return hundred(advice.worth_its_cost) if advice.worth_its_cost is not None else ""


def paid(matter: Matter) -> Iterator[Block]:
    """What was paid, when and where; never what it may be worth."""
    entry, origin = matter.entry, matter.piece.origin
    rows: list[tuple[str, str]] = []
    if entry is not None:
        amount = entry.paid or entry.hammer
        bought = entry.record == "bought"
        rows = [
            ("what happened", entry.record),
            ("day", entry.date.isoformat()),
            ("paid", str(entry.paid or "") if bought else ""),
            ("hammer price", _hammer(entry.hammer) if bought else ""),
            ("carriage", str(entry.postage or "") if bought and amount else ""),
            ("where", ", ".join(word for word in (entry.venue, entry.channel) if word)),
        ]
    if origin is not None:
        rows += [("from", origin.who), ("found", origin.where), ("receipt", origin.receipt)]
    told = tuple((name, (says,)) for name, says in rows if says)
    if told:
        yield Facts(told)
    if not any(name in ("paid", "hammer price") for name, _ in told):
        yield Paragraph("What was paid is not recorded.")
    yield Paragraph(NO_VALUE, "warn")


def _hammer(amount: Money | None) -> str:
    return f"{amount}, before premium, tax and carriage" if amount else ""
