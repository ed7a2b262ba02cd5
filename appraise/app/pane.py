"""The two widgets that draw: a pane of lines, and the line of keys at the foot."""

from collections.abc import Sequence

from textual import events
from textual.widget import Widget

from appraise.app.actions import KEPT, Action, foot_of
from appraise.app.lines import ACT, Line, fold_to, length, line
from appraise.app.widgets.drawn import Told
from appraise.app.widgets.reading import Draw

MOST_SAID = 3  # lines of a message
BAR = 20  # cells of a job's bar

TYPED = ("look", "list", "form", "filter", "cell", "line", "slip")
"""Places in which letters are typed, so that help has to be asked for with another key."""


VEIL = Action("any", "app.discretion", "m", "amounts hidden", "Show all amounts.", place=97)
"""What the line of keys says while amounts are hidden."""


class Pane(Told, Widget):
    """A part of the screen that a pure function draws."""

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
        self.private = private

    def write(self) -> Sequence[Line]:
        return self._draw(*self.size)[: self.size.height]


class Foot(Told, Widget):
    """The line of keys; a message stands in its place until the next key."""

    def __init__(self, area: str) -> None:
        super().__init__()
        self.area = area
        self.message = ""
        self.role = ""

    def say(self, message: str, role: str = "doubt") -> None:
        self.message, self.role = message, role
        many = len(self.said(self.size.width or self.app.size.width))
        if many != self.size.height:
            self.styles.height = many
        self.renew()

    def progress(self, says: str, done: int, of: int) -> None:
        """Show how far a long job has come: a bar, the counts, and how to end it."""
        full = round(BAR * done / of) if of else 0
        bar = self.marks.bar * full + self.marks.rule * (BAR - full)
        told = f"{bar} {done:,} of {of:,}" if of else "..."
        self.say(f"{says} {told}   esc cancels", "good")

    def hush(self) -> None:
        if self.message:
            self.say("")

    def show(self, area: str) -> None:
        self.area = area
        self.renew()

    def said(self, width: int) -> list[Line]:
        """What it shows in so many cells: the keys in one line, a message in up to three."""
        if self.message:
            room = max(1, width - 2)
            return [line(" ", (row, self.role)) for row in fold_to(self.message, room, MOST_SAID)]
        return [keys_line(self.area, width, self.hides)]

    def write(self) -> Sequence[Line]:
        return self.said(self.size.width)

    async def on_click(self, event: events.Click) -> None:
        """A click takes a message away; what it does beside is done for every widget of lines."""
        self.hush()


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
