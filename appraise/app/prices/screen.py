"""The screen of prices: a list so long that pages of it are fetched, edited in place."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from threading import Lock
from typing import Any

from textual import events
from textual.app import ComposeResult
from textual.widgets import Input

from appraise.app.discretion import HIDDEN
from appraise.app.lines import EMPTY, Line, ends, line, spread
from appraise.app.lists.price import LEARNT_AT_ONCE, SPEC
from appraise.app.lists.screen import FilterLine, RecordScreen
from appraise.app.lists.spec import ListView, nothing_found, nothing_there
from appraise.app.page import Page
from appraise.app.pane import Foot
from appraise.app.prices import lookups
from appraise.app.prices.editor import Cell, Editing, words_for
from appraise.app.prices.lookups import look_up
from appraise.app.widgets.pricechart import Dot, price_chart
from appraise.app.widgets.rows import Paged, Rows
from appraise.app.widgets.table import HEAD
from appraise.base.logday import middle
from appraise.records.entry import Entry
from appraise.records.stored import Stored
from appraise.store.search import EntryQuery, Summary, place_of
from appraise.store.suggestions import Guess

CHART = 12  # lines of the picture beside the table
FEW = "Too few prices in your currency for a picture."
FIRST = "price"  # the cell in which editing in place begins


def dots_of(entries: Sequence[Entry], currency: str, here: str) -> list[Dot]:
    """The prices of one currency in time; a day that is not known has no place."""
    out = []
    for one in entries:
        day, price = middle(one.date), one.price
        if day is not None and price is not None and price.currency == currency:
            year = day.year + (day.timetuple().tm_yday - 1) / 366
            out.append(Dot(year, float(price.amount), one.id == here))
    return out


class PricesScreen(RecordScreen):
    """The log of prices."""

    def __init__(self) -> None:
        super().__init__(SPEC)
        self._editing: Editing | None = None
        self._turn = 0
        self._counts_alone = Lock()
        self._summary: Summary | None = None
        self._latest: Sequence[Entry] = ()
        self._meant: Guess | None = None
        self._disagree = 0
        self._looked = -1  # the session's changes when disagreements were last looked for

    def middle(self) -> ComposeResult:
        """The list, and the line that lies over a cell being edited."""
        yield from super().middle()
        yield Cell()

    def on_paste(self, event: events.Paste) -> None:
        """A spreadsheet that is dropped here is looked at, to be imported."""
        from appraise.app.importing.screen import drop_file  # 30 ms

        if self.session.knowledge is not None:
            drop_file(self, event.text)

    # Reading

    def fetch(self, query: str, seek: str) -> tuple[ListView, Rows[Any], int]:
        """Only the rows on the screen are read here: sums and the like come from a worker."""
        log, sort = self.session.log, f"{'-' * self.order[1]}{self.order[0]}"

        def page(limit: int, offset: int) -> Sequence[Stored[Entry]]:
            found = log.entries(query, sort=sort, limit=limit, offset=offset)
            return [Stored(one.id, self.as_edited(one)) for one in found]

        same = self.view is not None and (query, self.order) == (self.view.query, self.view.more)
        known = self.table.rows.least if same else 0
        rows = Paged(page, lambda: log.summary(query).count, known)
        at = self.table.at if same else 0
        if seek and (self.here is None or seek != self.here.id):
            with log.snapshot():
                place = place_of(log.connection, EntryQuery(query, sort), seek)
            at = at if place is None else place
        rows.at(at)
        self._summary = self._summary if same else None
        self._meant, self._turn = None, self._turn + 1
        self.call_after_refresh(self._look_up, self._turn)
        return ListView(self.session, self.order, query=query), rows, at

    def as_edited(self, entry: Entry) -> Entry:
        """An entry as it is to be shown: the one that is edited with what was typed so far."""
        edited = self._editing
        return edited.entry if edited and edited.was.id == entry.id else entry

    def _look_up(self, turn: int) -> None:
        """Begin what takes longer, once the rows are on the screen; a later reading supersedes."""
        if turn != self._turn:
            return
        count = partial(lookups.added_up, query=self.seen.query)
        look_up(self, "counting", count, partial(self.counted, turn), self._counts_alone)
        if self._looked != self.session.changes:
            self._looked = self.session.changes
            look_up(self, "disagreements", lookups.disagreeing, self.disagreed)

    def counted(self, turn: int, found: tuple[Summary, Sequence[Entry]]) -> None:
        """The sums have come, unless the filter is another by now."""
        if turn != self._turn or not isinstance(self.table.rows, Paged):
            return
        self._summary, self._latest = found
        query, many = self.seen.query, self._summary.count
        self.table.rows.told(many)
        self.table.grown()
        self.draw_again()
        if not query and many <= LEARNT_AT_ONCE:
            self.learn_prices()
        elif query and not many:
            look_up(self, "meant", partial(lookups.meant, query=query), partial(self.meant, turn))

    def ready(self) -> None:
        """The log has been learnt: mark the prices that fit nothing else in it."""
        self.draw_again()

    def meant(self, turn: int, meant: Guess | None) -> None:
        if turn == self._turn:
            self._meant = meant
            self.table.instead = self.instead
            self.draw_again()

    def disagreed(self, many: int) -> None:
        self._disagree = many
        self.draw_again()

    # What is drawn

    def told_order(self) -> str:
        """The order, and whether two computers disagree."""
        many = self._disagree
        told = f"{many} changed on two computers, c resolves    " if many else ""
        return f"{told}{super().told_order()}"

    def draw_totals(self, width: int, height: int) -> Sequence[Line]:
        """How many there are, what was paid and the median by currency, and where one is."""
        summary = self._summary
        if summary is None:  # being added up
            return ()
        told = [line(" 1 entry" if summary.count == 1 else f" {summary.count:,} entries")]
        for one in summary.sums:
            sums = (("  paid ", "quiet"), (f"{one.total.amount:,.2f}", "strong"))
            median = (("  median ", "quiet"), (f"{one.median.amount:,.2f}", "strong"))
            told.append(line(*sums, *median, f" {one.total.currency}"))
        where = f"{self.table.at + 1:,} of {summary.count:,} " if summary.count else ""
        left, *_ = spread(told, width - len(where) - 2, 0)
        return [ends(left, line((where, "quiet")), width)]

    def below_facts(self, width: int, rows: int) -> Sequence[Line]:
        """The prices of this filter over time, the entry one is at marked."""
        chart = self._chart(width, min(rows - 2, CHART))
        return [EMPTY, line(("prices over time, this filter", "quiet")), *chart] if chart else ()

    def _chart(self, width: int, rows: int) -> list[Line]:
        session, here = self.session, self.here
        if session.discreet:
            return []
        at = here.id if here else ""
        dots = dots_of(self._latest, session.settings.currency, at)
        return price_chart(dots, width, rows, session.marks)

    def action_chart(self) -> None:
        if self.session.discreet:
            self.say(HIDDEN)
            return

        def write(width: int) -> Sequence[Line]:
            return self._chart(width, self.size.height - 4) or [line((FEW, "quiet"))]

        self.open(Page(f"Prices over time: {self.seen.query or 'all'}", write))

    def instead(self, width: int) -> list[Line]:
        """What stands in an empty table: how to begin, or what the filter may have meant."""
        if not self.query_one(FilterLine).value:
            return nothing_there(SPEC.empty, width)
        rows = nothing_found(width)
        if self._meant is not None:
            says = (self._meant.query, "strong")
            rows += [EMPTY, line("  Did you mean ", says, "? ", ("enter", "key"), " accepts it.")]
        return rows

    def action_leave_filter(self, clears: bool) -> None:
        """Back to the table; enter first takes what the filter may have meant."""
        if not clears:
            self.take_meant()
        super().action_leave_filter(clears)

    def take_meant(self) -> None:
        if self._meant is not None:
            self.query_one("#filter", Input).value = self._meant.query

    def action_open(self) -> None:
        if self.here is None:
            self.take_meant()
        else:
            super().action_open()

    # Editing in place

    def on_screen_suspend(self) -> None:
        """Another screen comes over this one: editing in place ends, and nothing is changed."""
        self.action_end_editing()

    def action_edit(self) -> None:
        here = self.here
        if here is not None:
            self._editing = Editing(
                here.thing, self.session.settings.currency, words_for(self.session)
            )
            self.query_one(Foot).show("cell")
            self._edit(FIRST)

    def _edit(self, column: str) -> None:
        if self._editing is not None:
            table = self.table
            at = (table.region.x, table.region.y + HEAD + table.at - table.top)
            cell, hides = self.query_one(Cell), self.session.discreet
            self._editing.show(cell, table.places(), column, at, hides)
            self.draw_again()

    def action_move_on(self, by: int) -> None:
        """To another cell, unless this one holds a mistake."""
        editing = self._editing
        if editing is not None and self.attempt(lambda: editing.take(self.query_one(Cell))):
            self.read()  # with what was typed so far
            self._edit(editing.beside(self.table.places(), by))

    def action_keep_cells(self) -> None:
        """Save the entry as it was edited."""
        editing, log = self._editing, self.session.log
        if editing is None or not self.attempt(lambda: editing.take(self.query_one(Cell))):
            return
        if editing.entry == editing.was:
            self.action_end_editing()
        elif self.attempt(lambda: log.edit(editing.entry, was=editing.was)):
            self.session.changes += 1
            self.action_end_editing()

    def action_end_editing(self) -> None:
        """Back to the table; what was not saved stays as it was."""
        if self._editing is not None:
            self._editing = None
            cell = self.query_one(Cell)
            cell.styles.display = "none"
            cell.disabled = True
            self.set_focus(None)
            self.query_one(Foot).show(self.AREA)
            self.read()
