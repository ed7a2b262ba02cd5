"""A lot file taken up as a lot that is followed, and back."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import replace

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.knowledge.records import Knowledge
from appraise.piece.files import parse_piece
from appraise.piece.lots import LotFile, PlannedPiece
from appraise.piece.records import Piece
from appraise.piece.write import write_piece
from appraise.records.lot import Lot, LotItem

UNNAMED = "untitled piece"


def followed(file: LotFile, since: dt.datetime, day: dt.date, currency: str) -> Lot:
    """A lot file as a lot that is followed from a day on; a bid in it counts as placed `since`.

    Args:
        file: What the file says.
        since: The instant.
        day: The day.
        currency: ISO 4217 code where nothing in the file names one.
    """
    named = [one.currency for one in (file.bid, file.asking, file.low) if one is not None]
    code = file.currency or (named[0] if named else currency)
    items = tuple(map(item_of, file.pieces))
    bid = file.bid if file.bid and file.bid.amount > 0 else None
    return Lot(
        title=file.title.strip() or _named(items),
        since=day,
        currency=code,
        venue=file.venue,
        channel=file.channel,
        number=file.number,
        where=file.where,
        closes=file.closes,
        asking=file.asking,
        shipping=file.shipping,
        low=file.low,
        high=file.high,
        selling=file.selling,
        items=items,
        ceiling=file.ceiling,
        ceiling_on=day if file.ceiling else None,
        bid=bid,
        bid_at=since.astimezone(dt.UTC).replace(microsecond=0) if bid else None,
        state="bid" if bid else "followed",
        note=file.note,
    )


def _named(items: tuple[LotItem, ...]) -> str:
    """What a lot without a title is called."""
    first = items[0].title if items else "untitled lot"
    return first if len(items) < 2 else f"{first} and {len(items) - 1} more"


def item_of(planned: PlannedPiece) -> LotItem:
    """A piece of a lot file as the lot keeps it; of one that nobody looked at, the title alone."""
    piece = planned.piece
    title = " ".join(piece.title.split()) or UNNAMED
    text = "" if bare(piece) else write_piece(piece)
    return LotItem(title, text, planned.plan, planned.worth, planned.extra, planned.parts)


def met_in(piece: Piece, lot: Lot) -> Piece:
    """A piece as one of a lot: met where the lot is, known as things are known there.

    What was noted as known in the usual way of another place was seen as one sees it here.
    """
    there = replace(piece, channel=lot.channel or piece.channel, asking=None, shipping=None)
    usual, here = piece.default_known, there.default_known
    findings = {
        name: replace(one, known=here) if one.known == usual else one
        for name, one in piece.findings.items()
    }
    return replace(there, findings=findings)


def with_pieces(lot: Lot, pieces: Iterable[Piece]) -> Lot:
    """The lot with further pieces in it, to be kept unless said otherwise."""
    return replace(lot, items=(*lot.items, *(item_of(PlannedPiece(one)) for one in pieces)))


def bare(piece: Piece) -> bool:
    """Whether nothing is known of a piece but its title, and where it is met."""
    return piece == Piece(title=piece.title, channel=piece.channel)


def file_of(lot: Lot, knowledge: Knowledge) -> LotFile:
    """The lot as a lot file tells it: what it is, when it closes, what one would pay.

    Raises:
        InputError: when a piece can no longer be read by the knowledge as it stands.
    """
    return LotFile(
        title=lot.title,
        currency=lot.currency,
        venue=lot.venue,
        channel=lot.channel,
        number=lot.number,
        where=lot.where,
        closes=lot.closes,
        asking=lot.asking,
        shipping=lot.shipping,
        low=lot.low,
        high=lot.high,
        selling=lot.selling,
        ceiling=lot.ceiling,
        bid=lot.standing,
        note=lot.note,
        pieces=tuple(planned(one, lot, knowledge) for one in lot.items),
    )


def planned(item: LotItem, lot: Lot, knowledge: Knowledge) -> PlannedPiece:
    """A piece of a lot with its file read; errors as in `file_of`."""
    return PlannedPiece(
        piece_in(item, lot, knowledge), item.plan, item.worth, item.extra, item.parts
    )


def piece_in(item: LotItem, lot: Lot, knowledge: Knowledge) -> Piece:
    """What is known of a piece of a lot, which is met where the lot is; errors as in `file_of`."""
    if not item.piece:
        return Piece(title=item.title, channel=lot.channel or Piece().channel)
    piece = parse_piece(item.piece, f"{lot.title}, {item.title}", knowledge)
    return replace(piece, channel=lot.channel) if lot.channel else piece


def stated(text: str, name: str, currency: str) -> Money | None:
    """An amount as typed into a field of that name; None when empty.

    Raises:
        InputError: placed at the field, when it is no amount.
    """
    try:
        return Money.parse(text, currency) if text.strip() else None
    except InputError as error:
        raise InputError(error.what, name, error.mend) from None
