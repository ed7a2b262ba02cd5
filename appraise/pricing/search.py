"""Choosing the covariance's figures: the largest marginal likelihood on a fixed grid.

For one shape of the smooth part all linear weights come from a single factorisation. With M the
smooth part and the noise, and B = [1, x / sqrt(p), z], the Cholesky factor of

    [ M   B ]
    [ B'  big ]

holds W = B' L^-T below the factor L of M, and W W' = B' M^-1 B; the linear part and the level
then enter by the matrix determinant lemma and Woodbury's identity (Golub and Van Loan, Matrix
Computations, 4th edition 2013, sections 2.1.4 and 4.2).
"""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from appraise.base.dataclass import dataclass
from appraise.pricing.kernel import (
    Fade,
    Kernel,
    Points,
    cosine,
    faded,
    squared_distance,
    with_texts,
)
from appraise.pricing.posterior import NoisePrior
from appraise.pricing.texts import Floats


@dataclass(frozen=True, slots=True)
class Grid:
    """The figures that are tried, every combination of them."""

    linear: tuple[float, ...] = (0.05, 0.5, 5.0)
    smooth: tuple[float, ...] = (0.0, 0.3, 1.0, 3.0)
    reach: tuple[float, ...] = (1.0, 2.0, 4.0)
    text: tuple[float, ...] = (0.0, 0.3, 0.6)
    fade: tuple[Fade, ...] = (Fade.SOFT, Fade.ROUGH)
    level: float = 100.0

    def shapes(
        self, distance: Floats, cosines: Floats | None
    ) -> Iterator[tuple[Floats | None, Kernel]]:
        """Each smooth part with its figures, the one of nothing first; linear weights are 0."""
        if 0.0 in self.smooth:
            yield None, Kernel(0.0, level=self.level)
        for fade in self.fade:
            for reach in self.reach:
                bare = faded(distance, reach, fade)
                for text in (0.0,) if cosines is None else self.text:
                    near = with_texts(bare, cosines, text)
                    for smooth in filter(None, self.smooth):
                        yield near * smooth, Kernel(0.0, smooth, reach, text, self.level, fade)


def _factor(smooth: Floats | None, row_noise: Floats, beside: Floats) -> tuple[float, Floats]:
    """Log |M| and W (q, n) of the module's text, for M = smooth + diag(row_noise)."""
    n, q = beside.shape
    if smooth is None:
        return float(np.log(row_noise).sum()), (beside / np.sqrt(row_noise)[:, None]).T
    total = np.zeros((n + q, n + q))
    total[:n, :n] = smooth
    total[np.arange(n), np.arange(n)] += row_noise
    total[n:, :n] = beside.T
    total[np.arange(n, n + q), np.arange(n, n + q)] = (
        2.0 * float((beside**2).sum()) / float(row_noise.min()) + 1.0
    )
    lower = np.linalg.cholesky(total)
    return float(2.0 * np.log(np.diagonal(lower)[:n]).sum()), lower[n:, :n]


def _evidences(
    log_determinant: float,
    across: Floats,
    linear: tuple[float, ...],
    level: float,
    prior: NoisePrior,
) -> list[float]:
    """The log evidence for each linear weight, from log |M| and W."""
    gram = across @ across.T
    inner, seen, fit = gram[:-1, :-1], gram[:-1, -1], float(gram[-1, -1])
    out = []
    for weight in linear:
        root = np.full(len(seen), np.sqrt(weight))
        root[0] = np.sqrt(level)
        lower = np.linalg.cholesky(np.eye(len(seen)) + root[:, None] * inner * root)
        solved = np.linalg.solve(lower, root * seen)
        determinant = log_determinant + float(2.0 * np.log(np.diagonal(lower)).sum())
        rest = max(fit - float(solved @ solved), 0.0)
        out.append(prior.log_evidence(determinant, rest, across.shape[1]))
    return out


def evidences(
    points: Points, centred: Floats, row_noise: Floats, prior: NoisePrior, grid: Grid
) -> list[tuple[float, Kernel]]:
    """The log marginal likelihood of every kernel of the grid.

    Args:
        points: The log's n entries.
        centred: (n,) log prices about their middle.
        row_noise: (n,) noise of each row in units of the noise variance, above 0.
        prior: Prior of the noise variance.
        grid: The figures to try.
    """
    beside = np.column_stack([np.ones(len(points)), points.x / np.sqrt(points.varying), centred])
    distance = squared_distance(points, points)
    np.fill_diagonal(distance, 0.0)
    found: list[tuple[float, Kernel]] = []
    for near, kernel in grid.shapes(distance, cosine(points, points, same=True)):
        factor = _factor(near, row_noise, beside)
        scores = _evidences(*factor, grid.linear, grid.level, prior)
        found += [
            (score, replace(kernel, linear=linear))
            for score, linear in zip(scores, grid.linear, strict=True)
        ]
    return found


def best(
    points: Points, centred: Floats, row_noise: Floats, prior: NoisePrior, grid: Grid
) -> Kernel:
    """The kernel of the largest marginal likelihood, the first one on a tie; see `evidences`."""
    found = evidences(points, centred, row_noise, prior, grid)
    return max(found, key=lambda pair: pair[0])[1]
