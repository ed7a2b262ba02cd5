"""Reading a text, away from the keys: one worker at a time, superseded ones dropped."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from textual.message import Message
from textual.worker import get_current_worker

from appraise.app.listing.items import amounts_in, places_of
from appraise.app.listing.marked import Marked

if TYPE_CHECKING:
    from textual.dom import DOMNode

    from appraise.app.session import Session
    from appraise.listing.records import Listing
    from appraise.records.piece import Piece


class TextRead(Message):
    """To the Listing screen: a text has been read; `turn` says which."""

    def __init__(
        self, turn: int, listing: Listing, marked: Marked, before: Piece | None = None
    ) -> None:
        super().__init__()
        self.turn = turn
        self.listing = listing
        self.marked = marked
        self.before = before


def read_text(node: DOMNode, session: Session, text: str, turn: int, earlier: str = "") -> None:
    """Read a text and post `TextRead`; 10 ms for a usual one, 100 the first time.

    A job that was superseded before it began never begins; one that was superseded meanwhile
    posts nothing. `earlier`: another text, of which only the piece is wanted.
    """

    def job() -> None:
        from appraise.listing import read  # 30 ms with rapidfuzz, first time

        worker = get_current_worker()
        with session.bench:
            if worker.is_cancelled or session.knowledge is None:
                return
            listing = read(text, session.knowledge, session.settings.currency)
            marked = Marked(text, places_of(listing), amounts_in(text, listing))
            currency = session.settings.currency
            before = read(earlier, session.knowledge, currency).piece if earlier else None
        if not worker.is_cancelled:
            node.post_message(TextRead(turn, listing, marked, before))

    run: Any = node.run_worker
    run(job, thread=True, exclusive=True, group="listing", exit_on_error=False)
