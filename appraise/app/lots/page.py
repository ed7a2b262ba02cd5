"""The page of a lot: what is in it, what it may cost, and what became of it."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING, Any

from appraise.app.discretion import HIDDEN
from appraise.app.lines import EMPTY, Line, fold
from appraise.app.lists.page import RecordPage
from appraise.app.lots.actions import MINUTE, now_in
from appraise.app.lots.lotlines import JUDGING, Verdicts, bidding, judging, lot_page
from appraise.app.page import FoundPage, document_rows
from appraise.app.session import Session
from appraise.app.work import compute
from appraise.records.lot import Lot
from appraise.records.stored import Stored

if TYPE_CHECKING:
    from appraise.app.lists.spec import RecordSpec
    from appraise.documents.lotbid import LotMaximum
    from appraise.records.stored import Stored


class LotPage(RecordPage):
    """One lot."""

    def __init__(self, spec: RecordSpec[Any], one: Stored[Any]) -> None:
        super().__init__(spec, one)
        self.verdicts: Verdicts | None = None
        self.maximum: LotMaximum | None = None
        self._turn = 0
        self._waits = JUDGING

    def on_mount(self) -> None:
        """Have the log learnt, and look at the clock once a minute."""
        self.learn_prices()
        self.set_interval(MINUTE, self.redraw)

    def facts(self, width: int) -> Sequence[Line]:
        """The lot, its pieces, and while it is open the bill and the maximum."""
        session = self.session
        told, waits = (None, HIDDEN) if session.discreet else (self.maximum, self._waits)
        page = lot_page(self.stored, told, waits, now_in(session))
        return document_rows(page, width, session.marks)

    def read(self, seek: str = "") -> None:
        super().read(seek)
        self._turn += 1
        lot = self.stored.thing
        if any(one.piece for one in lot.items):
            judge = judging(self.session, lot)
            compute(self, "lot", judge, partial(self.judged, self._turn))
        else:
            self.judged(self._turn, (None,) * len(lot.items))

    def judged(self, turn: int, verdicts: Verdicts) -> None:
        """Show what the pieces are worth; of an earlier state it is dropped."""
        if turn == self._turn:
            self.verdicts = verdicts
            self.maximum, self._waits = bidding(self.session, self.stored, verdicts)
            self.redraw()


def lot_sight(session: Session, offers: str, lot: Lot) -> FoundPage[Verdicts]:
    """The lot that a listing offers: its pieces, the bill, the maximum bid."""
    held = Stored("", lot)

    def write(verdicts: Verdicts | None, width: int) -> Sequence[Line]:
        page = lot_page(held, *bidding(session, held, verdicts), now_in(session))
        head = fold(f"{offers[0].upper()}{offers[1:]}.", width, role="strong")
        return [*head, EMPTY, *document_rows(page, width, session.marks)]

    return FoundPage(lot.title, judging(session, lot), write)
