"""Lot files: a lot with its pieces and what is to become of each, in and out."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import Any

import yaml

from appraise.base.errors import InputError
from appraise.base.money import EXPONENTS
from appraise.base.spelling import did_you_mean
from appraise.base.yamls import Row, compose, read
from appraise.knowledge.records import Knowledge
from appraise.records.lot import Lot, LotItem
from appraise.records.piece import Piece
from appraise.records.piece_file import parse_piece, piece_of, read_piece, write_piece
from appraise.records.values import Author
from appraise.records.yaml_fields import document_of, values_in, yaml_text

VERSION = "1"
UNNAMED = "untitled piece"
_LEFT_OUT = ("currency", "chance")
"""Fields of a lot that its file tells otherwise, or not at all."""
FIELDS_OF_LOT = tuple(
    each for each in Lot.FIELDS if each.name == "bid" or (each.typed and each.name not in _LEFT_OUT)
)
FIELDS_OF_ITEM = tuple(each for each in LotItem.FIELDS if each.typed and each.name != "title")
_LOADER: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)


def is_lot(row: Row) -> bool:
    """Whether the top mapping of a file is a lot's, not a piece's."""
    return "lot" in row


def read_lot(path: Path, knowledge: Knowledge, by: Author, since: dt.datetime) -> Lot:
    """A lot from its file; pieces in files of their own are read relative to it.

    Args:
        path: The file.
        knowledge: The trade's words.
        by: Whose currency it is in where nothing in it names one, and the zone of its closing.
        since: The instant from which it is followed; a bid in it counts as placed then.

    Raises:
        InputError: one line with file, line, key and the nearest valid spelling.
    """
    return lot_of(read(path), knowledge, by, since, path.parent)


def parse_lot(text: str, name: str, knowledge: Knowledge, by: Author, since: dt.datetime) -> Lot:
    """A lot from YAML text; `name` stands for the file in messages."""
    return lot_of(compose(text, name), knowledge, by, since)


def lot_of(
    row: Row, knowledge: Knowledge, by: Author, since: dt.datetime, folder: Path | None = None
) -> Lot:
    """A lot from the top mapping of its file; `folder` is where files named in it lie."""
    version = row.text("lot")
    if version != VERSION:
        mend = f"This tool writes {VERSION}."
        raise row.error("lot", f"format '{version}' is not known", mend)
    said = row.choice("currency", ("", *EXPONENTS), "")
    author = replace(by, currency=said, knowledge=None)
    told = {"channel": "auction", **values_in(row, FIELDS_OF_LOT, author)}
    items = _items(row, knowledge, author, told["channel"], folder)
    row.done()
    named = [told[name].currency for name in ("bid", "asking", "low") if told.get(name)]
    code = said or next(iter(named), "") or by.sells(told.get("venue", "")) or by.currency
    bid, title = told.pop("bid", None), told.pop("title", "").strip()
    if bid and bid.amount > 0:
        at = since.astimezone(dt.UTC).replace(microsecond=0)
        told |= {"bid": bid, "bid_at": at, "state": "bid"}
    if "ceiling" in told:
        told["ceiling_on"] = by.today
    try:
        return Lot(title or title_of(items), by.today, code, items=items, **told)
    except InputError as error:
        place = error.where if error.where in row else ""
        raise row.error(place, error.what, error.mend) from None


def _items(
    row: Row, knowledge: Knowledge, by: Author, channel: str, folder: Path | None
) -> tuple[LotItem, ...]:
    if "pieces" not in row:
        raise row.error("", "'pieces' is missing", "Write pieces: with a '- ' before each.")
    rows = row.rows("pieces")
    if not rows:
        raise row.error("pieces", "a lot needs a piece")
    found = []
    for one in rows:
        told = values_in(one, FIELDS_OF_ITEM, by)
        piece = _in_file(one, knowledge, folder) if "file" in one else None
        found.append(item_of(piece or piece_of(one, knowledge, channel), **told))
    return tuple(found)


def _in_file(row: Row, knowledge: Knowledge, folder: Path | None) -> Piece:
    """The piece whose file an entry of the list names."""
    name = row.text("file")
    row.done()
    if folder is None:
        raise row.error("file", "a file can only be named in a lot file on the disk")
    path = folder / name
    if not path.is_file():
        near = [one.name for one in folder.glob("*.yaml")]
        raise row.error("file", f"there is no file '{name}'", did_you_mean(path.name, near))
    return read_piece(path, knowledge)


def title_of(items: tuple[LotItem, ...]) -> str:
    """What a lot without a title is called."""
    first = items[0].title if items else "untitled lot"
    return first if len(items) < 2 else f"{first} and {len(items) - 1} more"


def write_lot(lot: Lot) -> str:
    """The lot as YAML text that `read_lot` reads back: what it is and what one would pay.

    Its pieces stand in it in full, each met where the lot is.
    """
    lot = replace(lot, bid=lot.standing)
    document = {
        "lot": VERSION,
        "currency": lot.currency,
        **document_of(lot, FIELDS_OF_LOT),
        "pieces": [_item_document(one, lot.channel) for one in lot.items],
    }
    return yaml_text(document)


def _item_document(item: LotItem, channel: str) -> dict[str, Any]:
    told = document_of(item, FIELDS_OF_ITEM)
    piece: dict[str, Any] = yaml.load(item.piece, Loader=_LOADER) if item.piece else {}
    piece.pop("piece", None)
    if item.title != (" ".join(piece.get("title", "").split()) or UNNAMED):
        piece = {**piece, "title": item.title}
    return {**told, **piece, **({"channel": channel} if channel else {})}


def item_of(piece: Piece, **told: Any) -> LotItem:
    """A piece as a lot keeps it; of one that nobody looked at, the title alone."""
    title = " ".join(piece.title.split()) or UNNAMED
    return LotItem(title, "" if bare(piece) else write_piece(piece), **told)


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
    return replace(lot, items=(*lot.items, *map(item_of, pieces)))


def bare(piece: Piece) -> bool:
    """Whether nothing is known of a piece but its title, and where it is met."""
    return piece == Piece(title=piece.title, channel=piece.channel)


def piece_in(item: LotItem, lot: Lot, knowledge: Knowledge) -> Piece:
    """What is known of a piece of a lot, which is met where the lot is.

    Raises:
        InputError: when it can no longer be read by the knowledge as it stands.
    """
    if not item.piece:
        return Piece(title=item.title, channel=lot.channel or Piece().channel)
    piece = parse_piece(item.piece, f"{lot.title}, {item.title}", knowledge)
    return replace(piece, channel=lot.channel) if lot.channel else piece
