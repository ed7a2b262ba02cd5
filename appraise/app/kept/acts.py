"""What the keys do to the piece that one is at, in the table and on its page alike."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from appraise.app import reports
from appraise.app.kept import deeds
from appraise.app.session import READING
from appraise.app.sheet import Sheet
from appraise.app.undoing import Undoes
from appraise.records.owned import OwnedPiece
from appraise.records.stored import Stored

if TYPE_CHECKING:
    from appraise.store.piece_record import PieceRecord


class PieceActs(Undoes, Sheet[None], inherit_bindings=False):
    """A screen on which one is at a kept piece, or at none."""

    SHOWS = frozenset({"kept"})

    @property
    def here(self) -> Stored[OwnedPiece] | None:
        """The piece one is at."""
        return None

    def read(self) -> None:
        """Read the log anew."""

    def gone(self) -> None:
        """The piece one was at was taken off the list."""
        self.read()

    def action_edit(self) -> None:
        """Edit what is noted of it."""
        if self.here is not None:
            deeds.edit(self, self.here, self.read)

    def action_where(self) -> None:
        """Note what happened to it."""
        from appraise.app.kept.happenings import ask_where

        if self.here is not None:
            ask_where(self, self.here, self.read)

    def action_check(self) -> None:
        """Note how it is."""
        if self.here is not None:
            deeds.check(self, self.here, self.read)

    def action_examine(self) -> None:
        """Look at it anew."""
        from appraise.app.kept.inhand import look_at  # 40 ms with the reading

        if self.here is not None:
            look_at(self, self.here, self.read)

    def action_arrival(self) -> None:
        """What came against what was claimed."""
        from appraise.app.kept.arrivalpage import open_arrival

        if self.here is not None:
            open_arrival(self, self.here)

    def action_sell(self) -> None:
        """Log its sale."""
        from appraise.app.kept.selling import ask_sale

        if self.here is not None:
            ask_sale(self, self.here, self.read)

    def action_report(self) -> None:
        """A report on it."""
        if self.here is not None:
            tell_kept(self, self.here)

    def action_remove(self) -> None:
        """Remove it from the list."""
        if self.here is not None:
            deeds.remove(self, self.here, self.gone)

    def reread(self) -> None:
        """Show the log as it is now."""
        self.read()


def tell_kept(sheet: Sheet[Any], one: Stored[OwnedPiece]) -> None:
    """A report on a kept piece, for one sort of reader."""
    from appraise.store.piece_record import piece_record

    session = sheet.session
    knowledge = session.knowledge
    if knowledge is None:
        sheet.say(READING)
        return
    found: list[PieceRecord] = []
    if sheet.attempt(lambda: found.append(piece_record(session.log, one.id, knowledge))):
        reports.tell(sheet, found[0])
