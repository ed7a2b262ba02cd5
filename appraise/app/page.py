"""A page of text that is read: why, help, and the like. Only the lines on the screen are drawn."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import ClassVar

from textual.binding import BindingType

from appraise.app.actions import bindings_of
from appraise.app.lines import EMPTY, Line, fold, inset
from appraise.app.marks import Marks
from appraise.app.sheet import Sheet
from appraise.documents.document import Document
from appraise.documents.writers.lines import LineLayout, document_lines

Write = Callable[[int], Sequence[Line]]
"""Writes the whole page in lines of a width."""


def document_rows(document: Document, width: int, marks: Marks) -> list[Line]:
    """A document in lines of a width, drawn with the app's signs; its title stands above them."""
    rows = document_lines(document, LineLayout(width, bar=marks.bar, mark=marks.wall))
    foot = fold(document.purpose, width, role="quiet") if document.purpose else []
    return [*rows, *([EMPTY] if rows and foot else []), *foot]


class Page(Sheet[None], inherit_bindings=False):
    """A page with a title; j and k move through it."""

    AREA = "page"
    BINDINGS: ClassVar[list[BindingType]] = bindings_of("page")

    def __init__(self, title: str, write: Write) -> None:
        super().__init__()
        self._title = title
        self._write = write
        self._top = 0
        self._shown = 1
        self._count = 1

    def draw(self, width: int, height: int) -> Sequence[Line]:
        """Title, rule, and the lines from the top one on."""
        rows = list(self._write(max(1, width - 2)))
        self._shown, self._count = max(1, height - 2), len(rows)
        self._top = max(0, min(self._top, len(rows) - self._shown))
        last = min(len(rows), self._top + self._shown)
        where = f"lines {self._top + 1}-{last} of {len(rows)}" if len(rows) > self._shown else ""
        body = inset(rows[self._top : last])
        filled = [*body, *[EMPTY] * (self._shown - len(body))]
        return [*self.head(self._title, where, width), *filled]

    def action_step(self, by: int) -> None:
        """So many lines on."""
        self._top += by
        self.redraw()

    def action_leap(self, by: int) -> None:
        """So many pages on, a line of the last one staying."""
        self.action_step(by * max(1, self._shown - 1))
