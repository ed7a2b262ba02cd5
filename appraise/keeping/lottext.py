"""The fields of a lot as a person writes them: 'closes=2026-11-08 20:00', 'piece.2.plan=parts'."""

import datetime as dt
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from appraise.base.errors import InputError
from appraise.base.moments import Closing, Zone
from appraise.base.money import Money
from appraise.base.spelling import did_you_mean
from appraise.keeping.lots import Lot, LotItem
from appraise.keeping.lotsteps import with_ceiling
from appraise.piece.lots import estimate_of, estimate_text
from appraise.piece.records import PLANS

MEANING = {
    "title": "one line to know it by",
    "venue": "where it is sold, as 'appraise venues' names it",
    "channel": "what sort of place that is, as auction or online",
    "number": "its number in the sale",
    "where": "its address, or where it can be seen",
    "closes": "when: 2026-11-08 20:00, the same with a zone, as Europe/Berlin, or the day alone",
    "currency": "of what is bid, as EUR",
    "asking": "what is asked, or where the bids begin",
    "shipping": "what the seller asks to send the whole lot",
    "estimate": "the seller's, as 40..60",
    "selling": "per cent of a sale that selling on costs you",
    "ceiling": "the most it may cost you in all, as you decided",
    "chance": "how likely your bid wins, in 100, by your own word",
    "note": "anything else",
}
"""Every field of a lot, and what may be written there."""
PIECE_MEANING = {
    "title": "one line to know it by; empty takes the piece out of the lot",
    "plan": "what is to become of it: keep, resell or parts",
    "worth": "what it is worth to sell on, where you know better than the log",
    "extra": "what you would pay for it beyond resale",
    "parts": "what its parts are worth",
}
"""Every field of a piece, written piece.2.plan for the second."""
FIELDS, PIECE_FIELDS = tuple(MEANING), tuple(PIECE_MEANING)
_OF_PIECE = re.compile(r"piece\.(?P<number>\d{1,3})\.(?P<field>.*)")
_WHOLE = re.compile(r"\d{1,3}")


@dataclass(frozen=True, slots=True)
class Hand:
    """Who writes, and when.

    Attributes:
        zone: The zone of an hour that names none; None: this machine's.
        zone_name: How that is called; '' for this machine's.
        currency: ISO 4217 code of the user's own sums.
        today: The day.
        sells: In which currency a venue of that name sells; '' where no terms of it are noted.
    """

    zone: Zone
    zone_name: str
    currency: str
    today: dt.date
    sells: Callable[[str], str] = lambda _: ""


def changed(lot: Lot, texts: Mapping[str, str], hand: Hand) -> Lot:
    """The lot with some fields as written; an empty text takes a field back to nothing.

    Raises:
        InputError: for a field that is not known, or a text that does not fit it; its `where` is
            the field.
    """
    trimmed = {name: " ".join(text.split()) for name, text in texts.items()}
    lot = _in_currency(lot, _currency(lot, trimmed, hand))
    for name, text in trimmed.items():
        part = _OF_PIECE.fullmatch(name)
        if part:
            lot = _with_piece(lot, name, int(part["number"]), part["field"], text, hand)
        elif name not in FIELDS:
            known = (*FIELDS, *(f"piece.1.{field}" for field in PIECE_FIELDS))
            raise InputError(f"field '{name}' is not known", mend=did_you_mean(name, known))
        elif name == "ceiling":
            if text != written(lot)["ceiling"]:
                lot = with_ceiling(lot, _money(name, text, hand.currency), hand.today)
        else:
            lot = replace(lot, **_read(name, text, lot, hand))
    gone = {name for name, text in trimmed.items() if name.endswith(".title") and not text}
    kept = [one for place, one in enumerate(lot.items, 1) if f"piece.{place}.title" not in gone]
    return replace(lot, items=tuple(kept)) if gone else lot


def written(lot: Lot) -> dict[str, str]:
    """Every field of a lot as `changed` reads it, in order; empty where nothing is recorded."""
    return {
        "title": lot.title,
        "venue": lot.venue,
        "channel": lot.channel,
        "number": lot.number,
        "where": lot.where,
        "closes": lot.closes.written() if lot.closes else "",
        "currency": lot.currency,
        "asking": str(lot.asking or ""),
        "shipping": "" if lot.shipping is None else str(lot.shipping),
        "estimate": estimate_text(lot.low, lot.high),
        "selling": str(lot.selling or ""),
        "ceiling": str(lot.ceiling or ""),
        "chance": "" if lot.chance is None else str(lot.chance),
        "note": " ".join(lot.note.split()),
    }


def piece_written(item: LotItem) -> dict[str, str]:
    """Every field of a piece as `changed` reads it."""
    return {name: str(getattr(item, name) or "") for name in PIECE_FIELDS}


def _currency(lot: Lot, texts: Mapping[str, str], hand: Hand) -> str:
    """The currency of a lot as changed: that of its venue, else as written, else as it was.

    Raises:
        InputError: when another one is written than the venue sells in.
    """
    told = texts.get("currency", "").upper() or lot.currency
    venue = texts.get("venue", lot.venue)
    sells = hand.sells(venue) if venue and {"venue", "currency"} & texts.keys() else ""
    if sells and told not in (sells, lot.currency):
        raise InputError(f"{venue} sells in {sells}", "currency", f"Write {sells}.")
    return sells or told


def _in_currency(lot: Lot, code: str) -> Lot:
    """The lot in another currency; sums of the one before would be wrong in it."""
    if code == lot.currency:
        return lot
    if lot.bid is not None or lot.hammer is not None:
        raise InputError(f"there is a bid in {lot.currency}", "currency", "Take it back first.")
    return replace(lot, currency=code, asking=None, low=None, high=None)


def _read(name: str, text: str, lot: Lot, hand: Hand) -> dict[str, Any]:
    """A field's values by the names of the record's attributes."""
    if name == "closes":
        return {"closes": _closing(text, lot, hand)}
    if name in ("asking", "shipping"):
        return {name: _money(name, text, lot.currency)}
    if name == "estimate":
        try:
            low, high = estimate_of(text, lot.currency)
        except InputError as error:
            raise InputError(error.what, name, error.mend) from None
        return {"low": low, "high": high}
    if name in ("selling", "chance"):
        empty = 0 if name == "selling" else None
        return {name: _percent(name, text) if text else empty}
    if name == "note":
        return {} if text == " ".join(lot.note.split()) else {"note": text}
    if name == "currency":
        return {}
    return {name: text.lower() if name == "channel" else text}


def _closing(text: str, lot: Lot, hand: Hand) -> Closing | None:
    if not text or (lot.closes and text == lot.closes.written()):
        return lot.closes if text else None
    try:
        return Closing.parse(text, hand.zone, hand.zone_name)
    except InputError as error:
        raise InputError(error.what, "closes", error.mend) from None


def _percent(name: str, text: str) -> int:
    bare = text.removesuffix("%").strip()
    if not _WHOLE.fullmatch(bare) or int(bare) > 100:
        raise InputError(f"'{text}' is not a whole number of 0 to 100", name)
    return int(bare)


def _money(name: str, text: str, currency: str) -> Money | None:
    try:
        return Money.parse(text, currency) if text else None
    except InputError as error:
        raise InputError(error.what, name, error.mend) from None


def _with_piece(lot: Lot, name: str, number: int, field: str, text: str, hand: Hand) -> Lot:
    if not 1 <= number <= len(lot.items):
        many = "1 piece" if len(lot.items) == 1 else f"{len(lot.items)} pieces"
        raise InputError(f"there is no piece {number}", name, f"The lot holds {many}.")
    if field not in PIECE_FIELDS:
        raise InputError(f"field '{field}' is not known", name, did_you_mean(field, PIECE_FIELDS))
    if field == "plan" and text not in PLANS:
        raise InputError(f"'{text}' is no plan", name, did_you_mean(text, PLANS))
    value = text if field in ("title", "plan") else _money(name, text, hand.currency)
    item = replace(lot.items[number - 1], **{field: value})  # type: ignore[arg-type]
    return replace(lot, items=(*lot.items[: number - 1], item, *lot.items[number:]))
