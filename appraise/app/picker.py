"""A list to choose from: typing narrows it, enter takes the marked line."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from textual import on
from textual.app import ComposeResult
from textual.widgets import Input

from appraise.app.lines import Line, clip, does, ends, fill, line
from appraise.app.sheet import Sheet
from appraise.base.dataclass import dataclass

MOST = 112  # cells of a line: a note further away is not read with its text
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


def choose(
    sheet: Sheet[Any], title: str, choices: Sequence[Choice], then: Callable[[str], object]
) -> None:
    """Choose one of several; of one there is no choice."""
    if len(choices) == 1:
        then(choices[0].id)
    else:
        sheet.open(Picker(title, choices), then)


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
        self._top: int | None = None  # the first row that is shown; None: not drawn yet

    def middle(self) -> ComposeResult:
        yield Input(placeholder="type to narrow")
        yield from super().middle()

    def draw_head(self, width: int, height: int) -> Sequence[Line]:
        """The title, the group that one is in, and how many there are."""
        group = f"{self._found[self._at].group}   " if self._at < len(self._found) else ""
        many = f"{len(self._found)} of {len(self._choices)}"
        return self.head(self.heading, f"{group.lstrip()}{many}", width)

    def draw(self, width: int, height: int) -> Sequence[Line]:
        """The choices under the names of their groups, scrolled no further than needed."""
        width = min(width, MOST)
        rows: list[str | int] = []  # the name of a group, or the place of a choice
        for place, one in enumerate(self._found):
            if one.group and (not place or one.group != self._found[place - 1].group):
                rows.append(one.group)
            rows.append(place)
        at = rows.index(self._at) if rows else 0
        lead = at and isinstance(rows[at - 1], str)  # the name of a group comes with its first line
        top = at - height // 2 if self._top is None else self._top
        top = min(max(top, at - height + 1), at - bool(lead), max(0, len(rows) - height))
        self._top = max(0, top)
        drawn = [
            line(" ", (row, "head")) if isinstance(row, str) else self._row(row, width)
            for row in rows[self._top : self._top + height]
        ]
        return drawn or [line(" ", ("no match", "doubt"))]

    def _row(self, place: int, width: int) -> Line:
        marks, one, here = self.session.marks, self._found[place], place == self._at
        note = clip(one.note, max(0, width // 3), marks)
        lead = f"{one.lead:<{LEAD}} " if one.lead else ""
        text = lead + clip(one.text, max(1, width - len(note) - len(lead) - 8), marks)
        row = ends(
            line(f" {marks.here if here else ' '} {one.mark} ", text),
            line((note, "" if here else "quiet"), " "),
            width,
        )
        row = tuple((words, "here") for words, _ in fill(row, width)) if here else row
        return does(row, f"click({place})")

    @on(Input.Changed)
    def narrow(self, event: Input.Changed) -> None:
        """Keep what holds every word that was typed."""
        words = event.value.lower().split()
        self._found = tuple(one for one in self._choices if one.holds(words))
        self._at = 0 if words else self._at
        self.redraw()

    @on(Input.Submitted)
    def submitted(self, event: Input.Submitted) -> None:
        self.action_take()

    def action_step(self, by: int) -> None:
        self._at = max(0, min(len(self._found) - 1, self._at + by))
        self.redraw()

    def action_leap(self, by: int) -> None:
        self.action_step(by * max(1, self.query_one("#body").size.height - 1))

    def action_click(self, place: int) -> None:
        self._at = place
        self.action_take()

    def on_mouse_scroll_down(self) -> None:
        self.action_step(1)

    def on_mouse_scroll_up(self) -> None:
        self.action_step(-1)

    def action_take(self) -> None:
        if self._at < len(self._found):
            self.dismiss(self._found[self._at].id)
