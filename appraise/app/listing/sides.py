"""The sides of a piece that pictures can show, and the question for those that they do not."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

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
