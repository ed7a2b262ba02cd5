"""The sides that the pictures show, to be struck out one by one."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from appraise.app.lines import EMPTY, Line, fold, line
from appraise.app.listing.sides import question_for, sides_of, turned
from appraise.app.marks import ORDER, UNSEEN
from appraise.app.sheet import Sheet
from appraise.records.piece import Piece

GUIDE = "Press a number to mark a view as missing; press again to unmark it."


class Sides(Sheet[Piece]):
    """A short list; hands back the piece with what is not shown."""

    AREA = "sides"
    heading = "Views in the photos"

    def __init__(self, piece: Piece, keep: Callable[[Piece], None]) -> None:
        super().__init__()
        self._piece = piece
        self._keep = keep

    def draw(self, width: int, height: int) -> Sequence[Line]:
        """The sides by number, and the question that follows."""
        rows = [EMPTY, *fold(GUIDE, max(1, width - 2), " ", role="quiet"), EMPTY]
        for number, side in enumerate(sides_of(self._piece), start=1):
            hidden = side in self._piece.not_shown
            sign, role = (UNSEEN, "doubt") if hidden else (ORDER, "good")
            told = "not shown" if hidden else "shown"
            rows.append(
                line("  ", (str(number), "key"), "  ", (sign, role), f" {side:<20}", (told, role))
            )
        asks = question_for(self._piece.not_shown)
        return [*rows, EMPTY, *(fold(asks, max(1, width - 2), " Ask: ") if asks else ())]

    def action_turn(self, number: int) -> None:
        """Strike a side out, or bring it back."""
        sides = sides_of(self._piece)
        if number <= len(sides):
            self._piece = turned(self._piece, sides[number - 1])
            self._keep(self._piece)
            self.redraw()
