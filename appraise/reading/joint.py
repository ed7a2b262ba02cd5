"""The joint table of a cased piece: housing, process, belonging, package and year, summed exactly.

    J = P(m) P(p) P(h | m, p, channel) P(u) pi_p(y) * tables * I(y) K_u(y) C_h(y)

over housing class m, process p, how the piece came together h, package undisturbed or disturbed u,
and the picture's year y. Nothing is sampled and nothing is left out.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from operator import mul

from appraise.knowledge.records import BELONGING
from appraise.reading.factors import Dated, Factor, Factors
from appraise.reading.frame import SPAN, Frame, Vector

TOGETHER, MARRIED, MODERN_CASE, MODERN_IMAGE, ALL_MODERN = range(len(BELONGING))
PERIOD_IMAGE = (TOGETHER, MARRIED, MODERN_CASE)
Cells = list[list[list[list[float]]]]  # [housing][process][belonging][package]


@dataclass(frozen=True, slots=True)
class YearTerms:
    """The year-dependent terms of the joint table.

    Attributes:
        picture: I(y) K_u(y) for u undisturbed and disturbed.
        constant: The same averaged away, for a modern picture.
        together, window: By housing class, C for `together` and the near part of `married`.
        mean: By housing class, the constant SUM pi C.
    """

    picture: tuple[Vector, Vector]
    constant: float
    together: tuple[Vector, ...]
    window: tuple[Vector, ...]
    mean: Vector


@dataclass(frozen=True, slots=True)
class Joint:
    """The joint table after the evidence.

    Attributes:
        frame: The states it is over.
        cells: Weights [housing][process][belonging][package], not normalised.
        total: Their sum: P(evidence), up to the model's constants.
        terms: The year-dependent terms, for the posteriors over years.
        prior: What each cell holds apart from the sum over years.
        copy, altered: P(period copy), P(added to or altered).
    """

    frame: Frame
    cells: Cells
    total: float
    terms: YearTerms
    prior: Cells
    copy: float
    altered: float


def solve(frame: Frame, factors: Factors, channel: str, subject: str) -> Joint:
    """The joint table after the evidence.

    Args:
        frame: States and priors of the piece's kind and region.
        factors: The evidence.
        channel: Where the piece is met; moves the chances of modern parts.
        subject: What it shows; soldiers and famous sitters move the chance of a modern picture.
    """
    terms = year_terms(frame, factors)
    prior = _prior_cells(frame, factors, channel, subject)
    cells, total = _sum_years(frame, terms, prior)
    return Joint(
        frame,
        cells,
        total,
        terms,
        prior,
        _binary(factors, "copy", frame.weights.copy),
        _binary(factors, "altered", frame.weights.altered),
    )


def year_terms(frame: Frame, factors: Factors) -> YearTerms:
    """I, K and C of the model, for every year and housing class."""
    image = times(factors.image)
    package = {part: times(found) for part, found in factors.package.items()}
    means = {part: mean_of(frame, line) for part, line in package.items()}
    picture = []
    for rho in frame.weights.exchange:
        line = image
        for part, values in package.items():
            line = tuple(map(mul, line, exchanged(values, means[part], rho)))
        picture.append(line)
    constant = mean_of(frame, image)
    for mean in means.values():
        constant *= mean
    shared = housing_line(frame, factors)
    housings = [tuple(map(mul, shared, years)) for years in frame.housing_years]
    return YearTerms(
        picture=(picture[0], picture[1]),
        constant=constant,
        together=tuple(_lagged(line, frame.weights.lags) for line in housings),
        window=tuple(_windowed(line, frame.weights.kappa_window) for line in housings),
        mean=tuple(mean_of(frame, line) for line in housings),
    )


def housing_line(frame: Frame, factors: Factors) -> Vector:
    """The dated findings on the housing by its own year, pad and clasp perhaps exchanged."""
    line = times(factors.body)
    rates = {"pad": frame.weights.pad, "clasp": frame.weights.clasp}
    for part, found in factors.loose.items():
        values = times(found)
        line = tuple(map(mul, line, exchanged(values, mean_of(frame, values), rates[part])))
    return line


def times(found: Sequence[Dated]) -> Vector:
    """The product of dated findings, year by year."""
    line: Vector = (1.0,) * SPAN
    for dated in found:
        line = tuple(map(mul, line, dated.values))
    return line


def mean_of(frame: Frame, line: Sequence[float]) -> float:
    """The mean of a line under the fixed prior over years."""
    return float(sum(map(mul, frame.years, line)))


def exchanged(line: Vector, mean: float, rho: float) -> Vector:
    """A part's likelihood when it is an exchange with probability rho."""
    return tuple((1 - rho) * value + rho * mean for value in line)


def _lagged(line: Vector, lags: Sequence[float]) -> Vector:
    """SUM over lags of P(lag) * line(y - lag); before the first year the first stands."""
    reach = len(lags) - 1
    padded = (line[0],) * reach + line
    columns = (padded[reach - lag : reach - lag + SPAN] for lag in range(len(lags)))
    weighted = [
        [weight * value for value in column] for weight, column in zip(lags, columns, strict=True)
    ]
    return tuple(map(sum, zip(*weighted, strict=True)))


def _windowed(line: Vector, reach: int) -> Vector:
    """The mean of a line within so many years on either side."""
    sums = [0.0]
    for value in line:
        sums.append(sums[-1] + value)
    found = []
    for year in range(SPAN):
        low, high = max(0, year - reach), min(SPAN, year + reach + 1)
        found.append((sums[high] - sums[low]) / (high - low))
    return tuple(found)


def _prior_cells(frame: Frame, factors: Factors, channel: str, subject: str) -> Cells:
    """Every cell's prior times the evidence that does not depend on the year."""
    alone = {axis: _alone(factors, axis, n) for axis, n in _sizes(frame).items()}
    housing = tuple(map(mul, frame.housing_share, alone["housing"]))
    process = tuple(map(mul, frame.process_share, alone["process"]))
    state = tuple(map(mul, alone["belonging"], factors.belonging))
    disturbed = frame.weights.disturbed
    package = tuple(map(mul, (1 - disturbed, disturbed), alone["package"]))
    rates = frame.belonging(channel, subject)
    cells = [
        [
            [
                [pm * pp * rate * ph * pu for pu in package]
                for rate, ph in zip(row, state, strict=True)
            ]
            for pp, row in zip(process, rows, strict=True)
        ]
        for pm, rows in zip(housing, rates, strict=True)
    ]
    for factor in factors.tables.values():
        if len(factor.axes) > 1:
            _couple(cells, factor)
    return cells


def _sizes(frame: Frame) -> dict[str, int]:
    return {
        "housing": len(frame.housings),
        "process": len(frame.processes),
        "belonging": len(BELONGING),
        "package": 2,
    }


def _alone(factors: Factors, axis: str, size: int) -> Vector:
    line: Vector = (1.0,) * size
    for factor in factors.tables.values():
        if factor.axes == (axis,):
            line = tuple(map(mul, line, factor.values))
    return line


def _couple(cells: Cells, factor: Factor) -> None:
    """Multiply in a factor that bears on several axes at once."""
    strides = {}
    step = 1
    for axis, size in zip(reversed(factor.axes), reversed(factor.shape), strict=True):
        strides[axis] = step
        step *= size
    m_step, p_step = strides.get("housing", 0), strides.get("process", 0)
    h_step, u_step = strides.get("belonging", 0), strides.get("package", 0)
    for m, rows in enumerate(cells):
        for p, states in enumerate(rows):
            for h, pair in enumerate(states):
                place = m * m_step + p * p_step + h * h_step
                pair[0] *= factor.values[place]
                pair[1] *= factor.values[place + u_step]


def _sum_years(frame: Frame, terms: YearTerms, prior: Cells) -> tuple[Cells, float]:
    kappa = frame.weights.kappa
    lines = [
        [tuple(map(mul, years, terms.picture[u])) for u in (0, 1)] for years in frame.process_years
    ]
    sums = [[sum(line) for line in pair] for pair in lines]
    total = 0.0
    cells: Cells = []
    for m, rows in enumerate(prior):
        mean, together, window = terms.mean[m], terms.together[m], terms.window[m]
        modern = terms.constant * mean
        grid = []
        for p, states in enumerate(rows):
            found = [[0.0, 0.0] for _ in states]
            for u in (0, 1):
                line, alone = lines[p][u], sums[p][u]
                near = kappa * sum(map(mul, line, window)) + (1 - kappa) * mean * alone
                years = (sum(map(mul, line, together)), near, mean * alone, modern, modern)
                for h, value in enumerate(years):
                    cell = states[h][u] * value
                    found[h][u] = cell
                    total += cell
            grid.append(found)
        cells.append(grid)
    return cells, total


def _binary(factors: Factors, axis: str, prior: float) -> float:
    """The posterior of a yes/no unknown that stands apart from the table."""
    no, yes = 1 - prior, prior
    for factor in factors.tables.values():
        if factor.axes == (axis,):
            no, yes = no * factor.values[0], yes * factor.values[1]
    return yes / (no + yes)
