"""The maximum for a lot, and the page of a lot as a document."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from appraise.collection.budget_status import lot_terms
from appraise.collection.lotworth import all_valued, lot_advice
from appraise.documents.bid import bid_sections, condition, named
from appraise.documents.document import Block, Document, Paragraph, section
from appraise.documents.lotbid import LotMaximum, pieces_section
from appraise.documents.lots import items_section, lot_section
from appraise.pricing.money import terms_of
from appraise.store.venue_book import read_budget_status
from appraise.verdict.pay import sentences

if TYPE_CHECKING:
    from appraise.app.session import Session
    from appraise.documents.lotbid import LotMaximum
    from appraise.documents.lots import Now
    from appraise.records.lot import Lot
    from appraise.records.stored import Stored
    from appraise.verdict import Verdict


def maximum_for(
    session: Session, held: Stored[Lot], verdicts: Sequence[Verdict | None]
) -> LotMaximum:
    """One maximum for a lot.

    Args:
        session: This run.
        held: The lot; one that is not followed has no id.
        verdicts: On each of its pieces; None where nothing of it was noted.

    Raises:
        InputError: where a rate is missing, with the way to enter it; where it holds no piece and
            no limit was decided.
    """
    lot, code, book, on = held.thing, session.settings.currency, session.book, session.as_of
    venue = lot_terms(lot, book, code, on)
    house = book.for_sale(lot.venue, lot.channel)
    house = house if house and house.currency == lot.currency else None
    terms = terms_of(session.settings, (house.channel if house else "") or lot.channel)
    pieces = all_valued(lot, verdicts, lambda one: book.turned(one, code, on))
    advice = lot_advice(lot, pieces, terms, venue)
    purse = read_budget_status(session.log, code, on).without(held.id)
    return LotMaximum(lot, advice, house, venue, terms.bidders, purse)


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
    open_parts = bid_sections(told.maximum, now.as_of) if lot.open else ()
    head = section("most", "", *_most(told)) if lot.open else ()
    return Document(lot.title, (*head, *fields, *pieces_section(told), *open_parts))


def _most(told: LotMaximum) -> Iterator[Block]:
    """The one figure that a hurried reader wants, first; or why there is none."""
    pay, home = told.advice.pay, told.advice.ceiling.currency
    if pay.limit is None or pay.bill is None:
        yield Paragraph(" ".join(sentences(pay, home)), "warn")
        return
    whole = f", {pay.bill.total} in total" if pay.bill.total != pay.limit else ""
    yield Paragraph(f"{named(pay)}: {pay.limit}{whole}", "lead")
    yield Paragraph(condition(pay), "doubt")
