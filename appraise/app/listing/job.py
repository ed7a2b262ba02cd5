"""Reading a text, away from the keys: one worker at a time, superseded ones dropped."""

from __future__ import annotations

from typing import TYPE_CHECKING

from appraise.app.listing.items import amounts_in, places_of
from appraise.app.listing.marked import Marked
from appraise.app.work import compute

if TYPE_CHECKING:
    from appraise.app.listing.view import ListingScreen
    from appraise.knowledge.records import Knowledge
    from appraise.listing.records import Listing
    from appraise.records.piece import Piece

TextRead = tuple["Listing", Marked, "Piece | None"]


def read_text(view: ListingScreen, text: str, turn: int, earlier: str) -> None:
    """Have a text read, the one of a turn; 10 ms for a usual one, 100 the first time.

    `earlier`: another text, of which only the piece is wanted; empty: none.
    """
    currency = view.session.settings.currency

    def job(knowledge: Knowledge) -> TextRead:
        from appraise.listing.reader import read  # 30 ms with rapidfuzz, first time

        listing = read(text, knowledge, currency)
        marked = Marked(text, places_of(listing), amounts_in(text, listing))
        return listing, marked, read(earlier, knowledge, currency).piece if earlier else None

    compute(view, "listing", job, lambda found: view.text_read(turn, *found))
