"""The screen of every list of records: filter line, table, the record one is at, totals."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any, ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal
from textual.widgets import Input

from appraise.app.actions import bindings_of
from appraise.app.lines import ACT, Line, clip, ends, inset, length, line
from appraise.app.lists.page import RecordPage
from appraise.app.lists.sheet import RecordSheet
from appraise.app.lists.spec import (
    ListView,
    RecordSpec,
    nothing_found,
    nothing_there,
    spec_of,
)
from appraise.app.pane import Foot, Pane
from appraise.app.photos import thumbnails
from appraise.app.widgets.reading import Write
from appraise.app.widgets.rows import Listed, Rows
from appraise.app.widgets.table import HEAD, RecordTable, TableStyle
from appraise.commands.kinds import KINDS
from appraise.records.stored import Stored

SIDE = 110  # cells from which the record one is at stands beside the table
AROUND, BELOW = 5, 7  # lines around a table, and that a record below it takes at least
MINUTE = 60.0  # seconds between two looks at the clock


class FilterLine(Input):
    """The line in which a filter is typed; that one is in it is a call: keys must not overtake."""

    BINDINGS: ClassVar[list[BindingType]] = bindings_of("filter")

    def __init__(self, come: Callable[[], None], placeholder: str) -> None:
        super().__init__(placeholder=placeholder, id="filter")
        self._come = come

    def on_focus(self) -> None:
        """One is in it, by key or click."""
        self._come()


class RecordScreen(RecordSheet):
    """A list of records, as its spec has it."""

    def __init__(self, spec: RecordSpec[Any]) -> None:
        super().__init__(classes="records")
        self.view: ListView | None = None
        self._orders: dict[str, tuple[str, bool]] = {}
        self._places: dict[str, int] = {}
        self._counts: dict[str, int] = {}
        self._told: Write | None = None
        self._every = False
        self._take(spec)

    def _take(self, spec: RecordSpec[Any]) -> None:
        """Let this be the screen of a type of record."""
        self.be_for(spec, spec.area)
        first = spec.turns[0]
        self._orders.setdefault(spec.name, (first, spec.largest_first(first)))

    def middle(self) -> ComposeResult:
        yield FilterLine(self.filtering, self.spec.hint)
        with Horizontal(id="body"):
            yield RecordTable(self._look(), id="table")
            yield Pane(self.draw_side, id="side")
        yield Pane(self.draw_totals, id="totals")

    def _look(self) -> TableStyle[Stored[Any]]:
        spec = self.spec

        def cell(one: Stored[Any], name: str) -> str:
            return spec.cell(self.seen, one, name)

        return TableStyle(spec.columns, cell, lambda one: spec.mark(self.seen, one))

    @property
    def seen(self) -> ListView:
        """The list as it is shown."""
        return self.view or ListView(self.session)

    @property
    def table(self) -> RecordTable[Stored[Any]]:
        return self.query_one("#table", RecordTable)

    @property
    def here(self) -> Stored[Any] | None:
        return self.table.here

    # What is drawn

    def draw_head(self, width: int, height: int) -> Sequence[Line]:
        """The title, or the lists beside each other; and the order."""
        right = self.told_order()
        if not self.spec.tabs:
            room = width - len(self.spec.title) - 4
            last = line((clip(right, room, self.session.marks), "quiet"), " ") if room > 8 else ()
            return [ends(line(" ", (self.spec.title, "head")), last, width)]
        bits: list[tuple[str, str]] = [(" ", "")]
        for place, name in enumerate(self.spec.tabs, start=1):
            role = "head" if name == self.spec.name else "quiet"
            told = f" {spec_of(name).title} {self._counts.get(name, 0)}"
            act = f"{ACT}choose({place})"
            bits += [(str(place), f"key{act}"), (told, f"{role}{act}"), ("   ", "")]
        row, last = tuple(bits), line((right, "quiet"), " ")
        return [ends(row, last, width) if length(row) + length(last) <= width else row]

    def told_order(self) -> str:
        """How the table is sorted, in words."""
        column, down = self.order
        heads = {"": "time added", **{one.name: one.head for one in self.spec.columns}}
        told = f"sorted by {heads.get(column) or column}"
        return f"{told}, reversed" if down != self.spec.largest_first(column) else told

    def draw_side(self, width: int, height: int) -> Sequence[Line]:
        """The record one is at, as its page begins."""
        here, room = self.here, max(1, width - 3)
        if here is None or self._told is None:
            return ()
        album = self.spec.album(self.session, here)
        photos = thumbnails(self.session, album, room, height * 2 // 5)
        told = [*photos, *self._told(room)]
        return inset([*told, *self.below_facts(room, height - len(told))])[:height]

    def below_facts(self, width: int, rows: int) -> Sequence[Line]:
        """What stands below the facts of the record one is at, where there is room."""
        return ()

    def draw_totals(self, width: int, height: int) -> Sequence[Line]:
        where = f"{self.table.at + 1:,} of {self.table.rows.least:,} " if self.seen.shown else ""
        return [ends(self.spec.below(self.seen), line((where, "quiet")), width)]

    def on_mount(self) -> None:
        """Read the log, and look at the clock once a minute."""
        self.read()
        self.set_interval(MINUTE, self._tick)

    def _tick(self) -> None:
        if self.is_current:
            self.draw_again()

    def on_resize(self, event: events.Resize) -> None:
        if self._begun:
            self.draw_again()

    def _divide(self) -> None:
        """The record one is at stands beside the table, or below it where there is room."""
        wide, rows = self.size.width >= SIDE, self.table.rows.least + HEAD
        below = not wide and 0 < rows - HEAD <= self.size.height - AROUND - BELOW
        self.set_class(wide, "wide")
        self.set_class(below, "below")
        self.table.styles.height = rows + 1 if below else "1fr"

    # Reading

    @property
    def order(self) -> tuple[str, bool]:
        """The column by which it is sorted, and whether the largest comes first."""
        return self._orders[self.spec.name]

    def read(self, seek: str = "", query: str | None = None) -> None:
        """Read the log; the record one is at stays selected, or the one of that id is."""
        wanted = self.query_one(FilterLine).value if query is None else query
        made = self.tried(lambda: self.fetch(wanted, seek))
        if made:
            self.view, rows, at = made
            self.table.show(rows, at, self.instead)
        self.table.order = self.order
        self.draw_again()

    def fetch(self, query: str, seek: str) -> tuple[ListView, Rows[Any], int]:
        """The list as it is to be shown, its rows, and the place of the one to be at.

        Raises:
            InputError: when the filter cannot be read.
        """
        spec, session, kind = self.spec, self.session, KINDS[self.spec.name]
        seek = seek or (self.here.id if self.here else "")
        known = tuple(sorted(kind.every(session.log), key=lambda one: not kind.first(one.thing)))
        some = [one for one in known if self._every or kind.shown(one.thing)]
        view = ListView(session, spec.load(session), known, (), query, self._every)
        found = spec.sorted(view, list(spec.matches(view, some, query)), self.order)
        self._counts = {name: self._count(name) for name in spec.tabs}
        ids = [one.id for one in found]
        at = ids.index(seek) if seek in ids else self._places.get(spec.name, self.table.at)
        return replace(view, shown=found), Listed(found), at

    def instead(self, width: int) -> list[Line]:
        hides = bool(self.query_one(FilterLine).value)
        return nothing_found(width) if hides else nothing_there(self.spec.empty, width)

    def _count(self, name: str) -> int:
        kind = KINDS[name]
        return sum(self._every or kind.shown(one.thing) for one in kind.every(self.session.log))

    def draw_again(self) -> None:
        """Draw anew what stands around the table, and the record one is at."""
        self._divide()
        here = self.here if self.has_class("wide") or self.has_class("below") else None
        self._told = self.tried(lambda: self.spec.facts(self.session, here)) if here else None
        self.redraw()

    @on(RecordTable.CursorMoved)
    def moved(self) -> None:
        self._places[self.spec.name] = self.table.at
        self.draw_again()

    # The filter

    def action_filter(self) -> None:
        self.set_focus(self.query_one(FilterLine))

    def filtering(self) -> None:
        self.query_one(Foot).show("filter")

    @on(Input.Changed, "#filter")
    def filtered(self, event: Input.Changed) -> None:
        self.hush()
        self.read(query=event.value)

    def action_leave_filter(self, clears: bool) -> None:
        """Back to the table."""
        if clears:
            self.query_one(FilterLine).value = ""
        self.set_focus(None)
        self.query_one(Foot).show(self.AREA)

    def action_close(self) -> None:
        typed = self.query_one(FilterLine)
        if typed.value:
            typed.value = ""
        else:
            self.dismiss(None)

    # Moving and sorting

    def action_step(self, by: int) -> None:
        self.attempt(lambda: self.table.move(by))

    def action_leap(self, by: int) -> None:
        self.action_step(by * self.table.page)

    def action_end(self, way: int) -> None:
        self.attempt(lambda: self.table.end(way))

    def action_sort(self) -> None:
        turns = self.spec.turns
        place = turns.index(self.order[0]) + 1 if self.order[0] in turns else 0
        self.sort_by(turns[place % len(turns)])

    def action_reverse(self) -> None:
        column, down = self.order
        self.sort_by(column, not down)

    @on(RecordTable.Sorted)
    def heading_clicked(self, message: RecordTable.Sorted) -> None:
        """Sort by the heading; the other way round where it is sorted so."""
        column, down = self.order
        self.sort_by(message.column, not down if message.column == column else None)

    def sort_by(self, column: str, down: bool | None = None) -> None:
        self._orders[self.spec.name] = (
            column,
            self.spec.largest_first(column) if down is None else down,
        )
        self.read()

    def action_every(self) -> None:
        self._every = not self._every
        self.read()

    # Lists beside each other

    def action_turn(self, by: int) -> None:
        tabs = self.spec.tabs
        self.action_choose((tabs.index(self.spec.name) + by) % len(tabs) + 1)

    def action_choose(self, number: int) -> None:
        self._places[self.spec.name] = self.table.at
        self._take(spec_of(self.spec.tabs[number - 1]))
        self.table.look = self._look()
        self.table.rows = Listed()
        self.query_one(FilterLine).placeholder = self.spec.hint
        self.query_one(Foot).show(self.AREA)
        self.read()

    # Records

    @on(RecordTable.Opened)
    def row_clicked(self) -> None:
        self.action_open()

    def action_open(self) -> None:
        here = self.here
        if here is None:
            if "new" in self.spec.acts and not self.seen.query:
                self.action_act("new")
            return
        self.show(here)

    def show(self, one: Stored[Any]) -> None:
        page = self.spec.page or RecordPage
        self.open(page(self.spec, one))
