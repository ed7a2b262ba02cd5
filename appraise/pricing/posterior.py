"""What the log says of the price curve: the conjugate posterior of a Gaussian process.

With z the log prices about a middle, K their covariance and D the noise of each row, both in
units of an unknown noise variance s2:

    z | s2 ~ N(0, s2 (K + D)),    s2 ~ InverseGamma(shape, scale)

s2 is integrated out in closed form, which makes every prediction a Student-t (Bishop, Pattern
Recognition and Machine Learning, 2006, sections 2.3.7, 3.3 and 6.4; Murphy, Machine Learning: a
Probabilistic Perspective, 2012, section 7.6). With a linear kernel this is conjugate Bayesian
regression.
"""

import math

import numpy as np

from appraise.base.dataclass import dataclass
from appraise.pricing.kernel import Kernel, Points, covariance, prior_variance
from appraise.pricing.texts import Floats


@dataclass(frozen=True, slots=True)
class NoisePrior:
    """Inverse-gamma prior of the noise variance: both figures above 0."""

    shape: float
    scale: float

    def after(self, fit: float, count: int) -> tuple[float, float]:
        """Shape and scale once z'(K + D)^-1 z = `fit` of `count` rows is known."""
        return self.shape + count / 2.0, self.scale + fit / 2.0

    def log_evidence(self, log_determinant: float, fit: float, count: int) -> float:
        """The log marginal likelihood, a multivariate Student-t density."""
        shape, scale = self.after(fit, count)
        return (
            -0.5 * (count * math.log(2.0 * math.pi) + log_determinant)
            + self.shape * math.log(self.scale)
            - shape * math.log(scale)
            + math.lgamma(shape)
            - math.lgamma(self.shape)
        )


@dataclass(frozen=True, slots=True)
class Posterior:
    """The price curve given the log, on the scale of log prices about `middle`.

    Attributes:
        kernel: The covariance's figures.
        points: The log's n entries.
        alpha: (n,) weights (K + D)^-1 z of the posterior mean.
        precision: (n, n) the inverse (K + D)^-1.
        middle: What was subtracted from the log prices.
        noise: Posterior scale of the noise variance, s2.
        freedom: Degrees of freedom of every prediction.
    """

    kernel: Kernel
    points: Points
    alpha: Floats
    precision: Floats
    middle: float
    noise: float
    freedom: float

    def mean(self, at: Points) -> Floats:
        """Posterior median of the log price at each point, (m,)."""
        return covariance(self.kernel, at, self.points) @ self.alpha + self.middle

    def mean_and_doubt(self, at: Points) -> tuple[Floats, Floats]:
        """Posterior median and the variance of the *typical* log price over `noise`: both (m,)."""
        across = covariance(self.kernel, at, self.points)
        explained = ((across @ self.precision) * across).sum(axis=1)
        doubt = np.maximum(prior_variance(self.kernel, at) - explained, 1e-9)
        return across @ self.alpha + self.middle, doubt


def mean_weights(bare: Floats, centred: Floats, row_noise: Floats) -> Floats:
    """The weights (K + D)^-1 z of the posterior mean alone, (n,), by one solve.

    Args:
        bare: (n, n) covariance K of the entries.
        centred: (n,) log prices about their middle.
        row_noise: (n,) noise of each row in units of the noise variance, above 0.
    """
    solved = np.linalg.solve(bare + np.diag(row_noise), centred)
    return np.asarray(solved, dtype=np.float64)


def condition(
    kernel: Kernel,
    points: Points,
    centred: Floats,
    row_noise: Floats,
    prior: NoisePrior,
    middle: float = 0.0,
) -> Posterior:
    """The posterior of one kernel.

    Args:
        kernel: The covariance's figures.
        points: The log's n entries.
        centred: (n,) log prices less `middle`.
        row_noise: (n,) noise of each row in units of the noise variance, above 0.
        prior: Prior of the noise variance.
        middle: What was subtracted from the log prices.
    """
    total = covariance(kernel, points, points, same=True)
    total[np.diag_indices_from(total)] += row_noise
    precision = np.linalg.inv(total)
    precision = 0.5 * (precision + precision.T)
    alpha = precision @ centred
    fit = max(float(centred @ alpha), 0.0)
    shape, scale = prior.after(fit, len(centred))
    return Posterior(kernel, points, alpha, precision, middle, scale / shape, 2.0 * shape)
