"""A text that is read: it scrolls by wheel, bar and keys, and can be selected and copied."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from textual import events
from textual.geometry import Size
from textual.message import Message
from textual.scroll_view import ScrollView

from appraise.app.lines import EMPTY, Line, inset
from appraise.app.widgets.drawn import Told

Write = Callable[[int], Sequence[Line]]
"""Writes the whole text in lines of a width."""
Draw = Callable[[int, int], Sequence[Line]]
"""Draws `height` lines of `width` cells, or fewer."""
AIRY = 18  # lines of a pane from which its first one is blank


class Tall(Told, ScrollView, can_focus=False):
    """As many lines as there are: what has no room is scrolled to."""

    def __init__(self, draw: Draw, *, id: str | None = None, private: bool = True) -> None:
        """`private`: amounts in it are the user's, and hidden where one is to be discreet."""
        super().__init__(id=id)
        self._draw = draw
        self.private = private

    @property
    def scrolled(self) -> int:
        """The lines above."""
        return int(self.scroll_offset.y)

    def write(self) -> Sequence[Line]:
        return self._draw(*self.size)

    def renew(self) -> None:
        """Write it anew; what is shorter or longer than before scrolls otherwise."""
        super().renew()
        self.fit()

    def on_resize(self, event: events.Resize) -> None:
        self.fit()

    def fit(self) -> None:
        """As high as its lines; what fits in its room is that high."""
        if self.size:
            self.virtual_size = Size(self.size.width, max(self.size.height, len(self.told)))


class ReadingPane(Tall):
    """The lines of a text."""

    class Scrolled(Message):
        """Other lines are on the screen."""

    def __init__(self, write: Write, *, id: str | None = None, private: bool = True) -> None:
        super().__init__(lambda width, _: inset(write(max(1, width - 2))), id=id, private=private)

    def write(self) -> Sequence[Line]:
        """The lines, below a blank one where there is room."""
        return [*([EMPTY] if self.size.height >= AIRY else []), *super().write()]

    def move(self, by: int) -> None:
        """Go so many lines on."""
        self.scroll_to(y=self.scroll_offset.y + by, animate=False, force=True)

    def watch_scroll_y(self, old_value: float, new_value: float) -> None:
        super().watch_scroll_y(old_value, new_value)
        self.post_message(self.Scrolled())
