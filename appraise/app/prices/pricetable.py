"""A list of prices that may be very long: read, filtered, sorted and walked through."""

from __future__ import annotations

from collections.abc import Sequence

from textual import on
from textual.app import ComposeResult
from textual.widgets import Input

from appraise.app import work
from appraise.app.lines import EMPTY, Line, line
from appraise.app.messages import Ready
from appraise.app.pane import Foot, Pane
from appraise.app.prices.editor import FilterLine
from appraise.app.prices.ledger import Ledger
from appraise.app.prices.lookups import Counted, Disagreed, FilterMeant, Lookups
from appraise.app.prices.orders import SortOrder
from appraise.app.prices.rows import foot, heading, nothing, table
from appraise.app.prices.standing import LEARNT_AT_ONCE
from appraise.app.sheet import Sheet
from appraise.base.errors import AppraiseError
from appraise.records.entry import Entry
from appraise.store.search import Summary
from appraise.store.suggestions import Guess

WRITE = "/ filters: girl vine process:amb price:20..50 date:2025.."
ABOVE = 4  # lines of the screen above the first entry


class PriceTable(Sheet[None], inherit_bindings=False):
    """The table with its filter and foot; what is done to entries is for the screen."""

    AREA = "prices"

    def __init__(self) -> None:
        super().__init__()
        self._query = ""
        self._order = SortOrder()
        self._turn = 0
        self._ledger = Ledger(lambda limit, offset: (), lambda: 0)
        self._summary: Summary | None = None
        self._meant: Guess | None = None
        self._disagree = 0
        self._looked = -1  # the session's changes when disagreements were last looked for
        self._rows = 1

    def compose(self) -> ComposeResult:
        """Title, filter, table, keys."""
        head = Pane(self.draw_head, id="head")
        head.styles.height = 2
        yield head
        yield FilterLine(self.leave_filter, WRITE)
        yield Pane(self.draw, id="body")
        yield Foot(self.AREA)

    def on_mount(self) -> None:
        """Read the log."""
        self._lookups = Lookups(self, self.session.log)
        self._rows = max(1, self.size.height - ABOVE - 3)
        self.read()

    def draw_head(self, width: int, height: int) -> Sequence[Line]:
        """The title, the order, and whether two machines disagree."""
        many = (
            f"{self._disagree} changed on two computers, c resolves    " if self._disagree else ""
        )
        return self.head("Prices", f"{many}{self._order.says}", width)

    def draw(self, width: int, height: int) -> Sequence[Line]:
        """Column names, the entries on the screen, and the foot."""
        self._rows = max(1, height - 3)
        filled = [*self._table(width), *[EMPTY] * self._rows][: self._rows]
        below = foot(self._summary, self._ledger.at, width)
        return [heading(width), *filled, self.rule(width), below]

    def _table(self, width: int) -> Sequence[Line]:
        session = self.session
        try:
            window = self._ledger.window(self._rows)
        except AppraiseError as error:
            return [EMPTY, line("  ", (str(error), "warn"))]
        if not window:
            return nothing(self._query, self._meant)
        at = self._ledger.at
        shown = [(place, self.as_edited(one) if place == at else one) for place, one in window]
        odd = session.learnt.odd if session.learnt else ()
        usual, hides = session.settings.currency, session.discreet
        return table(shown, at, usual, width, session.marks, odd, hides)

    def as_edited(self, entry: Entry) -> Entry:
        """The entry one is at, as it is to be shown."""
        return entry

    @property
    def here(self) -> Entry | None:
        """The entry one is at."""
        return self._ledger.entry(self._ledger.at)

    def read(self, query: str | None = None) -> None:
        """Read the log anew; a filter that cannot be read leaves all as it is.

        Only the rows on the screen are read here: sums and the like come from a worker.
        """
        wanted = self._query if query is None else query
        log, sort = self.session.log, self._order.sort
        same = wanted == self._query

        def fetch(limit: int, offset: int) -> Sequence[Entry]:
            return log.entries(wanted, sort=sort, limit=limit, offset=offset)

        at, top = (self._ledger.at, self._ledger.top) if same else (0, 0)
        ledger = Ledger(fetch, lambda: log.summary(wanted).count, at, top)
        if self.attempt(lambda: ledger.window(self._rows)):
            self.hush()
            self._ledger, self._query = ledger, wanted
            self._summary = self._summary if same else None
            self._meant = None
            self._turn += 1
            self.call_after_refresh(self._look_up, self._turn)
        self.draw_again()

    def draw_again(self) -> None:
        """Draw the lines anew; nothing has moved, so nothing needs to be laid out."""
        for pane in self.query(Pane):
            pane.refresh()

    def _look_up(self, turn: int) -> None:
        """Begin what takes longer, once the rows are on the screen; a later reading supersedes."""
        if turn != self._turn:
            return
        self._lookups.count(self._query, turn)
        if self._looked != self.session.changes:
            self._looked = self.session.changes
            self._lookups.disagreements()

    @on(Counted)
    def counted(self, message: Counted) -> None:
        """The sums have come, unless the filter is another by now."""
        if message.turn == self._turn:
            self._summary = message.summary
            self._ledger.told(message.summary.count)
            self.query_one("#body", Pane).refresh()
            if not self._query and message.summary.count <= LEARNT_AT_ONCE:
                work.learn_prices(self.app, self.session)

    @on(Ready)
    def learnt(self) -> None:
        """The log has been learnt: mark the prices that fit nothing else in it."""
        self.query_one("#body", Pane).refresh()

    @on(FilterMeant)
    def meant(self, message: FilterMeant) -> None:
        """What the filter may have meant has come."""
        if message.turn == self._turn:
            self._meant = message.guess
            self.query_one("#body", Pane).refresh()

    @on(Disagreed)
    def disagreed(self, message: Disagreed) -> None:
        """How many entries two machines left in different states."""
        self._disagree = message.count
        self.query_one("#head", Pane).refresh()

    # The filter

    def action_filter(self) -> None:
        """Begin to type a filter."""
        typed = self.query_one(FilterLine)
        typed.disabled = False
        self.set_focus(typed)
        self.keys_of("filter")

    @on(Input.Changed, "#filter")
    def filtered(self, event: Input.Changed) -> None:
        """Filter as it is typed."""
        self.read(event.value)

    def leave_filter(self, clears: bool) -> None:
        """Back to the table; enter first takes what the filter may have meant."""
        typed = self.query_one(FilterLine)
        if clears:
            typed.value = ""
        else:
            self.take_meant()
        typed.disabled = True
        self.set_focus(None)
        self.keys_of(self.AREA)

    def take_meant(self) -> bool:
        """Take what the filter may have meant; False when there is nothing to take."""
        if self._meant is None:
            return False
        self.query_one(FilterLine).value = self._meant.query
        return True

    def action_close(self) -> None:
        """Clear the filter, or leave when there is none."""
        typed = self.query_one(FilterLine)
        if typed.value:
            typed.value = ""
        else:
            self.dismiss(None)

    def keys_of(self, area: str) -> None:
        """Show the keys of another place."""
        keys = self.query_one(Foot)
        keys.area = area
        keys.refresh(layout=True)

    # Walking

    def action_step(self, by: int) -> None:
        """So many lines on."""
        self.attempt(lambda: self._ledger.move(by))
        self.draw_again()

    def action_leap(self, by: int) -> None:
        """So many pages on."""
        self.action_step(by * self._rows)

    def action_end(self, way: int) -> None:
        """To the first or the last line."""
        self.attempt(lambda: self._ledger.end(way))
        self.draw_again()

    def action_sort(self) -> None:
        """Another order."""
        self._in_order(self._order.next())

    def action_turn(self) -> None:
        """The other way round."""
        self._in_order(self._order.turned())

    def _in_order(self, order: SortOrder) -> None:
        self._order = order
        self._ledger.at = self._ledger.top = 0
        self.read()
