"""What all our widgets of lines share: a line of words and roles becomes a strip of the screen.

A strip is made once for its words, place, width and look; of lines that are drawn anew only those
that are others than before are painted.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import zip_longest
from typing import TYPE_CHECKING, Any, Self

from rich.segment import Segment
from rich.style import Style as RichStyle
from textual import events
from textual.geometry import Region
from textual.messages import Update
from textual.selection import Selection
from textual.strip import Strip
from textual.style import Style

from appraise.app.discretion import veiled
from appraise.app.lines import ACT, DOES, EMPTY, LOOKS, Line, fill, words_of
from appraise.app.marks import FINE, Marks
from appraise.base.dataclass import dataclass

if TYPE_CHECKING:
    from textual.widget import Widget
else:
    Widget = object  # mixed into widgets of several kinds, whose styles they keep

KEPT = 400  # strips of a widget


@dataclass(frozen=True, slots=True)
class Backdrop:
    """What all lines of a widget share while it is painted.

    Attributes:
        room: The cells of a line, beside the scrollbar.
        base: The look of words without a role.
        theme: The name of the theme.
    """

    room: int
    base: RichStyle
    theme: str


class Drawn(Widget):
    """A widget of lines; what was clicked does what its words stand for."""

    private: bool = True  # amounts in it are the user's, and hidden where one is to be discreet
    _made: tuple[Backdrop | None, dict[object, Strip], dict[str, RichStyle]] = (None, {}, {})

    @property
    def marks(self) -> Marks:
        found: Marks = getattr(getattr(self.app, "session", None), "marks", FINE)
        return found

    @property
    def hides(self) -> bool:
        session = getattr(self.app, "session", None) if self.private else None
        return bool(getattr(session, "discreet", False))

    @property
    def room(self) -> int:
        """The cells of a line, beside the scrollbar."""
        return self.scrollable_content_region.width

    def strip(self, row: Line, y: int, ground: Backdrop) -> Strip:
        """A line in exactly the room there is; `y` is its place among all lines."""
        if self._made[0] != ground or len(self._made[1]) > KEPT:
            self._made = ground, {}, {}
        _, strips, looks = self._made
        key = row, y
        if key not in strips:
            parts = []
            for words, role in fill(row, ground.room):
                if role not in looks:
                    looks[role] = ground.base + _look(role)
                parts.append(Segment(words, looks[role]))
            strips[key] = Strip(parts, ground.room).apply_offsets(0, y)
        return strips[key]

    async def on_click(self, event: events.Click) -> None:
        """Do what the words that were clicked stand for."""
        if act := event.style.meta.get(DOES):
            event.stop()
            await self.app.run_action(act, self.screen)


def _look(role: str) -> RichStyle:
    """The look of a role in the theme that is shown, with what a click does."""
    name, _, does = role.partition(ACT)
    text = " ".join(LOOKS.get(one, one) for one in name.split())
    look = Style.parse(text).rich_style if text else RichStyle()
    return look + RichStyle.from_meta({DOES: does}) if does else look


Painting = tuple[Sequence[Line], int, Selection | None, Backdrop]
"""Lines, how many of them stand above, what is selected in them, and what they share."""


class Told(Drawn):
    """A widget that writes all its lines at once."""

    _painting: Painting | None = None
    _told: Sequence[Line] = ()
    _painted: Sequence[Line] | None = None
    _written_for: object = None

    def write(self) -> Sequence[Line]:
        """Its lines at its present size; each kind has its own."""
        return ()

    @property
    def scrolled(self) -> int:
        """How many of its lines stand above those that are seen."""
        return 0

    @property
    def told(self) -> Sequence[Line]:
        """Its lines as they are shown: written once for a size, amounts hidden where they are."""
        key = self.size, self.hides
        if self._written_for != key:
            self._written_for = key
            self._told = veiled(self.write()) if key[1] else tuple(self.write())
        return self._told

    @property
    def text(self) -> str:
        return "\n".join(map(words_of, self.told))

    def refresh(self, *regions: Region, **how: Any) -> Self:
        """Paint it: all of it is written anew, or only some of its lines painted."""
        if not regions:
            self._written_for = self._painted = None
        return super().refresh(*regions, **how)

    def renew(self) -> None:
        """Write it anew, and paint the lines that are others than before."""
        size = self.size
        if not size:
            return
        self._written_for = None
        before, self._painted = self._painted, self.told
        top = self.scrolled
        pairs = enumerate(zip_longest(before or (), self._painted))
        found = [Region(0, y - top, size.width, 1) for y, (was, now) in pairs if was != now]
        if before is None:
            found = [size.region]
        if found:
            self.refresh(*found)
            self.screen.post_message(Update(self))  # before what waits for it

    def render_lines(self, crop: Region) -> list[Strip]:
        """Some of its lines; what they share is found once for all of them."""
        self._painting = self._begun()
        strips = super().render_lines(crop)
        self._painting = None
        return strips

    def _begun(self) -> Painting:
        ground = Backdrop(self.room, self.rich_style, self.app.theme)
        return self.told, self.scrolled, self.text_selection, ground

    def render_line(self, y: int) -> Strip:
        """One line of the screen, and in it what is selected."""
        told, top, selected, ground = self._painting or self._begun()
        place = top + y
        strip = self.strip(told[place] if place < len(told) else EMPTY, place, ground)
        span = selected.get_span(place) if selected else None
        if span is None:
            return strip
        start, end = span
        room = ground.room
        end = room if end == -1 else end
        style = self.screen.get_component_rich_style("screen--selection")
        first, inner, last = strip.divide([start, end, room])
        return Strip.join([first, inner.apply_style(style), last]).apply_offsets(0, place)

    def get_selection(self, selection: Selection) -> tuple[str, str] | None:
        return selection.extract(self.text), "\n"

    def selection_updated(self, selection: Selection | None) -> None:
        self.refresh(self.size.region)
