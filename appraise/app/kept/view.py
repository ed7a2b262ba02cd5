"""The Kept screen: what one owns as a plain table, with its filter line."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.widgets import Input

from appraise.app.actions import bindings_of
from appraise.app.kept import deeds
from appraise.app.kept.acts import PieceActs
from appraise.app.kept.keptlines import KeptList, foot, heading, nothing, table
from appraise.app.lines import EMPTY, Line
from appraise.app.messages import Ready
from appraise.app.pane import Foot, Pane
from appraise.app.prices.deeds import with_currency
from appraise.app.prices.editor import FilterLine
from appraise.base.errors import InputError
from appraise.collection.owned_filter import filtered
from appraise.collection.upkeep import Due, due
from appraise.records.owned import OwnedPiece as Owned
from appraise.records.stored import Stored
from appraise.store.owned_pieces import every

WRITE = "/ filters: girl vine place:box status:lent dated:1858 due:yes"
ORDERS = ("number", "due", "place")
LATE = 10**6  # days: nothing is due


class Kept(PieceActs, inherit_bindings=False):
    """What one owns."""

    AREA = "kept"
    BINDINGS: ClassVar[list[BindingType]] = bindings_of("kept")

    def __init__(self) -> None:
        super().__init__()
        self._known: tuple[Stored[Owned], ...] = ()
        self._shown: list[Stored[Owned]] = []
        self._dues: dict[str, tuple[Due, ...]] = {}
        self._query = self._why = ""
        self._order = ORDERS[0]
        self._at = 0
        self._rows = 1

    def compose(self) -> ComposeResult:
        """Title, filter, table, keys."""
        head = Pane(self.draw_head, id="head")
        head.styles.height = 2
        yield head
        yield FilterLine(self.leave_filter, WRITE)
        yield Pane(self.draw, id="body")
        yield Foot(self.AREA)

    @property
    def here(self) -> Stored[Owned] | None:
        """The piece one is at."""
        return self._shown[self._at] if self._at < len(self._shown) else None

    def on_mount(self) -> None:
        """Read the log."""
        self.read()

    def on_screen_resume(self) -> None:
        """Read the log again: something may have been done on a page."""
        self.read()

    @on(Ready)
    def ready(self, message: Ready) -> None:
        """The knowledge has come: what is due can be said."""
        self.read()

    def draw_head(self, width: int, height: int) -> Sequence[Line]:
        """The title."""
        return self.head("Kept", "", width)

    def draw(self, width: int, height: int) -> Sequence[Line]:
        """Column names, the pieces, and the foot."""
        self._rows = max(1, height - 3)
        shelf = KeptList(
            self._shown, self._dues, self._at, len(self._known), self._query, self._why
        )
        marks = self.session.marks
        body = table(shelf, self._rows, width, marks) if self._shown else nothing(shelf)
        filled = [*body, *[EMPTY] * self._rows][: self._rows]
        return [heading(width), *filled, self.rule(width), foot(shelf, self._order, width)]

    def read(self) -> None:
        """Read the log; the piece one is at stays marked."""
        session, at = self.session, self.here.id if self.here else ""

        def look() -> None:
            self._known = every(session.log)
            if session.knowledge is not None:
                self._dues = {
                    one.id: due(one.thing, session.knowledge, session.as_of) for one in self._known
                }

        if self.attempt(look):
            self._choose(at)

    def _choose(self, at: str = "") -> None:
        """Take the pieces that the filter fits; one that cannot be read leaves all as it was."""
        session = self.session
        try:
            found = filtered(self._known, self._query, session.knowledge, session.as_of)
            self._why = ""
        except InputError as error:
            self._why = str(error)
            self.redraw()
            return
        self._shown = sorted(found, key=self._rank) if self._order != "number" else list(found)
        place = next((n for n, one in enumerate(self._shown) if one.id == at), self._at)
        self._at = max(0, min(place, len(self._shown) - 1))
        self.redraw()

    def _rank(self, one: Stored[Owned]) -> tuple[int, str]:
        if self._order == "place":
            return (not one.thing.place, one.thing.place.casefold())
        dues = self._dues.get(one.id, ())
        return (dues[0].left if dues else LATE, "")

    # The filter

    def action_filter(self) -> None:
        """Begin to type a filter."""
        typed = self.query_one(FilterLine)
        typed.disabled = False
        self.set_focus(typed)
        self._keys_of("filter")

    @on(Input.Changed, "#filter")
    def filtered(self, event: Input.Changed) -> None:
        """Filter as it is typed."""
        self._query = event.value
        self._choose(self.here.id if self.here else "")

    def leave_filter(self, clears: bool) -> None:
        """Back to the table."""
        typed = self.query_one(FilterLine)
        if clears:
            typed.value = ""
        typed.disabled = True
        self.set_focus(None)
        self._keys_of(self.AREA)

    def _keys_of(self, area: str) -> None:
        keys = self.query_one(Foot)
        keys.area = area
        keys.refresh(layout=True)

    def action_close(self) -> None:
        """Clear the filter, or leave when there is none."""
        typed = self.query_one(FilterLine)
        if typed.value:
            typed.value = ""
        else:
            self.dismiss(None)

    # Walking

    def action_step(self, by: int) -> None:
        """So many lines on."""
        self._at = max(0, min(len(self._shown) - 1, self._at + by))
        self.redraw()

    def action_leap(self, by: int) -> None:
        """So many pages on."""
        self.action_step(by * self._rows)

    def action_end(self, way: int) -> None:
        """To the first or the last line."""
        self.action_step(way * len(self._shown))

    def action_order(self) -> None:
        """Another order."""
        self._order = ORDERS[(ORDERS.index(self._order) + 1) % len(ORDERS)]
        self._choose(self.here.id if self.here else "")

    # Pieces

    def action_open(self) -> None:
        """The page of the piece; in an empty table, keep one."""
        if self.here is None:
            if not self._query:
                self.action_new()
            return
        from appraise.app.kept.page import OwnedPage  # 10 ms

        self.app.push_screen(OwnedPage(self.here))

    def action_new(self) -> None:
        """Keep a piece that was bought."""
        deeds.keep_bought(self, self._kept)

    def action_own(self) -> None:
        """Add a piece that is not in the log."""
        with_currency(self, lambda: deeds.keep_own(self, self._kept))

    def _kept(self, one: Stored[Owned]) -> None:
        self.read()
        self._choose(one.id)

    def action_due(self) -> None:
        """What is due."""
        from appraise.app.kept.asked import open_due

        open_due(self, self._shown)

    def action_air(self) -> None:
        """Air and light against the figures."""
        from appraise.app.kept.asked import ask_air

        ask_air(self, self._shown)
