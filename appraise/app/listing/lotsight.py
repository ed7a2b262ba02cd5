"""One maximum for all pieces that a listing offers, before the lot is followed."""

from __future__ import annotations

from collections.abc import Sequence

from appraise.app.lines import EMPTY, Line, fold
from appraise.app.lots.actions import now_in
from appraise.app.lots.lotlines import Verdicts, bidding, judging, lot_page
from appraise.app.page import FoundPage, document_rows
from appraise.app.session import Session
from appraise.records.lot import Lot
from appraise.records.stored import Stored


def lot_sight(session: Session, offers: str, lot: Lot) -> FoundPage[Verdicts]:
    """The lot that a listing offers: its pieces, the bill, the maximum bid."""
    held = Stored("", lot)

    def write(verdicts: Verdicts | None, width: int) -> Sequence[Line]:
        page = lot_page(held, *bidding(session, held, verdicts), now_in(session))
        head = fold(f"{offers[0].upper()}{offers[1:]}.", width, role="strong")
        return [*head, EMPTY, *document_rows(page, width, session.marks)]

    return FoundPage(lot.title, judging(session, lot), write)
