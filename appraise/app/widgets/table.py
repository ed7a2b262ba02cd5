"""A table on the library's line API: headings, sorting, scrollbar, selection, any number of rows.

Only the rows on the screen are asked for and drawn. A click on a heading asks for that order, one
on a row selects it, and one on the selected row opens it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Generic, TypeVar

from rich.cells import cell_len
from textual import events
from textual.geometry import Size
from textual.message import Message
from textual.scroll_view import ScrollView

from appraise.app.lines import EMPTY, Line, line
from appraise.app.widgets.columns import SIGN, Column, ColumnPlace, arrow, laid_out, row_text
from appraise.app.widgets.drawn import Told
from appraise.app.widgets.rows import Listed, Rows
from appraise.base.dataclass import dataclass
from appraise.base.errors import AppraiseError

T = TypeVar("T")
HEAD = 1  # lines above the first row
Instead = Callable[[int], Sequence[Line]]
"""Writes in lines of a width what stands in a table without rows."""


@dataclass(frozen=True, slots=True)
class TableStyle(Generic[T]):
    """How rows are shown.

    Attributes:
        columns: The columns.
        cell: The text of a row in a column.
        mark: The sign before a row, and the role in which the row is drawn.
    """

    columns: tuple[Column, ...]
    cell: Callable[[T, str], str]
    mark: Callable[[T], tuple[str, str]] = lambda _: ("", "")


class RecordTable(Told, ScrollView, Generic[T], can_focus=False):
    """Rows under headings; the keys are its screen's."""

    class CursorMoved(Message):
        """Another row is selected."""

    class Opened(Message):
        """The selected row was clicked."""

    class Sorted(Message):
        """A heading was clicked."""

        def __init__(self, column: str) -> None:
            super().__init__()
            self.column = column

    ALLOW_SELECT = False

    def __init__(self, look: TableStyle[T], *, id: str | None = None) -> None:
        super().__init__(id=id)
        self.look = look
        self.rows: Rows[T] = Listed[T]()
        self.at = 0
        self.order = ("", False)  # the column it is sorted by, and whether the largest comes first
        self.instead: Instead = lambda width: ()  # what stands where there are no rows
        self._widest: tuple[object, dict[str, int]] = (None, {})  # they grow: no column jumps
        self._laid: tuple[object, tuple[ColumnPlace, ...]] = (None, ())
        self._version = 0

    # What it shows

    @property
    def here(self) -> T | None:
        return self.rows.at(self.at)

    @property
    def page(self) -> int:
        """Rows that are on the screen at once."""
        return max(1, self.size.height - HEAD)

    @property
    def top(self) -> int:
        """The first row on the screen."""
        return int(self.scroll_offset.y)

    def show(self, rows: Rows[T], at: int = 0, instead: Instead = lambda width: ()) -> None:
        """Show other rows, one of them selected."""
        self.rows, self.instead = rows, instead
        self.at = max(0, at)
        if self.rows.at(self.at) is None:
            self.at = max(0, rows.count - 1)
        self.grown()
        self._keep_in_sight()

    def grown(self) -> None:
        """It is known better how many rows there are, or what stands in them."""
        self._version += 1
        self.virtual_size = Size(self.size.width, self.rows.least + HEAD)
        self.renew()

    def on_resize(self, event: events.Resize) -> None:
        """The selected row stays on the screen."""
        self.grown()
        self._keep_in_sight()

    # Moving

    def move(self, by: int) -> None:
        """Go so many rows on, as far as there are any."""
        at = max(0, self.at + by)
        self.go(at if self.rows.at(at) is not None else max(0, self.rows.count - 1))

    def end(self, way: int) -> None:
        """Go to the first row, or to the last."""
        self.go(max(0, self.rows.count - 1) if way > 0 else 0)

    def go(self, place: int) -> None:
        self.at = place
        if self.rows.least + HEAD != self.virtual_size.height:
            self.grown()
        self._keep_in_sight()
        self.renew()
        self.post_message(self.CursorMoved())

    def _keep_in_sight(self) -> None:
        """Scroll no further than needed."""
        top = max(min(self.top, self.at), self.at - self.page + 1, 0)
        if top != self.top:
            self.scroll_to(y=top, animate=False, force=True)

    def watch_scroll_y(self, old_value: float, new_value: float) -> None:
        super().watch_scroll_y(old_value, new_value)
        self.renew()

    # The mouse

    async def on_click(self, event: events.Click) -> None:
        """Sort by a heading, select a row, or open the one that is selected."""
        event.stop()
        if event.y < HEAD:
            place = next((one for one in self.places() if event.x < one.start + one.width), None)
            if place is not None and place.column.sorts:
                self.post_message(self.Sorted(place.column.name))
            return
        at = self.top + event.y - HEAD
        if self.rows.at(at) is None:
            return
        if at == self.at:
            self.post_message(self.Opened())
        else:
            self.go(at)

    # Drawing

    def places(self) -> tuple[ColumnPlace, ...]:
        """The columns where they stand now."""
        width = self.room
        key = (width, self.top, self.page, self._version, self.look)
        if self._laid[0] != key:
            if self._widest[0] != self.look:
                self._widest = self.look, {}
            known = self._widest[1]
            rows = [self.rows.at(self.top + n) for n in range(self.page)]
            for one in self.look.columns:
                texts = (cell_len(self.look.cell(row, one.name)) for row in rows if row)
                known[one.name] = max(known.get(one.name, 0), *texts, 0)
            self._laid = key, laid_out(self.look.columns, width, known)
        return self._laid[1]

    def write(self) -> Sequence[Line]:
        """The headings and the rows on the screen."""
        width = self.room
        try:
            if self.rows.at(0) is None:
                return [self._headings(width), *self.instead(width)]
            rows = (self.rows.at(self.top + n) for n in range(self.page))
            found = [row for row in rows if row is not None]
            return [self._headings(width), *(self._row(n, one) for n, one in enumerate(found))]
        except AppraiseError as error:
            return [EMPTY, line("  ", (str(error), "warn"))]

    def _headings(self, width: int) -> Line:
        places = self.places()
        column, down = self.order
        signs = {column: arrow(down, self.marks)}
        texts = [f"{one.column.head}{signs.get(one.column.name, '')}" for one in places]
        return line((row_text(texts, places, width, self.marks), "head"))

    def _row(self, place: int, row: T) -> Line:
        places, width = self.places(), self.room
        text = row_text(
            [self.look.cell(row, one.column.name) for one in places], places, width, self.marks
        )
        here = self.top + place == self.at
        mark, role = self.look.mark(row)
        signs = f"{self.marks.here if here else ' '}{mark or ' '}"
        return line(
            (signs + text[len(signs) :] if width > SIGN else text, "here" if here else role)
        )
