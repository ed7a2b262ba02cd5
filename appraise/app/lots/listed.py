"""A lot as it stands in a listing or under review, before it is followed."""

from __future__ import annotations

from collections.abc import Sequence

from appraise.app.session import Session
from appraise.records.lot import Lot
from appraise.records.lot_file import item_of
from appraise.records.piece import Piece


def lot_from(session: Session, piece: Piece, parts: Sequence[Piece] = ()) -> Lot:
    """A lot from what is under review: where it is met, and what is asked for it.

    Args:
        session: This run.
        piece: What is reviewed, as one piece.
        parts: The pieces, where it is listed piece by piece.
    """
    venue = piece.origin.where if piece.origin else ""
    asked = piece.asking.currency if piece.asking else ""
    currency = asked or session.book.sells(venue) or session.settings.currency
    title = f"{len(parts)} pieces: {parts[0].title}" if parts else piece.title
    return Lot(
        title=" ".join(title.split()) or "untitled lot",
        since=session.as_of,
        currency=currency,
        venue=venue,
        channel=piece.channel,
        asking=piece.asking,
        shipping=piece.shipping,
        items=tuple(map(item_of, parts or (piece,))),
    )
