"""The page of a kept piece."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual import on
from textual.binding import BindingType

from appraise.app.actions import bindings_of
from appraise.app.kept.acts import PieceActs
from appraise.app.lines import EMPTY, Line, line
from appraise.app.messages import Ready
from appraise.app.page import Page, document_rows
from appraise.app.session import READING
from appraise.base.money import Money
from appraise.documents.owned_page import PageInput, owned_document
from appraise.pricing.cost_basis import all_in_price
from appraise.records.entry import Entry
from appraise.records.owned import OwnedPiece
from appraise.records.stored import Stored
from appraise.store.owned_pieces import entry_behind
from appraise.store.records import held

NO_MORE = "This piece has been removed. u: undo."


class OwnedPage(PieceActs, Page, inherit_bindings=False):
    """One kept piece with everything on it."""

    AREA = "owned"
    BINDINGS: ClassVar[list[BindingType]] = bindings_of("owned")

    def __init__(self, one: Stored[OwnedPiece]) -> None:
        super().__init__(one.thing.title, self.lines)
        self._held = one
        self._there = True
        self._entry: Entry | None = None
        self._cost: Money | None = None

    @property
    def here(self) -> Stored[OwnedPiece] | None:
        """The piece; None once it is kept no more."""
        return self._held if self._there else None

    def on_mount(self) -> None:
        """Read its purchase."""
        self.read()

    def on_screen_resume(self) -> None:
        """Read it again: something may have been done to it."""
        self.read()

    @on(Ready)
    def ready(self, message: Ready) -> None:
        """The knowledge has come."""
        self.redraw()

    def lines(self, width: int) -> Sequence[Line]:
        """The page in lines of a width."""
        session = self.session
        if not self._there:
            return [EMPTY, line((NO_MORE, "doubt"))]
        if session.knowledge is None:
            return [EMPTY, line((READING, "quiet"))]
        matter = PageInput(
            self._held.id,
            self._held.thing,
            self._entry,
            self._cost,
            session.knowledge,
            session.as_of,
        )
        return document_rows(owned_document(matter), width, session.marks)

    def read(self) -> None:
        """Read the piece and its purchase anew."""
        session = self.session

        def look() -> None:
            known = {one.id: one for one in held(session.log, OwnedPiece)}
            self._there = self._held.id in known
            self._held = known.get(self._held.id, self._held)
            self._entry = entry_behind(session.log, self._held.thing)
            session.read_book()
            currency = session.settings.currency
            self._cost = all_in_price(self._entry, currency, session.book) if self._entry else None

        if self.attempt(look):
            self._title = self._held.thing.title
        self.redraw()

    def gone(self) -> None:
        """It was taken off the list: back to where one was."""
        self.dismiss(None)
