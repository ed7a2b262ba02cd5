"""The maximum for a lot, and the page of a lot as a document."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from appraise.app.session import Session
from appraise.base.errors import AppraiseError
from appraise.documents.bid import bid_sections, condition, named
from appraise.documents.document import Block, Document, Paragraph, section
from appraise.documents.lotbid import LotMaximum, lot_maximum, no_worth_known, pieces_section
from appraise.documents.lots import Now, items_section, lot_section
from appraise.knowledge.records import Knowledge
from appraise.records.lot import Lot
from appraise.records.stored import Stored
from appraise.store.venue_book import read_budget_status
from appraise.verdict import Verdict
from appraise.verdict.pay import sentences

JUDGING = "The pieces are being judged ..."
Verdicts = tuple["Verdict | None", ...]


def maximum_for(session: Session, held: Stored[Lot], verdicts: Verdicts) -> LotMaximum:
    """One maximum for a lot; one that is not followed has no id. Errors as in `lot_maximum`."""
    settings, on = session.settings, session.as_of
    told = lot_maximum(held.thing, verdicts, settings, session.book, on)
    purse = read_budget_status(session.log, settings.currency, on).without(held.id)
    return replace(told, purse=purse)


def judging(session: Session, lot: Lot) -> Callable[[Knowledge], Verdicts]:
    """The job that judges each piece of a lot; 15 to 90 ms a piece."""

    def job(knowledge: Knowledge) -> Verdicts:
        from appraise.collection.lotworth import judged  # 15 ms, first time

        return tuple(judged(lot, knowledge, session.judge))

    return job


def bidding(
    session: Session, held: Stored[Lot], verdicts: Verdicts | None
) -> tuple[LotMaximum | None, str]:
    """What to bid by the verdicts on the pieces, or why that is not known."""
    if verdicts is None:
        return None, JUDGING
    try:
        return maximum_for(session, held, verdicts), ""
    except AppraiseError as error:
        return None, f"No bid yet: {error}"


def lot_page(held: Stored[Lot], told: LotMaximum | None, waits: str, now: Now) -> Document:
    """The page of a lot: its fields, its pieces, and while it is open the bill and the maximum.

    Args:
        held: The lot.
        told: What to bid; None where that is not known.
        waits: Why it is not known.
        now: From when and where one looks.
    """
    lot, fields = held.thing, lot_section(held, now)
    if told is None:
        wait = section("waits", "", Paragraph(waits, "doubt"))
        return Document(lot.title, (*fields, *items_section(lot), *wait))
    bears = lot.open and not no_worth_known(told)
    open_parts = bid_sections(told.maximum, now.as_of) if bears else ()
    head = section("most", "", *_most(told)) if lot.open else ()
    return Document(lot.title, (*head, *fields, *pieces_section(told, warned=bears), *open_parts))


def _most(told: LotMaximum) -> Iterator[Block]:
    """The one figure that a hurried reader wants, first; or why there is none."""
    pay, home = told.advice.pay, told.advice.ceiling.currency
    if pay.limit is None or pay.bill is None:
        yield Paragraph(" ".join(sentences(pay, home)), "warn")
        return
    whole = f", {pay.bill.total} in total" if pay.bill.total != pay.limit else ""
    yield Paragraph(f"{named(pay)}: {pay.limit}{whole}", "lead")
    yield Paragraph(condition(pay), "doubt")
