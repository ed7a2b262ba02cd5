"""Years read from the joint table: of picture, package and housing alone, and joined."""

from collections.abc import Sequence
from dataclasses import dataclass
from operator import mul

from appraise.base.dates import years as written
from appraise.knowledge.records import FIRST_YEAR
from appraise.reading.factors import Factors
from appraise.reading.frame import SPAN, Vector
from appraise.reading.joint import (
    MARRIED,
    MODERN_CASE,
    PERIOD_IMAGE,
    TOGETHER,
    Joint,
    exchanged,
    housing_line,
    mean_of,
    solve,
    times,
)

LEVEL = 0.80
NEGLIGIBLE = 1e-12


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
    marks = []
    for wanted in (tail, 0.5, 1 - tail):
        reached = 0.0
        for place, value in enumerate(line):
            reached += value
            if reached >= wanted * total * (1 - 1e-12):
                marks.append(FIRST_YEAR + place)
                break
    return Span(marks[0], marks[2], marks[1], level)


def picture_posterior(joint: Joint) -> tuple[Vector, Vector]:
    """Weights over the picture's year, given that it is of its period, for u = 0 and 1."""
    frame, terms = joint.frame, joint.terms
    kappa = frame.weights.kappa
    found = []
    for u in (0, 1):
        line = [0.0] * SPAN
        for p, years in enumerate(frame.process_years):
            mixed = _housing_mix(joint, p, u, kappa)
            if mixed is not None:
                line = [a + b * c for a, b, c in zip(line, years, mixed, strict=True)]
        found.append(tuple(map(mul, line, terms.picture[u])))
    return found[0], found[1]


def _housing_mix(joint: Joint, p: int, u: int, kappa: float) -> list[float] | None:
    """SUM over m and h of the cell's prior times C_h(y), for one process and package state."""
    terms = joint.terms
    flat = 0.0
    mixed: list[float] | None = None
    for m, rows in enumerate(joint.prior):
        cells = rows[p]
        if sum(joint.cells[m][p][h][u] for h in PERIOD_IMAGE) < NEGLIGIBLE * joint.total:
            continue
        mixed = mixed or [0.0] * SPAN
        near = kappa * cells[MARRIED][u]
        mean = terms.mean[m]
        flat += mean * ((1 - kappa) * cells[MARRIED][u] + cells[MODERN_CASE][u])
        own = cells[TOGETHER][u]
        mixed = [
            total + own * a + near * b
            for total, a, b in zip(mixed, terms.together[m], terms.window[m], strict=True)
        ]
    return None if mixed is None else [value + flat for value in mixed]


def joint_span(posterior: tuple[Vector, Vector]) -> Span:
    """The joint span of the picture's year."""
    return span_of([a + b for a, b in zip(*posterior, strict=True)])


def image_span(joint: Joint, factors: Factors) -> Span:
    """The span that the picture itself gives, its process and its own dated findings."""
    frame = joint.frame
    own = times(factors.image)
    line = [0.0] * SPAN
    for p, years in enumerate(frame.process_years):
        weight = sum(rows[p][h][u] for rows in joint.prior for h in PERIOD_IMAGE for u in (0, 1))
        line = [total + weight * value for total, value in zip(line, years, strict=True)]
    return span_of(list(map(mul, line, own)))


def package_span(joint: Joint, factors: Factors, disturbed: float) -> Span | None:
    """The span that the package gives, or None when nothing on it dates."""
    if not factors.package:
        return None
    frame = joint.frame
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
    frame = joint.frame
    shared = tuple(map(mul, frame.years, housing_line(frame, factors)))
    line = [0.0] * SPAN
    for m, years in enumerate(frame.housing_years):
        weight = sum(
            pair[u] for cells in joint.prior[m] for pair in cells[:MODERN_CASE] for u in (0, 1)
        )
        line = [total + weight * value for total, value in zip(line, years, strict=True)]
    return span_of(list(map(mul, line, shared)))


def exchanges(
    joint: Joint, factors: Factors, posterior: tuple[Vector, Vector], channel: str, subject: str
) -> tuple[Exchange, ...]:
    """P(part exchanged) of every dated part of package and housing, the likeliest first."""
    weights = joint.frame.weights
    whole = sum(posterior[0]) + sum(posterior[1])
    undisturbed, disturbed = weights.exchange
    usual = (1 - weights.disturbed) * undisturbed + weights.disturbed * disturbed
    found = []
    for part, dated in factors.package.items():
        values = times(dated)
        mean = mean_of(joint.frame, values)
        chance = 0.0
        for line, rho in zip(posterior, weights.exchange, strict=True):
            own = exchanged(values, mean, rho)
            chance += rho * mean * sum(a / b for a, b in zip(line, own, strict=True))
        found.append(_exchange(part, chance / whole, usual))
    for part, rate in (("pad", weights.pad), ("clasp", weights.clasp)):
        if part in factors.loose:
            mean = mean_of(joint.frame, times(factors.loose[part]))
            without = _without(factors, part)
            bare = solve(joint.frame, without, channel, subject).total
            found.append(_exchange(part, rate * mean * bare / joint.total, rate))
    return tuple(sorted(found, key=lambda one: -one.probability))


def _without(factors: Factors, part: str) -> Factors:
    loose = {name: dated for name, dated in factors.loose.items() if name != part}
    return Factors(
        factors.tables, factors.image, factors.package, factors.body, loose, factors.belonging
    )


def _exchange(part: str, chance: float, usual: float) -> Exchange:
    odds = chance / max(1e-12, 1 - chance)
    return Exchange(part, chance, odds / (usual / (1 - usual)))
