"""The log played again: each price estimated from those logged before it, then scored.

It tells at once how far the tool can be trusted on prices that were logged without it, such as
those of an old list (prequential: Dawid 1984, Journal of the Royal Statistical Society A 147,
278-292).
"""

from collections.abc import Callable, Sequence
from dataclasses import replace

from appraise.pricing.estimate import learn
from appraise.pricing.features import PricedRow
from appraise.pricing.track import PastEstimate

LEAST = 10
"""Entries that stand before the first one that is estimated."""
FITS = 60
"""Times that the log is learnt at most; between two of them entries are estimated in a row."""
CENT = 0.01


def replay(
    rows: Sequence[PricedRow],
    level: float = 0.80,
    step: Callable[[int, int], None] = lambda done, of: None,
) -> list[PastEstimate]:
    """What the log would have said of each of its prices, for those of which it would have.

    Args:
        rows: Entries with prices; those of unknown age come first, the others oldest first.
        level: Share of sales that the intervals should hold.
        step: Told how many of how many prices were estimated; what it raises ends the job.
    """
    ordered = sorted(rows, key=lambda row: -(row.age if row.age is not None else float("inf")))
    stride = max(1, -(-(len(ordered) - LEAST) // FITS))
    found = []
    for start in range(LEAST, len(ordered), stride):
        step(start - LEAST, len(ordered) - LEAST)
        prices = learn(ordered[:start])
        for row in ordered[start : start + stride]:
            told = prices.estimate(replace(row, price=None), level, shown=0)
            if told.low is not None and told.median is not None and told.high is not None:
                low, middle, high = (max(CENT, x) for x in (told.low, told.median, told.high))
                found.append(PastEstimate(low, middle, high, level, max(CENT, row.price or 0.0)))
    return found
