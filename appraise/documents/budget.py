"""What is left to spend."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

from appraise.base.jsonvalues import picked
from appraise.base.money import Money
from appraise.base.oneline import counted
from appraise.collection.budget_status import BudgetStatus
from appraise.documents.document import Bullets, Document, Paragraph, Table, Tone, section

NONE = "No budget set. 'appraise budget 150 --per month' sets one."


def period_words(purse: BudgetStatus) -> str:
    """'November 2026', or '2026'."""
    return f"{purse.first:%Y}" if purse.per == "year" else f"{purse.first:%B %Y}"


def purse_line(purse: BudgetStatus) -> str:
    """What is left in one line, or by how much the budget is overdrawn; '' without a budget."""
    if purse.left is None:
        return ""
    if purse.left.amount < 0:
        return f"{Money(-purse.left.amount, purse.currency)} over this {purse.per}'s budget"
    return f"{purse.left} left this {purse.per}"


def promised_line(purse: BudgetStatus) -> str:
    """What the bids that stand cost, in a line; '' where none stands or none can be counted."""
    if not purse.if_all_win.amount:
        return ""
    expected = f", {purse.expected.plain} expected" if purse.expected is not None else ""
    return f"bids {purse.if_all_win.plain} if all win{expected}"


def budget_document(purse: BudgetStatus) -> Document:
    """The sum as a sum, the bids that stand, and what is left out."""
    head = (
        ()
        if purse.budget is not None
        else (
            Paragraph("" if purse.unturned else NONE),
            Paragraph(f"{period_words(purse)}, in {purse.currency}"),
        )
    )
    bids = tuple(
        f"{one.title}: bid {one.bid}, {one.cost} in total"
        + ("" if one.chance is None else f", chance {one.chance}%")
        for one in purse.promises
        if one.cost is not None
    )
    rows = tuple(_rows(purse))
    table = Table("", (), rows, (1,), len(rows) - 1 if purse.left is not None else None)
    notes = (Paragraph(one, tone) for one, tone in _notes(purse))
    return Document("", section("budget", "", *head, table, Bullets(bids), *notes))


def _rows(purse: BudgetStatus) -> Iterator[tuple[str, str]]:
    if purse.budget is not None:
        yield f"budget, {period_words(purse)}", purse.budget.plain
    yield f"paid for {counted(purse.bought, 'piece')}", purse.spent.plain
    bids = counted(len(purse.promises) - len(purse.uncounted), "bid")
    yield f"{bids} open, if all win", purse.if_all_win.plain
    if purse.left is not None:
        yield "left", purse.left.plain


def _notes(purse: BudgetStatus) -> Iterator[tuple[str, Tone]]:
    """What the sum leaves out, and what to expect of it."""
    if purse.unturned is not None:
        yield f"the budget of {purse.unturned} is not used: no rate to {purse.currency}", "doubt"
    if purse.expected is not None:
        yield (
            f"by your estimated chances, expect to pay {purse.expected} for the open bids",
            "plain",
        )
    for one in purse.uncounted:
        yield f"not counted, no rate for {one.bid.currency}: {one.title}, bid {one.bid}", "doubt"
    for amount in purse.without_rate:
        yield f"not counted, no rate for {amount.currency}: {amount} paid", "doubt"
    if purse.left is not None and purse.left.amount < 0:
        bids = "Your open bids exceed the budget."
        yield (bids if purse.promises else "What you spent exceeds the budget."), "warn"


def purse_json(purse: BudgetStatus, as_of: date) -> dict[str, Any]:
    """The same as JSON, schema "appraise.budget/1"."""
    bids = [picked(one, "title bid chance", lot=one.id, total=one.cost) for one in purse.promises]
    return {
        "schema": "appraise.budget/1",
        "as_of": as_of.isoformat(),
        "per": purse.per or None,
        "from": purse.first.isoformat(),
        "to": purse.last.isoformat(),
        **picked(purse, "currency budget spent bought if_all_win expected left without_rate"),
        "bids": bids,
    }
