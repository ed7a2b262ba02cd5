"""What each reader may see of a piece and of its records; the rest is taken away beforehand."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from appraise.records.entry import MONEY_FIELDS, Entry
from appraise.records.piece import Piece

if TYPE_CHECKING:
    from appraise.records.owned import OwnedPiece
    from appraise.records.repair import Repair

Sight = frozenset[str]
"""What a reader may see beside the piece itself: words of `SIGHTS`."""

SIGHTS = {
    "estimate": "what it is worth by the log, and what to bid",
    "paid": "what was asked, offered and paid, and where and when",
    "people": "from whom it came and where it is, its receipt, number, notes, and photos by name",
}
TREATED = ("cleaned", "mended", "with-conservator")
"""Events that everybody should know of."""


def piece_for(piece: Piece, sees: Sight) -> Piece:
    """The piece as a reader may see it.

    It is judged after this, so that nothing that was left out can come back in a sentence.
    """
    if "paid" not in sees:
        piece = replace(piece, asking=None)
    return piece if "people" in sees else replace(piece, origin=None, pictures=())


def entry_for(entry: Entry | None, sees: Sight) -> Entry | None:
    """The entry of the log as a reader may see it."""
    if entry is None:
        return None
    entry = replace(entry, estimate=None, piece="", extra={})
    if "paid" not in sees:
        nothing: dict[str, Any] = dict.fromkeys(MONEY_FIELDS)
        entry = replace(entry, venue="", **nothing)
    if "people" not in sees:
        entry = replace(entry, id="", venue="", note="", pictures=())
    return entry


def kept_for(kept: OwnedPiece | None, sees: Sight) -> OwnedPiece | None:
    """The piece as it is owned, as a reader may see it."""
    if kept is None or "people" in sees:
        return kept
    return replace(
        kept,
        entry="",
        piece="",
        number="",
        place="",
        acquired="",
        provenance="",
        receipt="",
        return_by=None,
        looks=tuple(replace(one, by="", note="") for one in kept.looks),
        events=tuple(
            replace(one, to="", until=None, cost=None, note="")
            for one in kept.events
            if one.sort in TREATED
        ),
        showings=(),
        climate="",
        note="",
    )


def work_for(work: Repair, sees: Sight) -> Repair:
    """Work on the piece, as a reader may see it; what it cost is nobody's but the owner's."""
    work = replace(work, cost=None, minutes=0)
    if "people" in sees:
        return work
    taken = tuple(replace(one, where="") for one in work.taken_out)
    return replace(work, piece="", who="", taken_out=taken, before=(), after=(), note="")
