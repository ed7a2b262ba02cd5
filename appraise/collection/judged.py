"""A piece that was judged, as a line of the log."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Any

from appraise.base.logday import LogDay
from appraise.base.money import Money
from appraise.reading.reading import Reading
from appraise.records.entry import Entry, LoggedEstimate
from appraise.verdict import Verdict

if TYPE_CHECKING:
    from appraise.pricing.estimate import Estimate as Priced

SURE = 0.5  # chance from which a word is logged for what the piece is


def entry_of(verdict: Verdict, record: str, day: LogDay, **more: Any) -> Entry:
    """The entry of a piece, with what was thought of it on that day.

    `more`: amounts, venue, note, the piece file and the like, by the names of an entry's
    fields; `asked` is what the piece says where it is not among them.

    Raises:
        InputError: when a value is none that an entry can hold.
    """
    piece, reading = verdict.piece, verdict.reading
    told: dict[str, Any] = {
        "asked": piece.asking,
        "title": piece.title,
        "pictures": piece.pictures,
        **more,
    }
    return Entry(
        record=record,
        date=day,
        channel=piece.channel,
        kind=piece.kind,
        process=_sure(reading.family, reading.families[reading.family]),
        housing=_housing(reading),
        format=reading.formats.best,
        motif=piece.motif,
        subjects=piece.subjects,
        quality=verdict.quality,
        appeal=piece.appeal,
        identified=verdict.identified,
        maker=piece.maker_known,
        condition_factor=_condition(verdict),
        belonging=tuple((state, round(p, 4)) for state, p in reading.belonging.items()),
        estimate=_estimate(verdict.estimate, verdict.currency),
        **told,
    )


def _sure(word: str, chance: float) -> str:
    return word if chance >= SURE else ""


def _housing(reading: Reading) -> str:
    if reading.piece.kind != "cased":
        return ""
    return _sure(reading.material, reading.housings[reading.material])


def _condition(verdict: Verdict) -> float | None:
    """What the condition leaves beside the usual, or None when nothing was looked at."""
    seen = any(side.done for side in verdict.reading.condition.sides.values())
    return round(verdict.kept, 4) if seen else None


def _estimate(estimate: Priced | None, currency: str) -> LoggedEstimate | None:
    """What the log said such a piece would cost; None without a number."""
    if estimate is None or estimate.low is None or estimate.median is None or estimate.high is None:
        return None
    low, median, high = (
        Money(Decimal(repr(value)), currency).rounded()
        for value in (estimate.low, estimate.median, estimate.high)
    )
    return LoggedEstimate(low, median, high)
