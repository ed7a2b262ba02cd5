"""What our line widgets share: a line of words and roles becomes a strip of the screen."""

from __future__ import annotations

from rich.segment import Segment
from rich.style import Style as RichStyle
from textual import events
from textual.scroll_view import ScrollView
from textual.strip import Strip
from textual.style import Style

from appraise.app.discretion import veiled
from appraise.app.lines import ACT, DOES, LOOKS, Line, fill
from appraise.app.marks import FINE, Marks


class Drawn(ScrollView, can_focus=False):
    """A widget of lines, of which only those on the screen are drawn; the keys are its screen's."""

    def __init__(self, *, id: str | None = None, private: bool = True) -> None:
        """`private`: amounts in it are the user's, and hidden where one is to be discreet."""
        super().__init__(id=id)
        self._private = private
        self._looks: dict[tuple[str, str], RichStyle] = {}

    @property
    def marks(self) -> Marks:
        """The signs to draw with."""
        found: Marks = getattr(getattr(self.app, "session", None), "marks", FINE)
        return found

    @property
    def hides(self) -> bool:
        """Whether amounts are hidden in it."""
        return self._private and bool(
            getattr(getattr(self.app, "session", None), "discreet", False)
        )

    @property
    def room(self) -> int:
        """The cells of a line, beside the scrollbar."""
        return self.scrollable_content_region.width

    def strip(self, row: Line, y: int) -> Strip:
        """A line in exactly the room there is; `y` is its place among all lines."""
        shown = veiled([row])[0] if self.hides else row
        base = self.rich_style
        parts = [Segment(words, base + self._look(role)) for words, role in fill(shown, self.room)]
        return Strip(parts, self.room).apply_offsets(0, y)

    def _look(self, role: str) -> RichStyle:
        key = (self.app.theme, role)
        if key not in self._looks:
            name, _, does = role.partition(ACT)
            text = " ".join(LOOKS.get(one, one) for one in name.split())
            look = Style.parse(text).rich_style if text else RichStyle()
            self._looks[key] = look + RichStyle.from_meta({DOES: does}) if does else look
        return self._looks[key]

    async def on_click(self, event: events.Click) -> None:
        """Do what the words that were clicked stand for."""
        if act := event.style.meta.get(DOES):
            event.stop()
            await self.app.run_action(act, self.screen)
