"""Why no maximum is given under a listing, as it was read and as its photos were answered since."""

from appraise.knowledge.records import Knowledge
from appraise.listing.records import Listing
from appraise.records.holds import holds_of
from appraise.records.piece import Piece


def held(listing: Listing, piece: Piece, knowledge: Knowledge) -> tuple[str, ...]:
    """Why a bid is held back, each as the end of a sentence.

    Args:
        listing: The text, read.
        piece: The piece as it stands: what the seller says, under what photos showed.
        knowledge: The trade's knowledge.

    Returns:
        The reasons with the seller's own words; none where the answers behind them were all
        given anew from the photos.
    """
    said = holds_of(piece, knowledge)
    if holds_of(listing.piece, knowledge) and not said:
        return ()
    return listing.holds_back or said
