"""What a piece is worth by the log and what to bid; and what was paid for it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from appraise.base.logday import day_in_words
from appraise.base.percents import percent
from appraise.documents import words
from appraise.documents.bid import bill_table, exchange_said
from appraise.documents.chart import Bar, Chart
from appraise.documents.document import Block, Facts, Paragraph, Picture, Table, Tone
from appraise.documents.reports.report_input import ReportInput
from appraise.verdict import pay_of
from appraise.verdict.pay import LIMIT, no_estimate, sentences

if TYPE_CHECKING:
    from appraise.pricing.comparables import Comparable
    from appraise.pricing.money import MoneyAdvice
    from appraise.pricing.worth import Worth

LEAST = 0.5  # the lowest price that is drawn, in units of the currency
NO_VALUE = (
    "The price paid is a record, not a valuation. This report holds no estimate and is not an "
    "appraisal for insurance, tax or estate: ask a licensed or qualified appraiser for one."
)


def worth(matter: ReportInput) -> Iterator[Block]:
    """The worth by the user's own log, with the picture of prices and the entries behind it."""
    verdict = matter.verdict
    found = verdict.worth
    if found is None:
        estimate = verdict.estimate
        yield Paragraph(estimate.why if estimate is not None else no_estimate(verdict))
        return
    told = words.about(found.low, found.median, found.high, verdict.currency)
    level = percent(found.estimate.level)
    yield Paragraph(f"Worth {told} by your own log ({level} range).", "lead")
    yield Paragraph(found.why)
    yield from (Paragraph(note, "doubt") for note in verdict.notes)
    yield _prices(matter, found)


def _prices(matter: ReportInput, found: Worth) -> Picture:
    verdict, estimate = matter.verdict, found.estimate
    currency = verdict.currency
    nearest = [(_called(matter, one), one) for one in estimate.comparables]
    spans = (found.low, found.median, found.high), (estimate.low, estimate.median, estimate.high)
    bars = [
        _bar("this piece", *spans[0], strong=True),
        _bar("if its parts belong together", *spans[1]),
        *(Bar(name, f"{one.adjusted:,.0f}", point=one.adjusted) for name, one in nearest),
    ]
    cost = verdict.money.cost if verdict.money else None
    line = (float(cost.amount), f"asked {cost}") if cost is not None and cost.amount > 0 else None
    told = words.about(found.low, found.median, found.high, currency)
    says = f"This piece: {told}. {_nearest(len(nearest))}"
    if line:
        says += f" It costs a total of {cost} as asked."
    head = ("entry", "paid", "differences", "adjusted")
    rows = tuple(
        (name, f"{one.price:,.0f}", _factors(one), f"{one.adjusted:,.0f}") for name, one in nearest
    )
    chart = Chart(f"Prices in {currency}, by ratio", says, "amounts", tuple(bars), line)
    return Picture(chart, Table(f"Similar entries in your log, {currency}", head, rows, (1, 3)))


def _nearest(many: int) -> str:
    names = "similar entry is" if many == 1 else "similar entries are"
    return f"The {many} {names} shown after adjusting for the differences."


def _bar(
    name: str, low: float | None, middle: float | None, high: float | None, strong: bool = False
) -> Bar:
    """A span of prices; nothing can be drawn at no price at all, which is far below any."""
    ends = max(low or 0.0, LEAST), max(high or 0.0, LEAST)
    told = f"{words.amount(middle or 0)} ({words.amount(low or 0)}-{words.amount(high or 0)})"
    return Bar(name, told, ends, point=max(middle or 0.0, LEAST), strong=strong)


def _called(matter: ReportInput, one: Comparable) -> str:
    return matter.titles.get(one.id) or f"entry {one.id[:8]}"


def _factors(one: Comparable) -> str:
    told = ", ".join(f"{name} x{by:.2f}" for name, by in one.factors if abs(by - 1) >= 0.005)
    return told or "none that count"


def bid(matter: ReportInput) -> Iterator[Block]:
    """What to offer and what to pay at most, as far as that stands, and the bill at that."""
    verdict = matter.verdict
    money, pay = verdict.money, pay_of(verdict)
    if verdict.worth is None and not verdict.holds_back:
        return
    asked = verdict.piece.asking
    tone: Tone = "lead" if pay.limit is not None and not pay.missing else "warn"
    yield Paragraph(" ".join(sentences(pay, verdict.currency, asked)), tone)
    rows = (
        ("asked", str(asked or "")),
        (words.CHANCE, _chance(money) if money is not None else ""),
    )
    yield Facts.of(rows)
    if pay.bill is not None and money is not None and pay.bill.total != pay.limit:
        caption = f"Bill at the {pay.name}, {money.venue.name}"
        yield bill_table(pay.bill, pay.name == LIMIT, caption)
        if pay.bill.exchange is not None:
            yield Paragraph(f"{exchange_said(pay.bill).capitalize()}.")


def _chance(advice: MoneyAdvice) -> str:
    return percent(advice.worth_its_cost) if advice.worth_its_cost is not None else ""


def paid(matter: ReportInput) -> Iterator[Block]:
    """What was paid, when and where; never what it may be worth."""
    entry, origin = matter.entry, matter.piece.origin
    rows: list[tuple[str, str]] = []
    if entry is not None:
        amount = entry.paid or entry.hammer
        bought = entry.record == "bought"
        hammer = f"{entry.hammer}, before premium, tax and shipping" if entry.hammer else ""
        rows = [
            ("record", entry.record),
            ("day", day_in_words(entry.date.isoformat())),
            ("paid", str(entry.paid or "") if bought else ""),
            ("hammer price", hammer if bought else ""),
            ("shipping", str(entry.postage or "") if bought and amount else ""),
            ("where", ", ".join(word for word in (entry.venue, entry.channel) if word)),
        ]
    if origin is not None:
        rows += [("from", origin.who), ("found", origin.where), ("receipt", origin.receipt)]
    yield Facts.of(rows)
    if not any(says for name, says in rows if name in ("paid", "hammer price")):
        yield Paragraph("What was paid is not recorded.")
    yield Paragraph(NO_VALUE, "warn")
