"""Sums over years that do only the work that tells years apart.

Outside the years of a process or a housing only its floor is left, and what the floor adds is the
same for all. So every line is kept as a level times one shared base, and what it has more within a
stretch of years. The sums are exact; only the order of the additions is another.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from operator import mul

from appraise.reading.frame import SPAN, Frame, Vector

Line = list[float]


@dataclass(frozen=True, slots=True)
class Stretch:
    """Values in the years from `start` up to `stop`, both places in `YEARS`; 0 elsewhere."""

    start: int
    stop: int
    values: Sequence[float]


def whole(values: Sequence[float]) -> Stretch:
    """A line over all years as a stretch."""
    return Stretch(0, SPAN, values)


@lru_cache(maxsize=1024)
def overlaps(frame: Frame, start: int, stop: int) -> tuple[tuple[int, slice, Vector], ...]:
    """The processes whose stretch reaches into some years: place, part of these years, extra."""
    found = []
    for place, one in enumerate(frame.process_raised):
        low, high = max(start, one.start), min(stop, one.stop)
        if low < high:
            extra = one.extra[low - one.start : high - one.start]
            found.append((place, slice(low - start, high - start), extra))
    return tuple(found)


def process_sums(frame: Frame, line: Stretch) -> Line:
    """SUM over years of pi_p(y) line(y), for every process p."""
    values = line.values
    mean = sum(map(mul, frame.years[line.start : line.stop], values))
    sums = [one.level * mean for one in frame.process_raised]
    for place, part, extra in overlaps(frame, line.start, line.stop):
        sums[place] += sum(map(mul, extra, values[part]))
    return sums


def blend(frame: Frame, weights: Sequence[float], start: int = 0, stop: int = SPAN) -> Line:
    """SUM over processes of weight times pi_p(y), within a stretch of years."""
    chosen = [place for place, weight in enumerate(weights) if weight]
    if len(chosen) == 1:
        weight = weights[chosen[0]]
        return [weight * value for value in frame.process_years[chosen[0]][start:stop]]
    level = sum(
        [weight * one.level for weight, one in zip(weights, frame.process_raised, strict=True)]
    )
    line = [level * value for value in frame.years[start:stop]]
    for place, part, extra in overlaps(frame, start, stop):
        weight = weights[place]
        if weight:
            line[part] = [
                value + weight * more for value, more in zip(line[part], extra, strict=True)
            ]
    return line


def lagged(line: Stretch, lags: Sequence[float]) -> Stretch:
    """SUM over lags of P(lag) * line(y - lag); before the first year the first stands."""
    reach = len(lags) - 1
    stop = min(SPAN, line.stop + reach)
    before = line.values[0] if line.start == 0 and line.values else 0.0
    padded = [*[before] * reach, *line.values, *[0.0] * reach]
    size = stop - line.start
    found = [0.0] * size
    for lag, weight in enumerate(lags):
        shifted = padded[reach - lag : reach - lag + size]
        found = [total + weight * value for total, value in zip(found, shifted, strict=True)]
    return Stretch(line.start, stop, found)


def unlagged(line: Stretch, lags: Sequence[float], stop: int) -> Line:
    """What a sum over the picture's year gives each year of the housing: `lagged` turned round.

    SUM of line * lagged(other) equals SUM of unlagged(line) * other, for another that ends at
    `stop`.
    """
    size = stop - line.start
    padded = [*line.values, *[0.0] * (len(lags) - 1)]
    found = [0.0] * size
    for lag, weight in enumerate(lags):
        shifted = padded[lag : lag + size]
        found = [total + weight * value for total, value in zip(found, shifted, strict=True)]
    if line.start == 0 and found:
        found[0] += sum(weight * sum(padded[:lag]) for lag, weight in enumerate(lags))
    return found


def windowed(line: Stretch, reach: int) -> Stretch:
    """The mean of a line within so many years on either side."""
    start, stop = max(0, line.start - reach), min(SPAN, line.stop + reach)
    parts = _parts(line.start, start, stop, reach)
    means = [sum(line.values[part]) / width for part, width in parts]
    return Stretch(start, stop, means)


def unwindowed(line: Stretch, reach: int, start: int, stop: int) -> Line:
    """What such a sum gives each year of the housing: `windowed` turned round, as `unlagged`."""
    widths = _parts(line.start, line.start, line.stop, reach)
    shared = [value / width for value, (_, width) in zip(line.values, widths, strict=True)]
    return [sum(shared[part]) for part, _ in _parts(line.start, start, stop, reach)]


@lru_cache(maxsize=256)
def _parts(first: int, start: int, stop: int, reach: int) -> tuple[tuple[slice, int], ...]:
    """For the years from `start` to `stop`: who is within reach, counted from `first`; how many.

    The number is of all years within reach, whether or not the line goes so far.
    """
    found = []
    for year in range(start, stop):
        low, high = max(0, year - reach), min(SPAN, year + reach + 1)
        found.append((slice(max(0, low - first), max(0, high - first)), high - low))
    return tuple(found)
