"""Lot files: several pieces that are sold as one, with what is to become of each; in and out."""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

from appraise.base.errors import InputError
from appraise.base.moments import Closing, Zone
from appraise.base.money import EXPONENTS, Money
from appraise.base.spelling import did_you_mean
from appraise.base.yamls import Row, compose, read
from appraise.knowledge.records import CHANNELS, Knowledge
from appraise.piece.files import piece_of, read_piece
from appraise.piece.records import PLANS, Piece
from appraise.piece.write import piece_document

LOT_VERSION = "1"
_DUMPER: Any = getattr(yaml, "CSafeDumper", yaml.SafeDumper)


@dataclass(frozen=True, slots=True)
class PlannedPiece:
    """One piece of a lot and what is to become of it.

    Attributes:
        piece: What is known of it.
        plan: One of `PLANS`.
        worth: What it is worth to sell on, as the user states it; None: by the log.
        extra: What one would pay for it beyond resale, when it is kept.
        parts: What its parts are worth when it is taken apart.
    """

    piece: Piece
    plan: str = "keep"
    worth: Money | None = None
    extra: Money | None = None
    parts: Money | None = None


@dataclass(frozen=True, slots=True)
class LotFile:
    """A lot as its file tells it.

    Attributes:
        title: One line to know it by.
        currency: ISO 4217 code of what is bid; empty: the user's own.
        venue: Where it is sold.
        channel: What sort of place that is.
        number: Its number in the sale.
        where: Its address, or where it can be seen.
        closes: When it closes.
        asking: What is asked, or where the bids begin.
        shipping: What the seller asks to send the whole lot.
        low, high: The seller's estimate.
        selling: Per cent of a sale that selling on costs.
        ceiling: The most it may cost in all, as decided.
        bid: A bid that was placed.
        note: Anything else.
        pieces: What is in it, at least one.
    """

    title: str = ""
    currency: str = ""
    venue: str = ""
    channel: str = "auction"
    number: str = ""
    where: str = ""
    closes: Closing | None = None
    asking: Money | None = None
    shipping: Money | None = None
    low: Money | None = None
    high: Money | None = None
    selling: int = 0
    ceiling: Money | None = None
    bid: Money | None = None
    note: str = ""
    pieces: tuple[PlannedPiece, ...] = ()


def is_lot(row: Row) -> bool:
    """Whether the top mapping of a file is a lot's, not a piece's."""
    return "lot" in row


def read_lot(path: Path, knowledge: Knowledge, zone: Zone = None) -> LotFile:
    """A lot from its file; pieces in files of their own are read relative to it.

    Args:
        path: The file.
        knowledge: The trade's words.
        zone: The zone of a closing that names none; None: the machine's own.

    Raises:
        InputError: one line with file, line, key and the nearest valid spelling.
    """
    return lot_of(read(path), knowledge, zone, path.parent)


def parse_lot(text: str, name: str, knowledge: Knowledge, zone: Zone = None) -> LotFile:
    """A lot from YAML text; `name` stands for the file in messages."""
    return lot_of(compose(text, name), knowledge, zone)


def lot_of(
    row: Row, knowledge: Knowledge, zone: Zone = None, folder: Path | None = None
) -> LotFile:
    """A lot from the top mapping of its file; `folder` is where files named in it lie."""
    version = row.text("lot")
    if version != LOT_VERSION:
        raise row.error(
            "lot", f"format '{version}' is not known", f"This tool writes {LOT_VERSION}."
        )
    currency = row.choice("currency", ("", *EXPONENTS), "")
    channel = row.choice("channel", CHANNELS, "auction")
    low, high = _estimate(row, currency)
    found = LotFile(
        title=row.text("title", ""),
        currency=currency,
        venue=row.text("venue", ""),
        channel=channel,
        number=row.text("number", ""),
        where=row.text("where", ""),
        closes=_closes(row, zone),
        asking=_money(row, "asking", currency),
        shipping=_money(row, "shipping", currency),
        low=low,
        high=high,
        selling=_percent(row, "selling"),
        ceiling=_money(row, "ceiling", currency),
        bid=_money(row, "bid", currency),
        note=row.text("note", ""),
        pieces=_pieces(row, knowledge, channel, currency, folder),
    )
    row.done()
    return found


def _pieces(
    row: Row, knowledge: Knowledge, channel: str, currency: str, folder: Path | None
) -> tuple[PlannedPiece, ...]:
    if "pieces" not in row:
        raise row.error("", "'pieces' is missing", "Write pieces: with a '- ' before each.")
    rows = row.rows("pieces")
    if not rows:
        raise row.error("pieces", "a lot needs a piece")
    return tuple(_planned(one, knowledge, channel, currency, folder) for one in rows)


def _planned(
    row: Row, knowledge: Knowledge, channel: str, currency: str, folder: Path | None
) -> PlannedPiece:
    """One entry of the list: a piece as in its own file, or the name of that file."""
    plan = row.choice("plan", PLANS, "keep")
    amounts = [_money(row, name, currency) for name in ("worth", "extra", "parts")]
    if "file" not in row:
        return PlannedPiece(piece_of(row, knowledge, channel), plan, *amounts)
    name = row.text("file")
    row.done()
    if folder is None:
        raise row.error("file", "a file can only be named in a lot file on the disk")
    path = folder / name
    if not path.is_file():
        near = [one.name for one in folder.glob("*.yaml")]
        raise row.error("file", f"there is no file '{name}'", did_you_mean(path.name, near))
    return PlannedPiece(read_piece(path, knowledge), plan, *amounts)


def _money(row: Row, key: str, currency: str) -> Money | None:
    if key not in row:
        row.text(key, "")  # so that it is known where a key is misspelt
        return None
    try:
        return Money.parse(row.text(key), currency)
    except InputError as error:
        raise row.error(key, error.what, error.mend) from None


def _percent(row: Row, key: str) -> int:
    value = row.number(key, 0, 0, 100)
    if value != int(value):
        raise row.error(key, f"{value:g} is not a whole number")
    return int(value)


def _estimate(row: Row, currency: str) -> tuple[Money | None, Money | None]:
    """The seller's estimate, written '40..65 USD'."""
    text = row.text("estimate", "")
    try:
        return estimate_of(text, currency)
    except InputError as error:
        raise row.error("estimate", error.what, error.mend) from None


def estimate_of(text: str, currency: str) -> tuple[Money | None, Money | None]:
    """Both ends of an estimate written '40..65', '40..65 USD', or 'one amount'; None for ''.

    Raises:
        InputError: when it is no estimate, or names no currency and none is given.
    """
    if not text.strip():
        return None, None
    first, dots, second = text.partition("..")
    high = Money.parse(second if dots else first, currency)
    low = Money.parse(first, high.currency) if dots else high
    if low.currency != high.currency or high < low:
        raise InputError(f"'{text}' is not an estimate", mend="Write 40..65 USD.")
    return low, high


def estimate_text(low: Money | None, high: Money | None) -> str:
    """An estimate as `estimate_of` reads it."""
    if low is None or high is None:
        return str(low or high or "")
    return str(low) if low == high else f"{low.plain}..{high}"


def _closes(row: Row, zone: Zone) -> Closing | None:
    text = row.text("closes", "")
    try:
        return Closing.parse(text, zone) if text else None
    except InputError as error:
        raise row.error("closes", error.what, error.mend) from None


def write_lot(lot: LotFile) -> str:
    """The lot as YAML text that `read_lot` reads back to the same; pieces stand in it in full."""
    plain: dict[str, Any] = {
        "title": lot.title,
        "currency": lot.currency,
        "venue": lot.venue,
        "channel": lot.channel,
        "number": lot.number,
        "where": lot.where,
        "closes": lot.closes.written() if lot.closes else "",
        "asking": str(lot.asking or ""),
        "shipping": "" if lot.shipping is None else str(lot.shipping),
        "estimate": estimate_text(lot.low, lot.high),
        "selling": lot.selling,
        "ceiling": str(lot.ceiling or ""),
        "bid": str(lot.bid or ""),
        "note": lot.note,
    }
    document: dict[str, Any] = {"lot": LOT_VERSION}
    document.update({key: value for key, value in plain.items() if value not in ("", 0)})
    document["pieces"] = [_planned_document(one) for one in lot.pieces]
    text: str = yaml.dump(document, Dumper=_DUMPER, sort_keys=False, allow_unicode=True, width=100)
    return text


def _planned_document(one: PlannedPiece) -> dict[str, Any]:
    amounts = {"worth": one.worth, "extra": one.extra, "parts": one.parts}
    told = {name: str(amount) for name, amount in amounts.items() if amount is not None}
    return {"plan": one.plan, **told, **piece_document(one.piece)}
