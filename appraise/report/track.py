"""The track record: how good estimates and beliefs have been on the user's own pieces."""

from collections.abc import Sequence
from typing import Any

from appraise.log.entries import Entry
from appraise.log.outcomes import beliefs, estimated
from appraise.pricing.track import Forecast, Record, brier, record, reliability

LEVEL = 0.80
PARTS = 5  # columns of the picture of where prices fell
BAR = 30
NOTHING = "Nothing can be said yet: no entry has both an estimate and a price that came later."


def forecasts(entries: Sequence[Entry], currency: str) -> list[Forecast]:
    """The estimates whose prices have come."""
    found = []
    for entry, price in estimated(entries, currency):
        assert entry.estimate is not None
        low, median, high = (
            max(0.01, float(one.amount))
            for one in (entry.estimate.low, entry.estimate.median, entry.estimate.high)
        )
        found.append(Forecast(low, median, high, LEVEL, float(price.amount)))
    return found


def track_json(entries: Sequence[Entry], currency: str) -> dict[str, Any]:
    """The track record as JSON, schema "appraise.track/1"."""
    kept = record(forecasts(entries, currency))
    found = list(beliefs(entries))
    return {
        "schema": "appraise.track/1",
        "prices": _prices_json(kept) if kept else None,
        "belonging": {
            "count": len(found),
            "brier": round(brier(*_sides(found)), 4),
            "bins": [
                {"said": one.said, "came": one.came, "count": one.count}
                for one in reliability(*_sides(found))
            ],
        }
        if found
        else None,
    }


def _prices_json(kept: Record) -> dict[str, Any]:
    return {
        "count": kept.count,
        "level": kept.level,
        "inside": kept.inside,
        "coverage": round(kept.coverage, 4),
        "wilson": [round(kept.coverage_low, 4), round(kept.coverage_high, 4)],
        "median_error": round(kept.median_error, 4),
        "pinball": round(kept.pinball, 4),
        "pit": [round(value, 4) for value in kept.pit],
    }


def _sides(found: Sequence[Any]) -> tuple[list[float], list[bool]]:
    return [one.married for one in found], [one.turned_out_married for one in found]


def track_text(entries: Sequence[Entry], currency: str) -> str:
    """Two pictures and four sentences."""
    kept = record(forecasts(entries, currency))
    found = list(beliefs(entries))
    lines = _price_lines(kept) if kept else [NOTHING]
    lines += ["", *_belief_lines(found)]
    return "\n".join(lines) + "\n"


def _price_lines(kept: Record) -> list[str]:
    low, high = round(100 * kept.coverage_low), round(100 * kept.coverage_high)
    counts = [0] * PARTS
    for value in kept.pit:
        counts[min(PARTS - 1, int(value * PARTS))] += 1
    names = ("well below", "below", "near the middle", "above", "well above")
    picture = [
        f"  {name:<16} {count:>3} {_bar(count, counts)}"
        for name, count in zip(names, counts, strict=True)
    ]
    came, should = round(100 * kept.coverage), round(100 * kept.level)
    return [
        f"Of {kept.count} prices {kept.inside} fell inside their range, {came} in 100; {should} "
        f"should (by chance anything from {low} to {high}).",
        f"Half of the estimates were within {round(100 * kept.median_error)} in 100 of the price.",
        "where prices fell in their range (even when the ranges are right)",
        *picture,
    ]


def _belief_lines(found: Sequence[Any]) -> list[str]:
    if not found:
        return ["No piece's belonging has been found out since it was logged ('log outcome')."]
    score = brier(*_sides(found))
    married = sum(1 for one in found if one.turned_out_married)
    lines = [
        f"Of {len(found)} pieces found out, {married} were married; the beliefs scored {score:.2f} "
        "(0 is perfect, 0.25 is a coin).",
        "how often 'married' came true, by how likely it was said to be",
    ]
    for one in reliability(*_sides(found)):
        share = round(100 * one.came)
        lines.append(f"  said {round(100 * one.said):>3} in 100   came {share:>3}   of {one.count}")
    return lines


def _bar(count: int, counts: Sequence[int]) -> str:
    most = max(counts)
    return "#" * round(BAR * count / most) if most else ""
