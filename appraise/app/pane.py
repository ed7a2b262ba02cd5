"""The two widgets that draw: a pane of lines, and the line of keys at the foot."""

from collections.abc import Callable, Sequence
from typing import Any, Self

from textual import events
from textual.content import Content
from textual.geometry import Region, Size
from textual.widget import Widget

from appraise.app.action import Action
from appraise.app.actions import KEPT, foot_of
from appraise.app.discretion import veiled
from appraise.app.lines import ACT, DOES, Line, as_content, fold_to, length, line
from appraise.app.marks import FINE

Draw = Callable[[int, int], Sequence[Line]]
"""Draws `height` lines of `width` cells, or fewer."""

MOST_SAID = 3  # lines of a message
BAR = 20  # cells of a job's bar

TYPED = ("look", "list", "form", "filter", "cell", "line", "slip")
"""Places in which letters are typed, so that help has to be asked for with another key."""


VEIL = Action("any", "app.discretion", "m", "amounts hidden", "Show all amounts.", place=97)
"""What the line of keys says while amounts are hidden."""


class Pane(Widget):
    """A part of the screen that a pure function draws anew at every refresh."""

    def __init__(
        self,
        draw: Draw,
        *,
        id: str | None = None,
        private: bool = True,
        classes: str | None = None,
    ) -> None:
        """`private`: amounts in it are the user's, and hidden where one is to be discreet."""
        super().__init__(id=id, classes=classes)
        self._draw = draw
        self._private = private

    def render(self) -> Content:
        """The lines that fit, without amounts where one is to be discreet."""
        rows = self._draw(self.size.width, self.size.height)[: self.size.height]
        hides = self._private and discreet(self)
        return as_content(veiled(rows) if hides else rows)

    async def on_click(self, event: events.Click) -> None:
        """Do what the words that were clicked stand for."""
        if act := event.style.meta.get(DOES):
            await self.app.run_action(act, self.screen)


class Tall(Pane):
    """A pane as high as its lines, within something that scrolls and has the screen's room."""

    _made: tuple[object, Sequence[Line]] = (None, ())

    def refresh(self, *regions: Region, **how: Any) -> Self:
        """Draw it anew: what was drawn before is forgotten."""
        self._made = (None, ())
        return super().refresh(*regions, **how)

    def _rows(self, width: int, room: int) -> Sequence[Line]:
        """Its lines, which are measured before they are shown and drawn once for both."""
        if self._made[0] != (width, room):
            self._made = (width, room), self._draw(width, room)
        return self._made[1]

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """Its lines, or the whole room."""
        return max(container.height, len(self._rows(width, container.height)))

    def render(self) -> Content:
        """All its lines."""
        rows = self._rows(self.size.width, self.container_size.height)
        return as_content(veiled(rows) if self._private and discreet(self) else rows)


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
        self.styles.height = len(self.rows(self.size.width or self.app.size.width))
        self.refresh(layout=True)

    def progress(self, says: str, done: int, of: int) -> None:
        """Show how far a long job has come: a bar, the counts, and how to end it."""
        marks = getattr(getattr(self.app, "session", None), "marks", FINE)
        full = round(BAR * done / of) if of else 0
        bar = marks.bar * full + marks.rule * (BAR - full)
        told = f"{bar} {done:,} of {of:,}" if of else "..."
        self.say(f"{says} {told}   esc cancels", "good")

    def hush(self) -> None:
        """Show the keys again."""
        if self.message:
            self.say("")

    def get_content_width(self, container: Size, viewport: Size) -> int:
        """The cells that the line needs where it stands."""
        return max(map(length, self.rows(container.width)))

    def rows(self, width: int) -> list[Line]:
        """What it shows in so many cells: the keys in one line, a message in up to three."""
        hides = discreet(self)
        if self.message:
            room = max(1, width - 2)
            told = [line(" ", (row, self.role)) for row in fold_to(self.message, room, MOST_SAID)]
            return veiled(told) if hides else told
        return [keys_line(self.area, width, hides)]

    def render(self) -> Content:
        """The lines."""
        return as_content(self.rows(self.size.width))

    async def on_click(self, event: events.Click) -> None:
        """Press the key that was clicked; a click on a message takes it away."""
        self.hush()
        if act := event.style.meta.get(DOES):
            await self.app.run_action(act, self.screen)


def discreet(widget: Widget) -> bool:
    """Whether amounts are hidden in the app of a widget."""
    return bool(getattr(getattr(widget.app, "session", None), "discreet", False))


def keys_line(area: str, width: int, hides: bool = False) -> Line:
    """The keys that fit, the less needed left out first; help and the way out always stay.

    `hides`: amounts are hidden, which is said here and nowhere else.
    """
    shown = sorted([*foot_of(area), *([VEIL] if hides else [])], key=lambda one: one.place)
    while len(shown) > 1 and length(_row(area, shown)) > width:
        spare = [one for one in shown if one.place < KEPT] or shown
        shown.remove(spare[-1])
    return _row(area, shown)


def _row(area: str, shown: Sequence[Action]) -> Line:
    parts: list[str | tuple[str, str]] = []
    for one in shown:
        key = one.display.split()[0]
        if one is VEIL and area in TYPED:
            parts += ["  " if parts else " ", one.verb]
            continue
        if one.area == "any" and area in TYPED:
            key = "F1"
        pressed = "f1" if key == "F1" else one.keys.split()[0]
        act = f"{ACT}app.press('{pressed}')" if "{key}" not in one.do else ""
        parts += ["  " if parts else " ", (key, f"key{act}"), (f" {one.verb}", act)]
    return line(*parts)
