"""Years read from the joint table: of picture, package and housing alone, and joined."""

from collections.abc import Sequence
from dataclasses import field
from functools import lru_cache

import numpy as np

from appraise.base.dataclass import dataclass
from appraise.base.dates import years as written
from appraise.knowledge.records import FIRST_YEAR
from appraise.reading.frame import Array
from appraise.reading.joint import PERIOD
from appraise.reading.views import Views
from appraise.reading.years import MODERN_CASE, loose_rate, times

LEVEL = 0.80


@dataclass(frozen=True, slots=True)
class Span:
    """The central part of a distribution over years: one year within first..last.

    Attributes:
        first, last: Years, ends included.
        median: The median year.
        level: The probability that the span holds, at least.
        weights: What it was read from, by `YEARS`, to any scale; empty where that is not known.
    """

    first: int
    last: int
    median: int
    level: float = LEVEL
    weights: Sequence[float] = field(default=(), repr=False, compare=False)

    @property
    def edtf(self) -> str:
        """As EDTF: one of the years, [1855..1862], not a duration."""
        return written(self.first, self.last)


@dataclass(frozen=True, slots=True)
class PartExchange:
    """How likely a part is an exchange, and how much the evidence says so.

    `ratio` is posterior over prior odds.
    """

    part: str
    probability: float
    ratio: float


def span_of(line: Sequence[float] | Array, level: float = LEVEL) -> Span:
    """The central span of a line of weights over the years: equal tails, whole years."""
    weights = np.asarray(line)
    reached = weights.cumsum()
    first, median, last = reached.searchsorted(_tails(level) * reached[-1]).tolist()
    first, median, last = FIRST_YEAR + first, FIRST_YEAR + median, FIRST_YEAR + last
    return Span(first, last, median, level, tuple(weights.tolist()))


@lru_cache(maxsize=16)
def _tails(level: float) -> Array:
    """(3,) the parts of the whole at which a span begins, has its middle and ends."""
    tail = (1 - level) / 2
    return np.array([tail, 0.5, 1 - tail]) * (1 - 1e-12)


def image_span(views: Views, made: Array) -> Span:
    """The span that the picture itself gives, its process and its own dated findings.

    Args:
        views: The table.
        made: (P, Y) 1 for the years of the processes of which it may be, else 0.
    """
    frame, factors = views.joint.frame, views.factors
    copies, *_, processes, states = views.joint.prior.shape
    each = views.joint.prior.reshape(copies, -1, processes * states).sum(axis=1)
    by_process = each.reshape(copies, processes, states)[..., :PERIOD].sum(axis=-1)
    image, worn = times(factors.image), times(factors.dress)

    def line(years: Array) -> Array:
        plain, copied = by_process @ years
        found: Array = image * (plain * worn + copied * (worn @ frame.years))
        return found

    told = line(frame.process_years * made)
    return span_of(told if told.any() else line(frame.process_years))


def package_span(views: Views, disturbed: float) -> Span | None:
    """The span that the package gives, or None when nothing on it dates."""
    if not views.factors.package:
        return None
    shares = np.array([1 - disturbed, disturbed])
    return span_of((shares @ views.joint.terms.package) * views.joint.frame.years)


def housing_span(views: Views, seen: bool) -> Span | None:
    """The span that the housing gives, or None when nothing on it was seen."""
    joint, factors = views.joint, views.factors
    if not (seen or factors.body or factors.loose):
        return None
    weights = views.joint.prior.sum(axis=(0, 1))[..., :MODERN_CASE].sum(axis=(1, 2))
    return span_of((weights @ joint.terms.own) * joint.frame.years)


def exchanges(views: Views) -> tuple[PartExchange, ...]:
    """P(part exchanged) of every dated part of package and housing, the likeliest first.

    Of the package: given that the picture is of its period. Of pad and clasp: against the case.
    """
    joint, factors = views.joint, views.factors
    frame, weights = joint.frame, joint.frame.weights
    undisturbed, disturbed = weights.exchange
    usual = (1 - weights.disturbed) * undisturbed + weights.disturbed * disturbed
    found = []
    if factors.package:
        by_year, rates = views.by_year, np.array(weights.exchange)[:, None]
        values = np.array([times(dated) for dated in factors.package.values()])
        gone = _gone(values[:, None], (values @ frame.years)[:, None, None], rates)
        chances = (by_year * gone).sum(axis=(1, 2)) / by_year.sum()
        for part, chance in zip(factors.package, chances.tolist(), strict=True):
            found.append(_exchange(part, chance, usual))
    for part, dated in factors.loose.items():
        line, rate = times(dated), loose_rate(weights, part)
        gone = _gone(line, float(line @ frame.years), rate)
        chance = float((views.housing @ gone).sum() / joint.total)
        found.append(_exchange(part, chance, rate))
    return tuple(sorted(found, key=lambda one: -one.probability))


def _gone(line: Array, mean: Array | float, rho: Array | float) -> Array:
    """P(exchanged | year), by year."""
    away = rho * mean
    found: Array = away / ((1 - rho) * line + away)
    return found


def _exchange(part: str, chance: float, usual: float) -> PartExchange:
    odds = chance / max(1e-12, 1 - chance)
    return PartExchange(part, chance, odds / (usual / (1 - usual)))
