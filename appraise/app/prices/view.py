"""The Prices screen: a filter on top, a plain table, sum and median at the foot."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.widgets import Input

from appraise.app.actions import bindings_of
from appraise.app.lines import EMPTY, Line
from appraise.app.pane import Foot, Pane
from appraise.app.prices import deeds
from appraise.app.prices.entry import EntryPage
from appraise.app.prices.ledger import Ledger
from appraise.app.prices.rows import foot, heading, nothing, table
from appraise.app.sheet import Sheet
from appraise.log.entries import Entry
from appraise.log.search import Summary

SORTS = {
    "-date": "by day",
    "-price": "dearest first",
    "price": "cheapest first",
    "title": "by title",
}
WRITE = "/ filters: girl vine process:amb price:20..50 date:2025.."


class Prices(Sheet[None], inherit_bindings=False):
    """The log of prices."""

    AREA = "prices"
    BINDINGS: ClassVar[list[BindingType]] = bindings_of("prices")

    def __init__(self) -> None:
        super().__init__()
        self._query = ""
        self._sort = "-date"
        self._summary = Summary(0, ())
        self._ledger = Ledger(lambda limit, offset: (), 0)
        self._rows = 1

    def compose(self) -> ComposeResult:
        """Title, filter, table, keys."""
        head = Pane(self.draw_head, id="head")
        head.styles.height = 2
        yield head
        yield Input(placeholder=WRITE, disabled=True)
        yield Pane(self.draw, id="body")
        yield Foot(self.AREA)

    def on_mount(self) -> None:
        """Read the log."""
        self._read()

    def draw_head(self, width: int, height: int) -> Sequence[Line]:
        """The title and the order."""
        return self.head("Prices", SORTS[self._sort], width)

    def draw(self, width: int, height: int) -> Sequence[Line]:
        """Column names, the entries on the screen, and the foot."""
        session = self.session
        self._rows = max(1, height - 3)
        window = self._ledger.window(self._rows)
        marks, at = session.marks, self._ledger.at
        body = table(window, at, session.settings.currency, width, marks)
        body = body or nothing(self._query, self._rows)
        filled = [*body, *[EMPTY] * self._rows][: self._rows]
        return [heading(width), *filled, self.rule(width), foot(self._summary, at, width)]

    @property
    def here(self) -> Entry | None:
        """The entry one is at."""
        return self._ledger.entry(self._ledger.at)

    def _read(self, query: str | None = None) -> None:
        """Read the log anew; a filter that cannot be read leaves all as it is."""
        wanted = self._query if query is None else query
        log, sort = self.session.log, self._sort
        at = self._ledger.at if wanted == self._query else 0

        def read() -> None:
            self._summary = log.summary(wanted)
            self._query = wanted
            self._ledger = Ledger(
                lambda limit, offset: log.entries(wanted, sort=sort, limit=limit, offset=offset),
                self._summary.count,
                at,
            )

        if self.attempt(read):
            self.hush()
        self.redraw()

    def action_filter(self) -> None:
        """Begin to type a filter."""
        typed = self.query_one(Input)
        typed.disabled = False
        typed.focus()

    @on(Input.Changed)
    def filtered(self, event: Input.Changed) -> None:
        """Filter as it is typed."""
        self._read(event.value)

    @on(Input.Submitted)
    def end_typing(self) -> None:
        """Back to the table; the filter stays."""
        self.query_one(Input).disabled = True
        self.set_focus(None)

    def action_close(self) -> None:
        """Clear the filter, or leave when there is none."""
        typed = self.query_one(Input)
        if typed.value:
            typed.value = ""
        elif typed.disabled:
            self.dismiss(None)
        self.end_typing()

    def action_step(self, by: int) -> None:
        """So many lines on."""
        self._ledger.move(by)
        self.redraw()

    def action_leap(self, by: int) -> None:
        """So many pages on."""
        self.action_step(by * self._rows)

    def action_end(self, way: int) -> None:
        """To the first or the last line."""
        self.action_step(way * self._ledger.count)

    def action_sort(self) -> None:
        """Another order."""
        names = list(SORTS)
        self._sort = names[(names.index(self._sort) + 1) % len(names)]
        self._ledger.at = 0
        self._read()

    def action_open(self) -> None:
        """The entry with its history."""
        entry = self.here
        if entry is None:
            return

        def open_page() -> None:
            page = EntryPage(entry, self.session.log.history(entry.id))
            self.app.push_screen(page, lambda _: self._read())

        self.attempt(open_page)

    def action_edit(self) -> None:
        """Edit the entry."""
        if self.here is not None:
            deeds.edit(self, self.here, self._read)

    def action_remove(self) -> None:
        """Take the entry off the log."""
        if self.here is not None:
            deeds.remove(self, self.here, self._read)

    def action_undo(self) -> None:
        """Undo the last change to the log."""
        self._step_back("undo")

    def action_redo(self) -> None:
        """Do it again."""
        self._step_back("redo")

    def _step_back(self, kind: str) -> None:
        foot_line = self.query_one(Foot)
        if deeds.step_back(self, kind):
            message, role = foot_line.message, foot_line.role
            self._read()
            self.say(message, role)
