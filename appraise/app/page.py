"""A page of text that is read: why, help, and the like. Only the lines on the screen are drawn."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, ClassVar, Generic, TypeVar

from textual import on
from textual.app import ComposeResult

from appraise.app.lines import EMPTY, Line, fold
from appraise.app.marks import Marks
from appraise.app.pane import Pane
from appraise.app.sheet import Sheet
from appraise.app.widgets.reading import ReadingPane, Write
from appraise.app.work import compute
from appraise.documents.document import Document
from appraise.documents.writers.lines import LineLayout, document_lines

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge

Found = TypeVar("Found")
MOST = 112  # cells of a text: wider lines are hard to read


def document_rows(document: Document, width: int, marks: Marks) -> list[Line]:
    """A document in lines of a width, drawn with the app's signs; its title stands above them."""
    width = min(MOST, width)
    rows = document_lines(document, LineLayout(width, bar=marks.bar, mark=marks.wall))
    foot = fold(document.purpose, width, role="quiet") if document.purpose else []
    return [*rows, *([EMPTY] if rows and foot else []), *foot]


class Page(Sheet[None]):
    """A page with a title; arrows, paging keys, wheel and scrollbar move through it."""

    AREA = "page"
    PRIVATE: ClassVar[bool] = True  # whether what looks like an amount in it is one of the user's
    AUTO_FOCUS = ""

    def __init__(self, title: str, write: Write) -> None:
        super().__init__()
        self.heading = title
        self._write = write

    def middle(self) -> ComposeResult:
        yield ReadingPane(self._write, id="text", private=self.PRIVATE)

    def draw_head(self, width: int, height: int) -> Sequence[Line]:
        text = self.query_one(ReadingPane)
        first, rows, many = int(text.scroll_offset.y), text.size.height, len(text.told)
        where = f"lines {first + 1}-{min(many, first + rows)} of {many}" if many > rows else ""
        return self.head(self.heading, where, width)

    @on(ReadingPane.Scrolled)
    def scrolled(self) -> None:
        """The title says which lines are on the screen."""
        self.query_one("#head", Pane).renew()

    def action_step(self, by: int) -> None:
        self.query_one(ReadingPane).move(by)

    def action_leap(self, by: int) -> None:
        self.action_step(by * max(1, self.query_one(ReadingPane).size.height - 1))

    def action_end(self, way: int) -> None:
        self.action_step(way * len(self.query_one(ReadingPane).told))


class FoundPage(Page, Generic[Found]):
    """A page of what a worker finds; until it has, it is written of None."""

    def __init__(
        self,
        title: str,
        seek: Callable[[Knowledge], Found],
        write: Callable[[Found | None, int], Sequence[Line]],
    ) -> None:
        super().__init__(title, lambda width: write(self.found, width))
        self.found: Found | None = None
        self._seek = seek

    def on_mount(self) -> None:
        compute(self, "page", self._seek, self.take)

    def take(self, found: Found) -> None:
        self.found = found
        self.redraw()
