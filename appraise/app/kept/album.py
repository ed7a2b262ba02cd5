"""The photos of a piece that one owns: those of its purchase, and those made of it in hand."""

from __future__ import annotations

from dataclasses import replace

from appraise.app.photos import Album, Pictures
from appraise.app.session import Session
from appraise.collection.examinations import ONLINE, piece_in
from appraise.records.entry import Entry
from appraise.records.owned import OwnedPiece
from appraise.records.piece_file import write_piece
from appraise.records.stored import Stored
from appraise.store.log import Log
from appraise.store.owned_pieces import store
from appraise.store.piece_record import entry_behind
from appraise.store.records import held


def claimed_photos(log: Log, kept: str) -> tuple[Pictures, str]:
    """The photos of the purchase of an owned piece, by its id, and where they come from."""
    found = next((one.thing for one in held(log, OwnedPiece) if one.id == kept), None)
    return before_of(entry_behind(log, found) if found else None)


def before_of(entry: Entry | None) -> tuple[Pictures, str]:
    """The photos of a purchase, and where they come from."""
    source = "listing" if entry and entry.channel in ONLINE else "as bought"
    return (entry.pictures if entry else ()), source


def owned_album(session: Session, one: Stored[OwnedPiece], entry: Entry | None) -> Album:
    """The photos of a piece; one that is added belongs to the piece in hand.

    Raises:
        InputError: when its piece file cannot be read.
    """
    kept = one.thing
    piece = piece_in(kept, session.trade())

    def save(pictures: Pictures) -> None:
        text = write_piece(replace(piece, pictures=(*unowned, *pictures)))
        store(session.log, Stored(one.id, replace(kept, piece=text)), kept)

    before, source = before_of(entry)
    unowned = tuple(each for each in piece.pictures if each in before)
    mine = tuple(each for each in piece.pictures if each not in before)
    return Album(mine, save, before, source)
