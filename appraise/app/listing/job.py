"""Reading a text, away from the keys: one worker at a time, superseded ones dropped."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from textual.message import Message

from appraise.app.listing.items import amounts_in, places_of
from appraise.app.listing.marked import Marked
from appraise.app.work import compute

if TYPE_CHECKING:
    from textual.dom import DOMNode

    from appraise.app.session import Session
    from appraise.knowledge.records import Knowledge
    from appraise.listing.records import Listing
    from appraise.records.piece import Piece


@dataclass(eq=False)
class TextRead(Message):
    """To the Listing screen: a text has been read; `turn` says which."""

    turn: int
    listing: Listing
    marked: Marked
    before: Piece | None = None


def read_text(node: DOMNode, session: Session, text: str, turn: int, earlier: str = "") -> None:
    """Read a text and post `TextRead`; 10 ms for a usual one, 100 the first time.

    `earlier`: another text, of which only the piece is wanted.
    """

    def job(knowledge: Knowledge) -> Message:
        from appraise.listing.reader import read  # 30 ms with rapidfuzz, first time

        currency = session.settings.currency
        listing = read(text, knowledge, currency)
        marked = Marked(text, places_of(listing), amounts_in(text, listing))
        before = read(earlier, knowledge, currency).piece if earlier else None
        return TextRead(turn, listing, marked, before)

    compute(node, session, "listing", job)
