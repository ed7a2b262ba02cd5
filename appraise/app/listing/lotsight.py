"""One maximum for all pieces that a listing offers, before the lot is followed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual import on

from appraise.app.lines import EMPTY, Line, fold
from appraise.app.lots.actions import now_in
from appraise.app.lots.job import LotJudged, judge_lot
from appraise.app.lots.lotlines import lot_page, maximum_for
from appraise.app.page import Page, document_rows
from appraise.base.errors import AppraiseError
from appraise.records.stored import Stored

if TYPE_CHECKING:
    from appraise.documents.lotbid import LotMaximum
    from appraise.records.lot import Lot

JUDGING = "The pieces are being judged ..."


class LotSight(Page):
    """The lot that a listing offers: its pieces, the bill, the maximum bid."""

    def __init__(self, offers: str, lot: Lot) -> None:
        super().__init__(lot.title, self.lines)
        self._offers = f"{offers[0].upper()}{offers[1:]}."
        self._held = Stored("", lot)
        self._told: LotMaximum | None = None
        self._waits = JUDGING

    def on_mount(self) -> None:
        judge_lot(self, self.session, self._held.thing, 0)

    @on(LotJudged)
    def judged(self, message: LotJudged) -> None:
        """Show what the lot may cost, or why that is not known."""
        message.stop()
        try:
            self._told = maximum_for(self.session, self._held, message.verdicts)
        except AppraiseError as error:
            self._waits = f"No bid yet: {error}"
        self.redraw()

    def lines(self, width: int) -> Sequence[Line]:
        """The page in lines of a width."""
        session = self.session
        head = [*fold(self._offers, width, role="strong"), EMPTY]
        page = lot_page(self._held, self._told, self._waits, now_in(session))
        return [*head, *document_rows(page, width, session.marks)]
