"""A text that is read: it scrolls by wheel, bar and keys, and can be selected and copied."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from rich.text import Text
from textual import events
from textual.geometry import Size
from textual.message import Message
from textual.selection import Selection
from textual.strip import Strip

from appraise.app.discretion import veiled
from appraise.app.lines import EMPTY, Line, inset, words_of
from appraise.app.widgets.drawn import Drawn

Write = Callable[[int], Sequence[Line]]
"""Writes the whole text in lines of a width."""


class ReadingPane(Drawn):
    """The lines of a text."""

    class Scrolled(Message):
        """Other lines are on the screen."""

    def __init__(self, write: Write, *, id: str | None = None, private: bool = True) -> None:
        super().__init__(id=id, private=private)
        self._write = write
        self._rows: Sequence[Line] = ()
        self._drawn_for: object = None

    @property
    def rows(self) -> Sequence[Line]:
        """All its lines."""
        width = self.size.width
        if self._drawn_for != width:
            self._drawn_for = width
            self._rows = inset(self._write(max(1, width - 2)))
        return self._rows

    def renew(self) -> None:
        """Write it anew."""
        self._drawn_for = None
        self._fit()
        self.refresh()

    def on_resize(self, event: events.Resize) -> None:
        """Another width may need other lines."""
        self._fit()

    def _fit(self) -> None:
        if self.size.width:
            self.virtual_size = Size(self.size.width, len(self.rows))

    def move(self, by: int) -> None:
        """Go so many lines on."""
        self.scroll_to(y=self.scroll_offset.y + by, animate=False, force=True)

    def watch_scroll_y(self, old_value: float, new_value: float) -> None:
        """Say that other lines are shown."""
        super().watch_scroll_y(old_value, new_value)
        self.post_message(self.Scrolled())

    def render_line(self, y: int) -> Strip:
        """One line of the screen."""
        place = int(self.scroll_offset.y) + y
        row = self.rows[place] if place < len(self.rows) else EMPTY
        strip = self.strip(row, place)
        span = self.text_selection.get_span(place) if self.text_selection else None
        if span is None:
            return strip
        start, end = span
        end = self.room if end == -1 else end
        style = self.screen.get_component_rich_style("screen--selection")
        first, inner, last = strip.divide([start, end, self.room])
        return Strip.join([first, inner.apply_style(style), last]).apply_offsets(0, place)

    def get_selection(self, selection: Selection) -> tuple[str, str] | None:
        """The text that is selected."""
        rows = veiled(self.rows) if self.hides else self.rows
        text = Text("\n".join(words_of(row) for row in rows)).plain
        return selection.extract(text), "\n"

    def selection_updated(self, selection: Selection | None) -> None:
        """Show what is selected."""
        self.refresh()
