"""A list to choose from: typing narrows it, enter takes the marked line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from textual import on
from textual.app import ComposeResult
from textual.widgets import Input

from appraise.app.lines import Line, clip, does, ends, fill, line
from appraise.app.sheet import Sheet

LEAD = 16  # cells of the words before a text


@dataclass(frozen=True, slots=True)
class Choice:
    """A line to choose.

    Attributes:
        id: What is handed back.
        text: The words, which are searched.
        mark: A sign before them.
        note: Words at the right end, which are searched too.
        group: What it stands under.
        lead: A word or two before the text, which stand in a column of their own.
    """

    id: str
    text: str
    mark: str = " "
    note: str = ""
    group: str = ""
    lead: str = ""

    def holds(self, words: Sequence[str]) -> bool:
        """Whether every word stands somewhere in it."""
        whole = f"{self.group} {self.lead} {self.text} {self.note} {self.id}".lower()
        return all(word in whole for word in words)


class Picker(Sheet[str]):
    """A list of choices under a line in which one types; hands back the id of the one taken."""

    AREA = "list"
    AUTO_FOCUS = "Input"

    def __init__(self, title: str, choices: Sequence[Choice], at: str = "") -> None:
        super().__init__()
        self.heading = title
        self._choices = tuple(choices)
        self._found = self._choices
        self._at = next((n for n, one in enumerate(choices) if one.id == at), 0)

    def middle(self) -> ComposeResult:
        """The line one types in, and the list."""
        yield Input(placeholder="type to narrow")
        yield from super().middle()

    def draw_head(self, width: int, height: int) -> Sequence[Line]:
        """The title, the group that one is in, and how many there are."""
        group = f"{self._found[self._at].group}   " if self._at < len(self._found) else ""
        many = f"{len(self._found)} of {len(self._choices)}"
        return self.head(self.heading, f"{group.lstrip()}{many}", width)

    def draw(self, width: int, height: int) -> Sequence[Line]:
        """The choices around the marked one, under the names of their groups."""
        rows: list[Line] = []
        at, group = 0, ""
        for place, one in enumerate(self._found):
            if one.group != group:
                group = one.group
                rows.append(line(" ", (group, "head")))
            at = len(rows) if place == self._at else at
            rows.append(does(self._row(one, place == self._at, width), f"click({place})"))
        top = max(0, min(at - height // 2, len(rows) - height))
        return rows[top : top + height] or [line(" ", ("no match", "doubt"))]

    def _row(self, one: Choice, here: bool, width: int) -> Line:
        marks = self.session.marks
        note = clip(one.note, max(0, width // 3), marks)
        lead = f"{one.lead:<{LEAD}} " if one.lead else ""
        text = lead + clip(one.text, max(1, width - len(note) - len(lead) - 8), marks)
        sign = marks.here if here else " "
        row = ends(
            line(f" {sign} {one.mark} ", text), line((note, "" if here else "quiet"), " "), width
        )
        if not here:
            return row
        return tuple((words, "here") for words, _ in fill(row, width))

    @on(Input.Changed)
    def narrow(self, event: Input.Changed) -> None:
        """Keep what holds every word that was typed."""
        words = event.value.lower().split()
        self._found = tuple(one for one in self._choices if one.holds(words))
        self._at = 0 if words else self._at
        self.redraw()

    @on(Input.Submitted)
    def submitted(self, event: Input.Submitted) -> None:
        """Enter takes the marked line."""
        self.action_take()

    def action_step(self, by: int) -> None:
        """Mark another line."""
        self._at = max(0, min(len(self._found) - 1, self._at + by))
        self.redraw()

    def action_click(self, place: int) -> None:
        """Hand back the line that was clicked."""
        self._at = place
        self.action_take()

    def on_mouse_scroll_down(self) -> None:
        """The wheel moves the mark."""
        self.action_step(1)

    def on_mouse_scroll_up(self) -> None:
        """The wheel moves the mark."""
        self.action_step(-1)

    def action_take(self) -> None:
        """Hand back the marked line."""
        if self._at < len(self._found):
            self.dismiss(self._found[self._at].id)
