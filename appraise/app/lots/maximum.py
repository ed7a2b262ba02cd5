"""The maximum for a lot, as its page and the Listing screen show it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from appraise.collection.budget_status import lot_terms
from appraise.collection.lotworth import all_valued, lot_advice
from appraise.documents.lotbid import LotMaximum
from appraise.pricing.money import terms_of
from appraise.store.venue_book import read_budget_status

if TYPE_CHECKING:
    from appraise.app.session import Session
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
