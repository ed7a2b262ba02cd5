"""The page of a lot: what is in it, what it may cost, and what became of it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from textual import on

from appraise.app import work
from appraise.app.discretion import HIDDEN
from appraise.app.lines import Line
from appraise.app.lists.page import RecordPage
from appraise.app.lots.actions import MINUTE, now_in
from appraise.app.lots.job import LotJudged, judge_lot
from appraise.app.lots.lotlines import lot_page, maximum_for
from appraise.app.page import document_rows
from appraise.base.errors import AppraiseError

if TYPE_CHECKING:
    from appraise.app.lists.spec import RecordSpec
    from appraise.documents.lotbid import LotMaximum
    from appraise.records.stored import Stored
    from appraise.verdict import Verdict

JUDGING = "The pieces are being judged ..."


class LotPage(RecordPage):
    """One lot."""

    def __init__(self, spec: RecordSpec[Any], one: Stored[Any]) -> None:
        super().__init__(spec, one)
        self.verdicts: tuple[Verdict | None, ...] | None = None
        self.maximum: LotMaximum | None = None
        self._turn = 0
        self._waits = JUDGING

    def begin(self) -> None:
        """Have the pieces judged, and look at the clock once a minute."""
        work.learn_prices(self.app, self.session)
        self.read()
        self.set_interval(MINUTE, self.redraw)

    def facts(self, width: int) -> Sequence[Line]:
        """The lot, its pieces, and while it is open the bill and the maximum."""
        session = self.session
        told, waits = (None, HIDDEN) if session.discreet else (self.maximum, self._waits)
        page = lot_page(self.stored, told, waits, now_in(session))
        return document_rows(page, width, session.marks)

    def read(self, seek: str = "") -> None:
        """Read the lot anew, and have it judged."""
        super().read(seek)
        self._turn += 1
        lot = self.stored.thing
        if any(one.piece for one in lot.items):
            judge_lot(self, self.session, lot, self._turn)
        else:
            self._take((None,) * len(lot.items))

    @on(LotJudged)
    def judged(self, message: LotJudged) -> None:
        """Show what the pieces are worth; of an earlier state it is dropped."""
        message.stop()
        if message.turn == self._turn:
            self._take(message.verdicts)

    def _take(self, verdicts: tuple[Verdict | None, ...]) -> None:
        self.verdicts = verdicts
        try:
            self.maximum = maximum_for(self.session, self.stored, verdicts)
        except AppraiseError as error:
            self.maximum, self._waits = None, f"No bid yet: {error}"
        self.redraw()
