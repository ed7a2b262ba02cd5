"""How good the estimates have been: scores of forecasts against what happened.

Each price is scored against the estimate made before it was known (prequential: Dawid 1984,
Journal of the Royal Statistical Society A 147, 278-292). Scores: Gneiting and Raftery 2007,
Journal of the American Statistical Association 102, 359-378; Brier 1950, Monthly Weather Review
78, 1-3.
"""

import math
from collections.abc import Sequence
from functools import cache
from statistics import fmean, median

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.pricing.student import NORMAL


@dataclass(frozen=True, slots=True)
class PastEstimate:
    """An estimate and the price that came, all above 0 and in one currency.

    Attributes:
        low: Lower end of the interval.
        median: The estimate.
        high: Upper end.
        level: Share of outcomes that the interval should hold, 0..1 exclusive.
        price: What happened.
    """

    low: float
    median: float
    high: float
    level: float
    price: float

    def __post_init__(self) -> None:
        figures = (self.low, self.median, self.high, self.price)
        if not all(0.0 < x < math.inf for x in figures) or not 0.0 < self.level < 1.0:
            raise InputError("a forecast needs prices above 0 and a level between 0 and 1")
        if not self.low <= self.median <= self.high:
            raise InputError("a forecast's median lies outside its interval")


@dataclass(frozen=True, slots=True)
class TrackSummary:
    """The track record of a number of forecasts.

    Attributes:
        count: How many.
        level: The mean level that was stated.
        inside: How many prices fell inside their interval.
        coverage: Share of them.
        coverage_low: Lower end of the 95 % Wilson interval of that share.
        coverage_high: Upper end.
        median_error: Median of |estimate / price - 1| taken as exp|log ratio| - 1.
        pinball: Mean quantile loss on the log scale over low, median and high.
        crps: Mean continuous ranked probability score on the log scale.
        pit: (n,) where each price fell in its forecast, 0..1; even when forecasts are right.
    """

    count: int
    level: float
    inside: int
    coverage: float
    coverage_low: float
    coverage_high: float
    median_error: float
    pinball: float
    crps: float
    pit: tuple[float, ...]


def wilson(hits: int, count: int, level: float = 0.95) -> tuple[float, float]:
    """The interval of a share from `hits` of `count` (Wilson 1927, J. Am. Stat. Ass. 22, 209-212).

    Raises:
        InputError: when hits are not 0..count or count is 0.
    """
    if not 0 <= hits <= count or count == 0:
        raise InputError(f"{hits} of {count} is not a share")
    z = NORMAL.inv_cdf(0.5 + level / 2.0)
    share, scale = hits / count, 1.0 + z * z / count
    middle = (share + z * z / (2.0 * count)) / scale
    half = z / scale * math.sqrt(share * (1.0 - share) / count + z * z / (4.0 * count * count))
    return max(middle - half, 0.0), min(middle + half, 1.0)


def pinball(outcome: float, quantile: float, q: float) -> float:
    """The quantile loss: max(q (y - x), (q - 1) (y - x))."""
    gap = outcome - quantile
    return max(q * gap, (q - 1.0) * gap)


def _scales(forecast: PastEstimate) -> tuple[float, float, float]:
    """Lower scale, upper scale and log error of a forecast read as a two-piece normal of logs."""
    z = NORMAL.inv_cdf(0.5 + forecast.level / 2.0)
    lower = max(math.log(forecast.median / forecast.low) / z, 1e-9)
    upper = max(math.log(forecast.high / forecast.median) / z, 1e-9)
    return lower, upper, math.log(forecast.price / forecast.median)


def pit(forecast: PastEstimate) -> float:
    """The probability that the forecast gave to lower prices (probability integral transform).

    Between and beyond its three figures a forecast is read as normal in log price, with one scale
    below the median and one above.
    """
    lower, upper, gap = _scales(forecast)
    return NORMAL.cdf(gap / (upper if gap > 0.0 else lower))


def crps(forecast: PastEstimate, strips: int = 400) -> float:
    """The continuous ranked probability score on the log scale, read as in `pit`.

    Twice the mean quantile loss over all probabilities.
    """
    lower, upper, gap = _scales(forecast)
    return 2.0 * fmean(
        pinball(gap, z * (upper if z > 0.0 else lower), q) for q, z in _normal_scores(strips)
    )


@cache
def _normal_scores(strips: int) -> tuple[tuple[float, float], ...]:
    """Chances in the middle of so many strips, each with its normal quantile."""
    chances = [(i + 0.5) / strips for i in range(strips)]
    return tuple((q, NORMAL.inv_cdf(q)) for q in chances)


def record(forecasts: Sequence[PastEstimate]) -> TrackSummary | None:
    """The track record, or None where nothing has been scored."""
    if not forecasts:
        return None
    inside = sum(f.low <= f.price <= f.high for f in forecasts)
    low, high = wilson(inside, len(forecasts))
    losses = [
        pinball(math.log(f.price), math.log(value), q)
        for f in forecasts
        for q, value in (
            ((1.0 - f.level) / 2.0, f.low),
            (0.5, f.median),
            ((1.0 + f.level) / 2.0, f.high),
        )
    ]
    return TrackSummary(
        len(forecasts),
        fmean(f.level for f in forecasts),
        inside,
        inside / len(forecasts),
        low,
        high,
        median(math.expm1(abs(math.log(f.median / f.price))) for f in forecasts),
        fmean(losses),
        fmean(crps(f) for f in forecasts),
        tuple(pit(f) for f in forecasts),
    )


def brier(chances: Sequence[float], happened: Sequence[bool]) -> float:
    """The mean squared error of probabilities: 0 at best, 0.25 for always saying one half.

    Raises:
        InputError: when there is nothing to score or lengths differ.
    """
    if not chances or len(chances) != len(happened):
        raise InputError(f"{len(chances)} chances for {len(happened)} outcomes cannot be scored")
    return fmean((p - float(y)) ** 2 for p, y in zip(chances, happened, strict=True))


@dataclass(frozen=True, slots=True)
class Bin:
    """One step of a reliability picture: what was said, how often it came, of how many."""

    said: float
    came: float
    count: int


def reliability(
    chances: Sequence[float], happened: Sequence[bool], bins: int = 5
) -> tuple[Bin, ...]:
    """Said against come, in steps of equal width; empty steps are left out."""
    out = []
    for i in range(bins):
        inside = [
            (p, y)
            for p, y in zip(chances, happened, strict=True)
            if min(int(p * bins), bins - 1) == i
        ]
        if inside:
            said, came = fmean(p for p, _ in inside), fmean(float(y) for _, y in inside)
            out.append(Bin(said, came, len(inside)))
    return tuple(out)
