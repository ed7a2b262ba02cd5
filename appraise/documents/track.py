"""The track record: how good estimates and beliefs have been on the user's own pieces.

Every estimate was stored when its piece was logged and is scored against what came later, so
nothing is judged by what it already knew.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import chain
from typing import Any

from appraise.base.dataclass import dataclass
from appraise.base.jsonvalues import picked
from appraise.base.oneline import counted
from appraise.base.percents import percent
from appraise.documents.document import Block, Document, Paragraph, Section, Table, section
from appraise.pricing.cost_basis import EMPTY
from appraise.pricing.outcomes import Belief, beliefs, estimated
from appraise.pricing.track import (
    Bin,
    PastEstimate,
    TrackSummary,
    brier,
    record,
    reliability,
    wilson,
)
from appraise.records.entry import Entry
from appraise.records.venuebook import VenueBook

LEVEL = 0.80
PARTS = ("well below", "below", "near the middle", "above", "well above")
"""Fifths of a forecast, from the price that it thought least likely to be undercut."""
NO_PRICES = "Too early to tell: no entry has both an estimate and a later price."
TOO_SHORT = "Too early to tell: the log is too short for a back-test."
NO_BELIEFS = "No outcome recorded yet on whether a piece's parts belong together ('log outcome')."


@dataclass(frozen=True, slots=True)
class Track:
    """The whole track record.

    Attributes:
        prices: How the estimates did; None where no price has come yet.
        beliefs: What was thought of pieces whose belonging was found out.
        brier: Their mean squared error, 0..1; None without any.
        bins: How often "married" came, by how likely it was said to be.
        replayed: Whether the estimates were made anew, from what the log held before each price.
    """

    prices: TrackSummary | None
    beliefs: tuple[Belief, ...] = ()
    brier: float | None = None
    bins: tuple[Bin, ...] = ()
    replayed: bool = False

    @property
    def parts(self) -> tuple[int, ...]:
        """How many prices fell into each of `PARTS` of their forecasts."""
        counts = [0] * len(PARTS)
        for value in self.prices.pit if self.prices else ():
            counts[min(len(PARTS) - 1, int(value * len(PARTS)))] += 1
        return tuple(counts)


def track_of(
    entries: Iterable[Entry],
    currency: str,
    book: VenueBook = EMPTY,
    again: Sequence[PastEstimate] | None = None,
) -> Track:
    """The track record of a log.

    Args:
        entries: The log.
        currency: ISO 4217 code of the base currency.
        book: The user's venues and rates, which put the prices on one footing.
        again: Forecasts of the log played again, to be scored in place of those stored.
    """
    known = tuple(entries)
    found = tuple(beliefs(known))
    said = [one.married for one in found]
    came = [one.turned_out_married for one in found]
    return Track(
        record(forecasts(known, currency, book) if again is None else again),
        found,
        brier(said, came) if found else None,
        reliability(said, came),
        again is not None,
    )


def forecasts(
    entries: Iterable[Entry], currency: str, book: VenueBook = EMPTY
) -> list[PastEstimate]:
    """The estimates whose prices have come."""
    found = []
    for entry, price in estimated(entries, currency, book):
        assert entry.estimate is not None
        low, median, high = (
            max(0.01, float(one.amount))
            for one in (entry.estimate.low, entry.estimate.median, entry.estimate.high)
        )
        found.append(PastEstimate(low, median, high, LEVEL, float(price.amount)))
    return found


def how_scored(track: Track) -> str:
    """What the estimates were made from."""
    if track.replayed:
        return "Back-test: each price was estimated from the entries logged before it."
    return "Scored on estimates saved before the price was known."


def sentences(track: Track) -> Iterator[str]:
    """What the record says, in at most four sentences."""
    kept = track.prices
    if kept is None:
        yield TOO_SHORT if track.replayed else NO_PRICES
    else:
        low, high = round(100 * kept.coverage_low), round(100 * kept.coverage_high)
        yield (
            f"{kept.inside} of {counted(kept.count, 'price')} fell inside their predicted range: "
            f"{percent(kept.coverage)} (target {percent(kept.level)}; 95% interval {low}-{high}%)."
        )
        yield (
            f"Half of the estimates were within {_error(kept.median_error)} of the price. "
            f"(Technical: mean pinball loss {kept.pinball:.4f}, log scale.)"
        )
        yield _leaning(kept)
    yield _believed(track)


def _error(error: float) -> str:
    """How far an estimate lies from the price: a share of it, a factor where that is large."""
    whole = round(100 * error)
    return f"a factor of {1 + error:.1f}" if whole > 99 else f"{max(1, whole)}%"


def _leaning(kept: TrackSummary) -> str:
    """Whether prices fell on one side of the estimates more often than chance has it."""
    above = sum(value > 0.5 for value in kept.pit)
    low, high = wilson(above, kept.count)
    told = f"{above} of {kept.count} prices came above their estimate"
    if low > 0.5:
        return f"{told}: the estimates tend to be too low."
    if high < 0.5:
        return f"{told}: the estimates tend to be too high."
    return f"{told}, no clear bias."


def _believed(track: Track) -> str:
    if track.brier is None:
        return NO_BELIEFS
    married = sum(1 for one in track.beliefs if one.turned_out_married)
    return (
        f"{married} of {counted(len(track.beliefs), 'piece')} with an outcome were married pieces; "
        f"the predictions scored {track.brier:.3f} (Brier: 0 is perfect, 0.25 is a coin toss)."
    )


def track_json(track: Track) -> dict[str, Any]:
    """The track record as JSON, schema "appraise.track/1"."""
    kept, belonging = track.prices, None
    if track.brier is not None:
        bins = [picked(one, "said came count") for one in track.bins]
        belonging = picked(track, "brier", count=len(track.beliefs)) | {"bins": bins}
    prices = kept and picked(
        kept,
        "count level inside coverage median_error pinball crps pit",
        wilson=(kept.coverage_low, kept.coverage_high),
    )
    return {
        "schema": "appraise.track/1",
        "replayed": track.replayed,
        "prices": prices,
        "belonging": belonging,
    }


def track_document(track: Track) -> Document:
    """Four sentences and two pictures: where prices fell, and how often beliefs came true."""
    told = (Paragraph(one) for one in sentences(track))
    parts = (
        section("record", "", *told, Paragraph(how_scored(track), "quiet")),
        section("fell", "Where prices fell in their ranges", *_fell(track)),
        (replace(one, beside=True) for one in _true(track.bins)),
    )
    return Document("", tuple(chain(*parts)))


def _fell(track: Track) -> Iterator[Block]:
    """A bar for each fifth of the forecasts; all are equally long when the ranges are right."""
    if track.prices is None:
        return
    even = track.prices.count / len(PARTS)
    most = max(*track.parts, even)
    rows = tuple((name, str(count)) for name, count in zip(PARTS, track.parts, strict=True))
    bars = tuple(count / most for count in track.parts)
    yield Table("", (), rows, (1,), bars=bars, marks=(even / most,) * len(rows))
    yield Paragraph("The mark on each bar: its length if the ranges are right.", "quiet")


def _true(bins: Sequence[Bin]) -> tuple[Section, ...]:
    """For each step of what was predicted, how often it came true."""
    rows = tuple((percent(one.said), percent(one.came), str(one.count)) for one in bins)
    bars, marks = tuple(one.came for one in bins), tuple(one.said for one in bins)
    table = Table("", ("predicted", "true", "of"), rows, (0, 1, 2), bars=bars, marks=marks)
    note = "The mark on each bar: the chance as predicted." if bins else ""
    return section("true", "How often 'married piece' came true", table, Paragraph(note, "quiet"))
