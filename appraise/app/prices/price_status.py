"""How an entry's price stands in the log: what it comes to in all, and whether it fits."""

from __future__ import annotations

from appraise.app.lines import EMPTY, Line, fold
from appraise.app.session import Session
from appraise.documents.bid import line_name
from appraise.pricing.cost_basis import bill_of
from appraise.records.entry import Entry

LABEL = 12  # cells
LEARNT_AT_ONCE = 5_000
"""Entries up to which the log is learnt as soon as it is shown, so that odd prices are marked."""


def status_lines(session: Session, entry: Entry, width: int) -> list[Line]:
    """What stands above an entry's fields; nothing where its price is as it was noted and fits."""
    out: list[Line] = []
    odd = session.odd(entry.id)
    if odd:
        out += fold(odd, width, "? ", role="doubt", lead_role="doubt")
    bill = bill_of(entry, session.settings.currency, session.book)
    if bill is not None and len(bill.lines) > 1:
        parts = ", ".join(f"{line_name(one)} {one.amount.plain}" for one in bill.lines)
        told = f"{bill.total} to you ({parts})"
        out += fold(told, width, f"{'total':<{LABEL}} ", lead_role="quiet")
    return [*out, EMPTY] if out else []
