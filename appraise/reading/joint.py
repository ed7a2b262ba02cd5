"""The joint table of a piece: housing, process, belonging, package and year, summed exactly.

    J = P(m) P(p) P(h | m, p, channel) P(u) pi_p(y) * tables * I(y) K_u(y) C_h(y)

over housing class m, process p, how the piece came together h, package undisturbed or disturbed u,
and the picture's year y. Nothing is sampled and nothing is left out. A piece without a housing has
one nameless class, and is either of its period or modern.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from operator import mul

from appraise.knowledge.records import BELONGING
from appraise.reading.factors import Factor, Factors
from appraise.reading.frame import Frame, Vector, belonging_rates
from appraise.reading.stretches import Stretch, process_sums, whole
from appraise.reading.unknowns import UNKNOWN, Unknowns, unknowns_of
from appraise.reading.years import Layers, YearTerms, year_terms

TOGETHER, MARRIED, MODERN_CASE, MODERN_IMAGE, ALL_MODERN = range(len(BELONGING))
PERIOD_IMAGE = (TOGETHER, MARRIED, MODERN_CASE)
PAIRS = tuple((h, u) for h in range(len(BELONGING)) for u in (0, 1))
Cells = list[list[list[float]]]  # [housing][process][2 * belonging + package]


@dataclass(frozen=True, slots=True)
class YearSums:
    """What the dated findings come to.

    Attributes:
        dates: The dated findings behind it.
        terms: The terms that depend on years.
        alone: By package state and process, SUM pi_p I K_u.
        cells: SUM over years of pi_p I K_u C_h, laid out as the cells.
    """

    dates: tuple[tuple[str, int, float], ...]
    terms: YearTerms
    alone: tuple[list[float], list[float]]
    cells: Cells


@dataclass(frozen=True, slots=True)
class Joint:
    """The joint table after the evidence.

    Attributes:
        frame: The states it is over.
        cells: Weights [housing][process][2 * belonging + package], not normalised.
        by_process: Their sums over all housings.
        total: Their sum: P(evidence), up to the model's constants.
        prior: What each cell holds apart from the sum over years.
        years: The sums over years.
        odds: Disturbed over undisturbed in every cell's prior; None where a check ties the package
            state to other states, so that the cells differ.
        unknowns: The two further unknowns, by the states they are tied to.
        copy, altered: P(period copy), P(added to or altered).
    """

    frame: Frame
    cells: Cells
    by_process: list[list[float]]
    total: float
    prior: Cells
    years: YearSums
    odds: float | None
    unknowns: Unknowns
    copy: float
    altered: float

    @property
    def terms(self) -> YearTerms:
        """The terms that depend on years, for the posteriors over years."""
        return self.years.terms

    def by_housing(self) -> list[list[float]]:
        """Weights [housing][2 * belonging + package], over all processes."""
        return [[sum(line) for line in zip(*rows, strict=True)] for rows in self.cells]


def solve(
    frame: Frame, factors: Factors, channel: str, subject: str, like: Joint | None = None
) -> Joint:
    """The joint table after the evidence.

    Args:
        frame: States and priors of the piece's kind and region.
        factors: The evidence.
        channel: Where the piece is met; moves the chances of modern parts.
        subject: What it shows; soldiers and famous sitters move the chance of a modern picture.
        like: Another table of the frame; its sums over years hold where the dates are the same.
    """
    years = _sums_over_years(frame, factors, like)
    unknowns = unknowns_of(factors, frame)
    coupled = [*_coupled(factors), unknowns.factor]
    prior = _prior_cells(frame, factors, coupled, frame.modern(channel, subject))
    cells = [
        [list(map(mul, cell, sums)) for cell, sums in zip(row, rows, strict=True)]
        for row, rows in zip(prior, years.cells, strict=True)
    ]
    by_process = [
        [sum(line) for line in zip(*rows, strict=True)] for rows in zip(*cells, strict=True)
    ]
    copy, altered = _unknown_chances(cells, by_process, unknowns)
    odds = _package_odds(frame, factors, coupled)
    return Joint(
        frame=frame,
        cells=cells,
        by_process=by_process,
        total=sum(map(sum, by_process)),
        prior=prior,
        years=years,
        odds=odds,
        unknowns=unknowns,
        copy=copy,
        altered=altered,
    )


def _sums_over_years(frame: Frame, factors: Factors, like: Joint | None) -> YearSums:
    """What the dated findings come to, taken from another table where they are the same."""
    dates = factors.dates
    if like is not None and like.frame is frame and like.years.dates == dates:
        return like.years
    terms = year_terms(frame, factors)
    alone = _alone_sums(frame, terms)
    return YearSums(dates, terms, alone, _year_sums(frame, terms, alone))


def _coupled(factors: Factors) -> list[Factor]:
    """Factors that bear on several axes of the table at once, and on no further unknown."""
    return [
        one
        for one in factors.tables.values()
        if len(one.axes) > 1 and not set(one.axes) & set(UNKNOWN)
    ]


def _prior_cells(
    frame: Frame, factors: Factors, coupled: list[Factor], modern: tuple[float, float]
) -> Cells:
    """Every cell's prior times the evidence that does not depend on the year."""
    base = _base_cells(frame, modern)
    housing = _alone(factors, "housing", len(frame.housings))
    process = _alone(factors, "process", len(frame.processes))
    state = list(map(mul, _alone(factors, "belonging", len(BELONGING)), factors.belonging))
    package = _alone(factors, "package", 2)
    pairs = [state[h] * package[u] for h, u in PAIRS]
    cells: Cells = []
    shares: list[list[float]] = []
    for m, (row, pm) in enumerate(zip(base, housing, strict=True)):
        if not m or any("housing" in one.axes for one in coupled):
            spread = spreads(pairs, coupled, m, len(process))
            shares = [
                [pp * value for value in one] for pp, one in zip(process, spread, strict=True)
            ]
        cells.append(
            [
                [pm * start * value for start, value in zip(cell, share, strict=True)]
                for cell, share in zip(row, shares, strict=True)
            ]
        )
    return cells


@lru_cache(maxsize=256)
def _base_cells(frame: Frame, modern: tuple[float, float]) -> tuple[tuple[Vector, ...], ...]:
    """P(m) P(p) P(h | m, p) P(u) by cell."""
    disturbed = frame.weights.disturbed
    package = (1 - disturbed, disturbed)
    return tuple(
        tuple(
            tuple(pm * pp * rates[h] * package[u] for h, u in PAIRS)
            for pp, rates in zip(frame.process_share, row, strict=True)
        )
        for pm, row in zip(frame.housing_share, belonging_rates(frame, modern), strict=True)
    )


def _package_odds(frame: Frame, factors: Factors, coupled: list[Factor]) -> float | None:
    """Disturbed over undisturbed before the years, where nothing ties it to other states."""
    if any("package" in one.axes for one in coupled):
        return None
    undisturbed, disturbed = _alone(factors, "package", 2)
    prior = frame.weights.disturbed
    return prior * disturbed / ((1 - prior) * undisturbed)


def _alone(factors: Factors, axis: str, size: int) -> Vector:
    """The product of the factors that bear on one axis only."""
    line: Vector = (1.0,) * size
    for factor in factors.tables.values():
        if factor.axes == (axis,):
            line = tuple(map(mul, line, factor.values))
    return line


def spreads(
    pairs: list[float], coupled: Sequence[Factor], m: int, processes: int
) -> list[list[float]]:
    """By process, what the evidence multiplies into the ten entries of a housing's cells.

    Args:
        pairs: What the factors over one axis only multiply in.
        coupled: Factors over several axes.
        m: The housing.
        processes: How many there are.
    """
    rows = [pairs] * processes
    for one in coupled:
        first, step = m * one.stride("housing"), one.stride("process")
        h_step, u_step = one.stride("belonging"), one.stride("package")
        places = [first + h * h_step + u * u_step for h, u in PAIRS]
        rows = [
            [value * one.values[place + p * step] for value, place in zip(row, places, strict=True)]
            for p, row in enumerate(rows)
        ]
    return rows


def _alone_sums(frame: Frame, terms: YearTerms) -> tuple[list[float], list[float]]:
    """SUM pi_p I K_u by process, for u undisturbed and disturbed."""
    undisturbed = process_sums(frame, whole(terms.picture[0]))
    if terms.picture[1] is terms.picture[0]:
        return undisturbed, undisturbed
    return undisturbed, process_sums(frame, whole(terms.picture[1]))


def _year_sums(
    frame: Frame, terms: YearTerms, alone: tuple[Sequence[float], Sequence[float]]
) -> Cells:
    """SUM over years of pi_p I K_u C_h, laid out as the cells."""
    housing, kappa = terms.housing, frame.weights.kappa
    same = terms.picture[1] is terms.picture[0]
    by_package = [
        (_layer_sums(frame, housing.together, picture), _layer_sums(frame, housing.window, picture))
        for picture in (terms.picture[:1] if same else terms.picture)
    ]
    (together0, window0), (together1, window1) = by_package[0], by_package[-1]
    sums: Cells = []
    for m, mean in enumerate(housing.mean):
        modern, far = terms.constant * mean, (1 - kappa) * mean
        columns = (together0[m], window0[m], together1[m], window1[m], *alone)
        sums.append(
            [
                [t0, t1, kappa * w0 + far * a0, kappa * w1 + far * a1, mean * a0, mean * a1,
                 modern, modern, modern, modern]
                for t0, w0, t1, w1, a0, a1 in zip(*columns, strict=True)
            ]
        )  # fmt: skip
    return sums


def _layer_sums(frame: Frame, layers: Layers, picture: Vector) -> list[list[float]]:
    """SUM over years of pi_p(y) picture(y) C(y) as [housing][process]."""
    base = process_sums(frame, whole(tuple(map(mul, layers.base, picture))))
    sums = []
    for one, more in zip(frame.housing_raised, layers.more, strict=True):
        part = list(map(mul, more.values, picture[more.start : more.stop]))
        extra = process_sums(frame, Stretch(more.start, more.stop, part))
        sums.append([one.level * a + b for a, b in zip(base, extra, strict=True)])
    return sums


def _unknown_chances(
    cells: Cells, by_process: list[list[float]], unknowns: Unknowns
) -> tuple[float, ...]:
    """P(copy) and P(altered) after the evidence."""
    factor = unknowns.factor
    if not factor.axes:
        return tuple(yes[0] for yes in unknowns.yes)
    steps = [factor.stride(axis) for axis in ("housing", "process", "belonging", "package")]
    sums, total = [0.0, 0.0], 0.0
    for m, rows in enumerate(cells if steps[0] else [by_process]):
        for p, cell in enumerate(rows):
            total += sum(cell)
            places = [sum(map(mul, steps, (m, p, h, u))) for h, u in PAIRS]
            for n, yes in enumerate(unknowns.yes):
                sums[n] += sum(map(mul, cell, [yes[place] for place in places]))
    return tuple(value / total for value in sums)
