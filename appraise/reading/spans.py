"""Years read from the joint table: of picture, package and housing alone, and joined."""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from operator import mul

from appraise.base.dates import years as written
from appraise.knowledge.records import FIRST_YEAR
from appraise.reading.factors import Factors
from appraise.reading.frame import SPAN, Frame, Vector
from appraise.reading.joint import MODERN_CASE, PERIOD_IMAGE, Joint
from appraise.reading.lines import YearLines
from appraise.reading.stretches import blend
from appraise.reading.years import exchanged, layered, loose_rate, mean_of, times

LEVEL = 0.80


@dataclass(frozen=True, slots=True)
class Span:
    """The central part of a distribution over years: one year within first..last.

    Attributes:
        first, last: Years, ends included.
        median: The median year.
        level: The probability that the span holds, at least.
    """

    first: int
    last: int
    median: int
    level: float = LEVEL

    @property
    def edtf(self) -> str:
        """As EDTF: one of the years, [1855..1862], not a duration."""
        return written(self.first, self.last)


@dataclass(frozen=True, slots=True)
class Exchange:
    """How likely a part is an exchange, and how much the evidence says so.

    `ratio` is posterior over prior odds.
    """

    part: str
    probability: float
    ratio: float


def span_of(line: Sequence[float], level: float = LEVEL) -> Span:
    """The central span of a line of weights over the years: equal tails, whole years."""
    total = sum(line)
    tail = (1 - level) / 2
    reached = list(accumulate(line))
    marks = [
        FIRST_YEAR + bisect_left(reached, wanted * total * (1 - 1e-12))
        for wanted in (tail, 0.5, 1 - tail)
    ]
    return Span(marks[0], marks[2], marks[1], level)


def joint_span(lines: YearLines) -> Span:
    """The joint span of the picture's year, given that it is of its period."""
    return span_of([a + b for a, b in zip(*lines.years, strict=True)])


def image_span(joint: Joint, factors: Factors) -> Span:
    """The span that the picture itself gives, its process and its own dated findings."""
    weights = [
        sum(sum(rows[p][: 2 * len(PERIOD_IMAGE)]) for rows in joint.prior)
        for p in range(len(joint.frame.processes))
    ]
    return span_of(list(map(mul, blend(joint.frame, weights), times(factors.image))))


def package_span(frame: Frame, factors: Factors, disturbed: float) -> Span | None:
    """The span that the package gives, or None when nothing on it dates."""
    if not factors.package:
        return None
    line = [0.0] * SPAN
    for share, rho in zip((1 - disturbed, disturbed), frame.weights.exchange, strict=True):
        one: Vector = frame.years
        for found in factors.package.values():
            values = times(found)
            one = tuple(map(mul, one, exchanged(values, mean_of(frame, values), rho)))
        line = [total + share * value for total, value in zip(line, one, strict=True)]
    return span_of(line)


def housing_span(joint: Joint, factors: Factors, seen: bool) -> Span | None:
    """The span that the housing gives, or None when nothing on it was seen."""
    if not (seen or factors.body or factors.loose):
        return None
    weights = [sum(sum(cell[: 2 * MODERN_CASE]) for cell in rows) for rows in joint.prior]
    own = layered(joint.frame, joint.terms.housing.own, weights)
    return span_of(list(map(mul, own, joint.frame.years)))


def exchanges(lines: YearLines, factors: Factors) -> tuple[Exchange, ...]:
    """P(part exchanged) of every dated part of package and housing, the likeliest first.

    Of the package: given that the picture is of its period. Of pad and clasp: against the case.
    """
    joint = lines.joint
    frame, weights = joint.frame, joint.frame.weights
    whole = sum(lines.years[0]) + sum(lines.years[1])
    undisturbed, disturbed = weights.exchange
    usual = (1 - weights.disturbed) * undisturbed + weights.disturbed * disturbed
    found = []
    for part, dated in factors.package.items():
        values = times(dated)
        mean = mean_of(frame, values)
        chance = 0.0
        for line, rho in zip(lines.years, weights.exchange, strict=True):
            chance += sum(map(mul, line, _gone(values, mean, rho)))
        found.append(_exchange(part, chance / whole, usual))
    for part, dated in factors.loose.items():
        values, rate = times(dated), loose_rate(frame, part)
        gone = lines.with_housing(_gone(values, mean_of(frame, values), rate))
        found.append(_exchange(part, sum(gone) / joint.total, rate))
    return tuple(sorted(found, key=lambda one: -one.probability))


def _gone(line: Vector, mean: float, rho: float) -> Vector:
    """P(exchanged | year), by year."""
    away = rho * mean
    return tuple([away / ((1 - rho) * value + away) for value in line])


def _exchange(part: str, chance: float, usual: float) -> Exchange:
    odds = chance / max(1e-12, 1 - chance)
    return Exchange(part, chance, odds / (usual / (1 - usual)))
