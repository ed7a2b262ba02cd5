"""What a listing of several pieces offers: the pieces one by one, and all of them as a lot."""

import datetime as dt
import re
from collections.abc import Sequence
from dataclasses import replace

from appraise.knowledge.records import Knowledge
from appraise.listing.lots import SpareSaid
from appraise.listing.nature import Nature
from appraise.listing.records import Claim, Listing
from appraise.listing.sale import told_of_lot
from appraise.records.lot import Lot
from appraise.records.lot_file import item_of, title_of
from appraise.records.piece import Piece

_BULLET = re.compile(r"^[\s\-*•–#(]*(?:(?:\d{1,3}|[A-Za-z])[):.]\s+)?")
_OF_ONE = re.compile(r"\b(?:one|an?|1)\s+(?:(?!of\b)[\w/-]+\s+){0,2}$", re.IGNORECASE)
BEFORE = 40  # characters before a claim among which 'one' or 'a' is looked for


def offers(listing: Listing) -> str:
    """That a text offers several pieces; '' where it offers one or none."""
    if listing.pieces <= 1:
        return ""
    return f"this text offers {listing.pieces} pieces: judged as a lot"


def plain_title(title: str) -> str:
    """The title of a piece of a lot without the number or the dot before it."""
    return _BULLET.sub("", title) or title


def of_all(claims: Sequence[Claim], nature: Nature, text: str) -> list[Claim]:
    """The claims that hold for every piece of a lot: what it is, and where it is from.

    Args:
        claims: Of the whole text.
        nature: What all pieces are; '' where they differ.
        text: The listing; what it says of 'one' or 'a' piece is said of no other.
    """
    same = {
        "process": nature.process,
        "format": nature.format,
        "case.material": nature.material,
        "kind": nature.kind,
    }
    return [
        one
        for one in claims
        if (one.field == "region" or (one.value and same.get(one.field) == one.value))
        and not _OF_ONE.search(text[max(0, one.start - BEFORE) : one.start])
    ]


def alike(piece: Piece, claims: Sequence[Claim], count: int, knowledge: Knowledge) -> Piece:
    """One of so many pieces of which only what is said of all is known.

    Args:
        piece: The claims that hold for all, as a piece.
        claims: These claims.
        count: How many there are.
        knowledge: For the names.
    """
    said = {one.field: one.value for one in claims}
    form = knowledge.formats.get(said.get("format", ""))
    process = said.get("process", "")
    known = knowledge.processes.get(process)
    names = (form.name if form else "", known.name if known else process)
    words = " ".join(filter(None, names))
    title = f"{words or 'piece'}, one of {count}"
    return replace(piece, title=title, asking=None, shipping=None)


def beside(spares: Sequence[SpareSaid]) -> tuple[Piece, ...]:
    """What comes beside the pieces, each by its name alone."""
    return tuple(
        Piece(title=one.title, channel="online") for one in spares for _ in range(one.count)
    )


def lot_of(listing: Listing, day: dt.date, currency: str) -> Lot:
    """A listing as a lot: its pieces, what is asked for all, the shipping, what tells of the sale.

    Args:
        listing: As it was read.
        day: The day from which it is followed.
        currency: ISO 4217 code where nothing is asked.
    """
    whole = listing.piece
    pieces = listing.parts or (whole,)
    items = tuple(item_of(lot_piece(one)) for one in pieces)
    currency = whole.asking.currency if whole.asking else currency
    return Lot(
        title=" ".join(whole.title.split()) or title_of(items),
        since=day,
        currency=currency,
        channel=whole.channel,
        asking=whole.asking,
        shipping=whole.shipping,
        items=items,
        **told_of_lot(listing.text, day, currency),
    )


def lot_piece(piece: Piece) -> Piece:
    """A piece as one of a lot: no price and no shipping of its own."""
    return replace(piece, title=plain_title(piece.title), asking=None, shipping=None)
