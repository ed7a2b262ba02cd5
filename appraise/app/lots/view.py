"""The Lots screen: a plain table of what is followed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.binding import BindingType

from appraise.app.actions import bindings_of
from appraise.app.lines import EMPTY, Line
from appraise.app.lots import deeds
from appraise.app.lots.deeds import MINUTE, now_in
from appraise.app.lots.lotlines import lots_foot, lots_table
from appraise.app.sheet import Sheet
from appraise.app.undoing import Undoes
from appraise.collection.budget_status import BudgetStatus
from appraise.collection.lotsteps import by_closing
from appraise.records.lot import Lot
from appraise.records.stored import Stored
from appraise.store.records import held
from appraise.store.venue_book import read_budget_status

ABOVE, BELOW = 2, 2  # lines above and below the table


class LotsScreen(Undoes, Sheet[None], inherit_bindings=False):
    """The lots that are followed."""

    AREA = "lots"
    SHOWS = frozenset({"lot", "budget"})
    BINDINGS: ClassVar[list[BindingType]] = bindings_of("lots")

    def __init__(self) -> None:
        super().__init__()
        self._known: tuple[Stored[Lot], ...] = ()
        self._shown: list[Stored[Lot]] = []
        self._purse: BudgetStatus | None = None
        self._every = False
        self._at = 0

    @property
    def here(self) -> Stored[Lot] | None:
        """The lot that is marked."""
        return self._shown[self._at] if self._at < len(self._shown) else None

    def draw(self, width: int, height: int) -> Sequence[Line]:
        """Title, table, and what is left to spend."""
        session, rows = self.session, max(1, height - ABOVE - BELOW)
        body = lots_table(self._shown, self._at, now_in(session), width, rows, session.marks)
        filled = [*body, *[EMPTY] * rows][:rows]
        ended = sum(not one.thing.open for one in self._known) if not self._every else 0
        foot = lots_foot(len(self._shown), ended, self._purse, width)
        return [*self.head("Lots", "", width), *filled, self.rule(width), foot]

    def on_mount(self) -> None:
        """Read the log, and look at the clock once a minute."""
        self.read()
        self.set_interval(MINUTE, self.redraw)

    def on_screen_resume(self) -> None:
        """Read the log again: something may have changed on the page of a lot."""
        self.read()

    def read(self) -> None:
        """Read the log; the marked lot stays marked."""
        session, at = self.session, self.here.id if self.here else ""

        def look() -> None:
            self._known = held(session.log, Lot)
            self._purse = read_budget_status(session.log, session.settings.currency, session.as_of)

        self.attempt(look)
        self._shown = [one for one in self._known if self._every or one.thing.open]
        self._shown.sort(key=lambda one: by_closing(one.thing, None))
        found = (place for place, one in enumerate(self._shown) if one.id == at)
        self._at = next(found, max(0, min(self._at, len(self._shown) - 1)))
        self.redraw()

    def action_step(self, by: int) -> None:
        """Mark another lot."""
        self._at = max(0, min(len(self._shown) - 1, self._at + by))
        self.redraw()

    def action_every(self) -> None:
        """Show or hide ended lots."""
        self._every = not self._every
        self.read()

    def action_open(self) -> None:
        """The page of the marked lot."""
        if self.here is None:
            self.action_follow()
            return
        from appraise.app.lots.lotpage import LotPage  # 5 ms

        self.app.push_screen(LotPage(self.here))

    def action_follow(self) -> None:
        """Mark another lot."""
        deeds.follow(self, then=self.read)

    def action_edit(self) -> None:
        """Edit the marked lot."""
        if self.here is not None:
            deeds.edit(self, self.here, self.read)

    def action_remove(self) -> None:
        """Follow it no more."""
        if self.here is not None:
            deeds.remove(self, self.here, self.read)

    def action_budget(self) -> None:
        """What may be spent."""
        deeds.budget(self, self.read)

    def reread(self) -> None:
        """Show the log as it is now."""
        self.read()
