"""Lots that are followed: when they close, what is bid, what came of them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from appraise.base.dataclass import dataclass
from appraise.base.jsonvalues import json_value, picked
from appraise.base.moments import Zone, left_words, told_day, told_moment
from appraise.base.money import Money
from appraise.collection.lotsteps import ClosingState, due
from appraise.documents.document import Fact, Facts, Section, section
from appraise.records.lot import Lot
from appraise.records.quantities import AmountRangeKind
from appraise.records.stored import Stored

NONE = "No marked lots. 'appraise lots add TITLE closes=\"2026-11-08 20:00\"' adds one."
CLOSED = "closed; no result recorded"


@dataclass(frozen=True, slots=True)
class Now:
    """From when and where one looks.

    Attributes:
        at: The instant, in UTC.
        zone: In which times are told; None: this machine's.
    """

    at: dt.datetime
    zone: Zone
    as_of: dt.date


def standing_words(lot: Lot, when: ClosingState, now: Now) -> str:
    """How a lot stands in a few words: 'closes in 3 h 20 min', 'won for 46.00 USD'."""
    if not lot.open:
        price = f", hammer {lot.hammer}" if lot.hammer else ""
        return {"won": f"won{price}", "lost": f"lost{price}", "passed": "not bid on"}[lot.state]
    if when.overdue:
        return CLOSED
    if lot.closes is None or when.left is None:
        return "closing time not known"
    days = lot.closes.days_left(now.at, now.zone)
    if days is None:
        return f"closes in {left_words(when.left)}"
    near = {0: "closes today", 1: "closes tomorrow"}
    return near.get(days, f"closes in {left_words(dt.timedelta(days=days))}")


def lot_line(held: Stored[Lot], now: Now) -> str:
    """A lot in one line; '!' points at one that closes soon without a bid or has no result."""
    lot = held.thing
    when = due(lot, now.at, now.zone)
    sign = "!" if when.urgent or when.overdue else " "
    number = f"lot {lot.number}, " if lot.number else ""
    place = f" ({number}{lot.venue})" if lot.venue else (f" (lot {lot.number})" if number else "")
    said = standing_words(lot, when, now) + (f" on {lot.ended}" if lot.ended else "")
    said = f"{said}; {bid_words(lot)}" if lot.open or lot.bid else said
    return f"{sign} {held.id[:8]}  {lot.title}{place}: {said}"


def bid_words(lot: Lot) -> str:
    """My bid, or the most I would pay."""
    if lot.bid is not None:
        return f"my bid {lot.bid}"
    return f"limit {lot.ceiling} in total" if lot.ceiling is not None else "no bid"


def lots_text(lots: Sequence[Stored[Lot]], now: Now) -> str:
    """All of them, one a line."""
    return "\n".join(lot_line(one, now) for one in lots) or NONE


def lots_json(lots: Iterable[Stored[Lot]], now: Now) -> dict[str, Any]:
    """The same as JSON, schema "appraise.lots/1"."""
    return {
        "schema": "appraise.lots/1",
        "as_of": now.as_of.isoformat(),
        "now": now.at.isoformat(timespec="seconds"),
        "lots": [lot_json(one, now) for one in lots],
    }


def lot_json(held: Stored[Lot], now: Now) -> dict[str, Any]:
    """A lot as JSON values."""
    lot, closes = held.thing, held.thing.closes
    when = due(lot, now.at, now.zone)
    return {
        "id": held.id,
        **picked(lot, "title state since venue channel number where currency asking shipping"),
        **picked(lot, "selling ceiling ceiling_on bid bid_at chance hammer ended note"),
        "closes": json_value(closes.at if closes else None),
        "closes_on": json_value(closes.on if closes else None),
        "zone": closes.zone if closes else "",
        "seconds_left": int(when.left.total_seconds()) if when.left else None,
        "closed_without_result": when.overdue,
        "urgent": when.urgent,
        "estimate": picked(lot, "low high") if lot.high else None,
        "pieces": [
            picked(one, "title plan worth extra parts", noted=bool(one.piece)) for one in lot.items
        ],
    }


def one_lot_json(held: Stored[Lot], now: Now, **more: Any) -> dict[str, Any]:
    """One lot, schema "appraise.lot/1"."""
    head = {"schema": "appraise.lot/1", "as_of": now.as_of.isoformat()}
    return {**head, "lot": lot_json(held, now), **more}


def lot_section(held: Stored[Lot], now: Now) -> tuple[Section, ...]:
    """A lot field by field; what was not recorded is left out."""
    return section("lot", "", Facts.of(_rows(held, now)))


def items_section(lot: Lot) -> tuple[Section, ...]:
    """The pieces before they are judged, each with its plan."""
    rows = (
        Fact(f"piece {number}", (f"{item.title} ({item.plan})",))
        for number, item in enumerate(lot.items, start=1)
    )
    return section("pieces", "Pieces", Facts(tuple(rows)))


def _rows(held: Stored[Lot], now: Now) -> Iterator[tuple[str, str]]:
    lot = held.thing
    when = due(lot, now.at, now.zone)
    yield "state", standing_words(lot, when, now)
    if lot.closes is not None:
        yield "closes", closing_words(lot, now)
    rows = {
        "venue": lot.venue,
        "lot": lot.number,
        "where": lot.where,
        "asked": str(lot.asking or ""),
        "shipping": "" if lot.shipping is None else str(lot.shipping),
        "estimate": AmountRangeKind().write((lot.low, lot.high)),
        "my limit in total": _dated(lot.ceiling, lot.ceiling_on),
        "my bid": _bid(lot, now),
        "chance": "" if lot.chance is None else f"{lot.chance}% by your own estimate",
        "hammer": str(lot.hammer or ""),
        "ended": told_day(lot.ended) if lot.ended else "",
        "note": lot.note,
    }
    yield from rows.items()


def closing_words(lot: Lot, now: Now) -> str:
    """When a lot closes by the reader's clock, and by the sale's own where that is another."""
    assert lot.closes is not None
    here = lot.closes.told(now.zone)
    if lot.closes.at is None:
        return f"{here}, time not known"
    there = lot.closes.there()
    return f"{here} ({there})" if there else here


def _dated(money: Money | None, on: dt.date | None) -> str:
    return f"{money}, decided on {on}" if money is not None else ""


def _bid(lot: Lot, now: Now) -> str:
    if lot.bid is None:
        return ""
    return f"{lot.bid}, placed {told_moment(lot.bid_at, now.zone)}" if lot.bid_at else str(lot.bid)
