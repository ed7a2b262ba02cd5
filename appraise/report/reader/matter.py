"""What a report is about, less what its reader must not see."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any

from appraise.log.entries import MONEY_FIELDS, Entry
from appraise.piece.records import Piece

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.verdict import NextSteps, Verdict

Sight = frozenset[str]
"""What a reader may see beside the piece itself: words of `SIGHTS`."""

SIGHTS = {
    "estimate": "what the log says that it is worth, and what to bid",
    "paid": "what was asked, offered and paid, and where and when",
    "people": "from whom it came, its receipt, its number, notes and pictures' names",
}


@dataclass(frozen=True, slots=True)
class Matter:
    """A judged piece with what the log knows beside it.

    Attributes:
        verdict: The piece, judged.
        knowledge: What the trade knows.
        entry: Its entry of the log, or None.
        steps: What to look at next; None where the reader is not to look.
        titles: What the entries of the log are called, by id.
        kept_at: Where the log that holds its record lies, in words; empty: in no log.
    """

    verdict: Verdict
    knowledge: Knowledge
    entry: Entry | None = None
    steps: NextSteps | None = None
    titles: Mapping[str, str] = field(default_factory=dict)
    kept_at: str = ""

    @property
    def piece(self) -> Piece:
        """The piece."""
        return self.verdict.piece


def piece_for(piece: Piece, sees: Sight) -> Piece:
    """The piece as a reader may see it.

    It is judged after this, so that nothing that was left out can come back in a sentence.
    """
    if "paid" not in sees:
        piece = replace(piece, asking=None)
    return piece if "people" in sees else replace(piece, origin=None)


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
