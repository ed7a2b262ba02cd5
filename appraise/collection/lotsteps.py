"""What becomes of a lot: bids and results, each a new record."""

import datetime as dt
from dataclasses import replace

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.moments import Zone
from appraise.base.money import Money
from appraise.records.lot import Lot

SOON = dt.timedelta(days=1)
"""Within this time a lot without a bid is pointed at."""
_NEVER = dt.datetime.max.replace(tzinfo=dt.UTC)


def with_bid(lot: Lot, bid: Money, at: dt.datetime, chance: int | None = None) -> Lot:
    """The lot with a bid placed, in place of an earlier one; a chance said before stays.

    Raises:
        InputError: when it has ended, or the bid is nothing or in another currency.
    """
    _still_open(lot)
    if bid.amount <= 0:
        raise InputError("a bid must be above 0", "bid")
    told = lot.chance if chance is None else chance
    moment = at.astimezone(dt.UTC).replace(microsecond=0)
    return replace(lot, bid=bid, bid_at=moment, chance=told, state="bid")


def without_bid(lot: Lot) -> Lot:
    """The lot followed without a bid: it was taken back, or outbid for good."""
    _still_open(lot)
    return replace(lot, bid=None, bid_at=None, chance=None, state="followed")


def ended(lot: Lot, state: str, on: dt.date, hammer: Money | None = None) -> Lot:
    """The lot won, lost or passed.

    Raises:
        InputError: when it has ended already, or was won at no price.
    """
    _still_open(lot)
    return replace(lot, state=state, hammer=hammer, ended=on)


def _still_open(lot: Lot) -> None:
    if not lot.open:
        raise InputError(f"was {lot.state} on {lot.ended}", lot.title, "Undo: appraise log undo.")


@dataclass(frozen=True, slots=True)
class ClosingState:
    """How a lot stands at an instant.

    Attributes:
        end: When it is over, in UTC: for a day without an hour the end of that day; None: not
            known.
        left: Until then; None where that is not known, or past.
        overdue: Whether it closed without a result having been noted.
        urgent: Whether it closes within a day and no bid stands.
    """

    end: dt.datetime | None
    left: dt.timedelta | None
    overdue: bool
    urgent: bool


def due(lot: Lot, now: dt.datetime, zone: Zone) -> ClosingState:
    """How a lot stands.

    `zone`: in which a day without an hour ends, where the lot names no zone of its own.
    """
    end = lot.closes.end(zone) if lot.closes else None
    left = None if end is None or end <= now else end - now
    overdue = lot.open and end is not None and left is None
    urgent = lot.open and lot.standing is None and left is not None and left <= SOON
    return ClosingState(end, left, overdue, urgent)


def by_closing(lot: Lot, zone: Zone) -> tuple[bool, dt.datetime, str]:
    """A key by which open lots come first, the one that closes first in front.

    Lots without a closing come after those with one; of those that ended the latest comes first.
    """
    if lot.open:
        return False, lot.closes.end(zone) if lot.closes else _NEVER, lot.title
    past = _NEVER - dt.datetime.combine(lot.ended or dt.date.min, dt.time(), dt.UTC)
    return True, dt.datetime.min.replace(tzinfo=dt.UTC) + past, lot.title
