"""The page of a lot: what is in it, what it may cost, and what became of it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.binding import BindingType

from appraise.app import work
from appraise.app.actions import bindings_of
from appraise.app.discretion import HIDDEN
from appraise.app.lines import Line
from appraise.app.lots import deeds
from appraise.app.lots.deeds import MINUTE, now_in
from appraise.app.lots.job import LotJudged, judge_lot
from appraise.app.lots.lotlines import lot_page
from appraise.app.lots.maximum import maximum_for
from appraise.app.messages import Ready
from appraise.app.page import Page, document_rows
from appraise.app.picker import Choice, Picker
from appraise.app.undoing import Undoes
from appraise.base.errors import AppraiseError
from appraise.records.lot import Lot
from appraise.records.stored import Stored
from appraise.store.records import held

if TYPE_CHECKING:
    from appraise.documents.lotbid import LotMaximum
    from appraise.verdict import Verdict

JUDGING = "The pieces are being judged ..."
GONE = "This lot has been removed."


class LotPage(Undoes, Page, inherit_bindings=False):
    """One lot."""

    AREA = "lot"
    SHOWS = frozenset({"lot", "budget"})
    BINDINGS: ClassVar[list[BindingType]] = bindings_of("lot")

    def __init__(self, lot: Stored[Lot]) -> None:
        super().__init__(lot.thing.title, self.lines)
        self.held = lot
        self._verdicts: tuple[Verdict | None, ...] | None = None
        self._turn = 0
        self._told: LotMaximum | None = None
        self._waits = JUDGING

    def on_mount(self) -> None:
        """Have the pieces judged, and look at the clock once a minute."""
        work.learn_prices(self.app, self.session)
        self._judge()
        self.set_interval(MINUTE, self.redraw)

    def lines(self, width: int) -> Sequence[Line]:
        """The page in lines of a width."""
        session = self.session
        hides = session.discreet
        told, waits = (None, HIDDEN) if hides else (self._told, self._waits)
        page = lot_page(self.held, told, waits, now_in(session))
        return document_rows(page, width, session.marks)

    @on(Ready)
    def ready(self, message: Ready) -> None:
        """Knowledge or prices have come: judge again."""
        self._judge()

    def _judge(self) -> None:
        self._turn += 1
        lot = self.held.thing
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
        self._verdicts = verdicts
        try:
            self._told = maximum_for(self.session, self.held, verdicts)
        except AppraiseError as error:
            self._told, self._waits = None, f"No bid yet: {error}"
        self.redraw()

    def again(self) -> None:
        """Read the lot anew; leave where it is followed no more."""
        found: list[Stored[Lot]] = []
        if not self.attempt(lambda: found.extend(held(self.session.log, Lot))):
            return
        now = next((one for one in found if one.id == self.held.id), None)
        if now is None:
            self.dismiss(None)
            return
        self.held, self._title = now, now.thing.title
        self._judge()
        self.redraw()

    def action_edit(self) -> None:
        """Edit the lot's fields."""
        deeds.edit(self, self.held, self.again)

    def action_piece(self) -> None:
        """Say what is to become of a piece."""
        items = self.held.thing.items
        if not items:
            self.say("No pieces recorded. a adds one.")
        elif len(items) == 1:
            deeds.edit_piece(self, self.held, 1, self.again)
        else:
            choices = [
                Choice(str(place), one.title, " ", one.plan)
                for place, one in enumerate(items, start=1)
            ]

            def take(number: str | None) -> None:
                if number:
                    deeds.edit_piece(self, self.held, int(number), self.again)

            self.app.push_screen(Picker("Which piece?", choices), take)

    def action_add_piece(self) -> None:
        """Put a further piece into it."""
        deeds.add_piece(self, self.held, self.again)

    def action_bid(self) -> None:
        """Note the bid that was placed."""
        deeds.bid(self, self.held, self._told.advice if self._told else None, self.again)

    def action_won(self) -> None:
        """Log it as won."""
        self._settle("won")

    def action_lost(self) -> None:
        """Note it as lost."""
        self._settle("lost")

    def _settle(self, state: str) -> None:
        lot = self.held.thing
        if not lot.open:
            self.say(f"It was {lot.state} on {lot.ended}; u: undo the last change.")
        elif self._verdicts is None:
            self.say(JUDGING)
        else:
            deeds.settle(self, self.held, self._verdicts, state, self.again)

    def action_passed(self) -> None:
        """Let it go."""
        deeds.passed(self, self.held, self.again)

    def action_remove(self) -> None:
        """Follow it no more."""
        deeds.remove(self, self.held, lambda: self.dismiss(None))

    def reread(self) -> None:
        """Show the log as it is now."""
        self.again()
