"""`appraise listing`: a seller's text into claims, flags, gaps and questions, then the verdict."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

from appraise.base.errors import InputError
from appraise.base.files import read_bytes, write_new
from appraise.cli.context import Context
from appraise.cli.pieces import found, judged, passing

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.listing.records import Listing
    from appraise.records.lot import Lot
    from appraise.records.piece import Piece

LONGEST = 2_000_000  # bytes; a listing is some thousands


def run_listing(args: argparse.Namespace, context: Context) -> None:
    from appraise.documents.listing import listing_document, listing_json
    from appraise.documents.writers.lines import text
    from appraise.listing.reader import read
    from appraise.reading.reading import read as read_piece
    from appraise.records.piece_file import write_piece

    knowledge = context.knowledge()
    listing = read(_text(args.file), knowledge, currency=context.settings().currency)
    if listing.pieces > 1 or (args.as_lot and listing.pieces):
        _run_lot(args, context, listing, knowledge)
        return
    if args.piece:
        write_new(args.piece, write_piece(listing.piece).encode())
    if args.verdict and not context.json:
        head = text(listing_document(listing, knowledge)) + "\n"
        judged(context, listing.piece, knowledge, None, head=head, held=listing.holds_back)
        return
    said, lines = passing(context, read_piece(listing.piece, knowledge), knowledge)
    told = text(listing_document(listing, knowledge)).rstrip("\n") + lines
    context.show({**listing_json(listing, knowledge), **said}, told)


def _run_lot(
    args: argparse.Namespace, context: Context, listing: Listing, knowledge: Knowledge
) -> None:
    """Tell what a lot is said to be, write its file, and work out one maximum for all of it."""
    import yaml

    from appraise.documents.listing import listing_document, listing_json
    from appraise.documents.writers.lines import text
    from appraise.listing.offered import lot_of, offers
    from appraise.records.lot_file import write_lot

    lot = lot_of(listing, context.as_of, context.settings().currency)
    written = write_lot(lot)
    if args.piece:
        write_new(args.piece, written.encode())
        print(f"  a lot file: appraise bid {args.piece}", file=sys.stderr)
    document = {**listing_json(listing, knowledge), "lot": yaml.safe_load(written)}
    said = offers(listing) or "judged as a lot of one piece"
    known, lines = _beside(context, listing, knowledge)
    head = text(listing_document(listing, knowledge))
    told = f"{head}\n{said[0].upper()}{said[1:]}.\n{lines}"
    document = {**document, **known}
    if args.verdict:
        document["bid"], words = _maximum(context, lot)
        told = f"{told}\n{words}"
    context.show(document, told)


def _beside(context: Context, listing: Listing, knowledge: Knowledge) -> tuple[dict[str, Any], str]:
    """Which pieces of a lot are on the list or have a twin, those that are alike told once."""
    from appraise.reading.reading import read as read_piece
    from appraise.records.lot_file import bare

    document: dict[str, Any] = {"wanted": [], "twins": []}
    text = ""
    done: list[Piece] = []
    for piece in listing.parts or (listing.piece,):
        if bare(piece) or piece in done:
            continue
        done.append(piece)
        found, lines = passing(context, read_piece(piece, knowledge), knowledge)
        document = {
            key: [*document[key], *(one for one in found[key] if one not in document[key])]
            for key in document
        }
        text += lines.rstrip("\n")
    return document, f"{text}\n" if text else ""


def _maximum(context: Context, lot: Lot) -> tuple[dict[str, Any] | None, str]:
    """The maximum for a lot as JSON and as text; where there is none, why."""
    from appraise.cli.lotbid import maximum_for
    from appraise.documents.lotbid import lot_bid_document, lot_bid_json
    from appraise.documents.writers.lines import text
    from appraise.records.stored import Stored

    settings = context.settings()
    try:
        told = maximum_for(context, Stored("", lot), settings)
    except InputError as error:
        return None, f"No limit: {error}\n"
    return lot_bid_json(told, context.as_of), text(lot_bid_document(told, context.as_of))


def _text(file: str) -> str:
    data = sys.stdin.buffer.read(LONGEST + 1) if file == "-" else read_bytes(found(Path(file)))
    if len(data) > LONGEST:
        raise InputError("the text is too long for a listing", file)
    for encoding in ("utf-8-sig", "cp1252"):
        try:
            return data.decode(encoding)
        except UnicodeDecodeError:
            continue
    return data.decode("utf-8", errors="replace")
