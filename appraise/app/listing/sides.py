"""The sides of a piece that pictures can show: which are missing, and the question for those."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from appraise.app.lines import EMPTY, Line, fold, line
from appraise.app.marks import ORDER, UNSEEN
from appraise.app.sheet import Sheet
from appraise.records.piece import Piece

SIDES = {
    "cased": ("front", "back", "inside of the lid", "spine", "edges", "clasps", "seal"),
    "loose-plate": ("front", "back", "edges"),
    "card": ("front", "back", "edges"),
    "lantern-slide": ("front", "back", "edges"),
    "cyanotype": ("front", "back"),
    "print": ("front", "back", "edges"),
    "postcard": ("front", "back"),
    "empty-case": ("outside", "inside of the lid", "well", "spine", "edges", "clasps"),
    "part": ("front", "back", "edges"),
    "album": ("cover", "every page", "backs"),
    "lot": ("each piece", "backs"),
    "other": ("front", "back"),
}
"""What there is to see, by kind."""


def sides_of(piece: Piece) -> tuple[str, ...]:
    """The sides of such a piece, and any other that was noted as not shown."""
    usual = SIDES[piece.kind]
    return (*usual, *(one for one in piece.not_shown if one not in usual))


def turned(piece: Piece, side: str) -> Piece:
    """The piece with a side noted as not shown, or as shown again."""
    hidden = set(piece.not_shown) ^ {side}
    return replace(piece, not_shown=tuple(one for one in sides_of(piece) if one in hidden))


def question_for(hidden: Sequence[str]) -> str:
    """A polite question for the photos that are missing; empty when none is."""
    if not hidden:
        return ""
    named = [f"the {one}" for one in hidden]
    told = named[0] if len(named) == 1 else f"{', '.join(named[:-1])} and {named[-1]}"
    many = "a photo" if len(named) == 1 else "photos"
    return f"Could you please add {many} of {told}?"


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
        sides = sides_of(self._piece)
        if number <= len(sides):
            self._piece = turned(self._piece, sides[number - 1])
            self._keep(self._piece)
            self.redraw()
