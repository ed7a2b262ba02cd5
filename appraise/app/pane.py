"""The two widgets that draw: a pane of lines, and the line of keys at the foot."""

from collections.abc import Callable, Sequence

from textual.content import Content
from textual.geometry import Size
from textual.widget import Widget

from appraise.app.action import Action
from appraise.app.actions import KEPT, foot_of
from appraise.app.lines import Line, as_content, clip, length, line

Draw = Callable[[int, int], Sequence[Line]]
"""Draws `height` lines of `width` cells, or fewer."""

TYPED = ("look", "list", "form", "filter", "cell", "line", "slip")
"""Places in which letters are typed, so that help has to be asked for with another key."""


class Pane(Widget):
    """A part of the screen that a pure function draws anew at every refresh."""

    def __init__(self, draw: Draw, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._draw = draw

    def render(self) -> Content:
        """The lines that fit."""
        return as_content(self._draw(self.size.width, self.size.height)[: self.size.height])


class Foot(Widget):
    """The line of keys; a message stands in its place until the next key."""

    def __init__(self, area: str) -> None:
        super().__init__()
        self.area = area
        self.message = ""
        self.role = ""

    def say(self, message: str, role: str = "doubt") -> None:
        """Show a message in place of the keys."""
        self.message, self.role = message, role
        self.refresh()

    def hush(self) -> None:
        """Show the keys again."""
        if self.message:
            self.say("")

    def get_content_width(self, container: Size, viewport: Size) -> int:
        """The cells that the line needs where it stands."""
        return length(self.row(container.width))

    def row(self, width: int) -> Line:
        """What the line shows in so many cells."""
        if self.message:
            return line(" ", (clip(self.message, width - 2), self.role))
        return keys_line(self.area, width)

    def render(self) -> Content:
        """The line."""
        return as_content([self.row(self.size.width)])


def keys_line(area: str, width: int) -> Line:
    """The keys that fit, the less needed left out first; help and the way out always stay."""
    shown = list(foot_of(area))
    while len(shown) > 1 and length(_row(area, shown)) > width:
        spare = [one for one in shown if one.place < KEPT] or shown
        shown.remove(spare[-1])
    return _row(area, shown)


def _row(area: str, shown: Sequence[Action]) -> Line:
    parts: list[str | tuple[str, str]] = []
    for one in shown:
        key = one.display.split()[0]
        if one.area == "any" and area in TYPED:
            key = "F1"
        parts += ["  " if parts else " ", (key, "key"), f" {one.verb}"]
    return line(*parts)
