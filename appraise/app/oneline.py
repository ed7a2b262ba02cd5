"""One line that is typed, and how it was understood: what the screens for such a line share."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Sequence
from typing import ClassVar, TypeVar

from textual import on
from textual.app import ComposeResult
from textual.widgets import Input

from appraise.app.lines import EMPTY, Line, fold, line
from appraise.app.messages import Ready
from appraise.app.sheet import Sheet
from appraise.knowledge.records import Knowledge

T = TypeVar("T")


class OneLine(Sheet[T]):
    """A title, a line to type in, what became of it, the keys.

    Attributes:
        EXAMPLES: Lines that could be typed.
        GUIDE: How to write one.
    """

    AUTO_FOCUS = "Input"
    EXAMPLES: ClassVar[tuple[str, ...]]
    GUIDE: ClassVar[str]

    def middle(self) -> ComposeResult:
        """The line, and what became of it."""
        yield Input(placeholder=self.EXAMPLES[0])
        yield from super().middle()

    def draw(self, width: int, height: int) -> Sequence[Line]:
        """How the line was understood, or how to write one."""
        told = self.understood_lines(width)
        if told is not None:
            return told
        guide = "The knowledge is being read ..." if self.session.knowledge is None else self.GUIDE
        rows = [EMPTY, *fold(guide, max(1, width - 2), " "), EMPTY]
        return [*rows, *(line("   ", (one, "quiet")) for one in self.EXAMPLES)]

    @abstractmethod
    def understood_lines(self, width: int) -> Sequence[Line] | None:
        """How the line was understood; None where nothing was typed yet."""

    @abstractmethod
    def understand(self, text: str, knowledge: Knowledge) -> None:
        """Take in the line as it stands."""

    @abstractmethod
    def forget(self) -> None:
        """Nothing is typed, or nothing can be understood yet."""

    @abstractmethod
    def action_take(self) -> None:
        """Take the line as it was understood."""

    @on(Input.Changed)
    def changed(self, event: Input.Changed) -> None:
        """Understand the line as it stands."""
        self._follow(event.value)

    @on(Ready)
    def ready(self, message: Ready) -> None:
        """The knowledge has come: understand what was typed meanwhile."""
        self._follow(self.query_one(Input).value)

    @on(Input.Submitted)
    def submitted(self, event: Input.Submitted) -> None:
        """Enter takes the line."""
        self.action_take()

    def _follow(self, text: str) -> None:
        knowledge = self.session.knowledge
        if knowledge is None or not text.strip():
            self.forget()
        else:
            self.understand(text, knowledge)
        self.redraw()
