"""Fitting the price curve so that one odd price does not bend it.

Errors are taken as Student-t with four degrees of freedom by reweighting each row with
(nu + 1) / (nu + r^2 / s^2), r its residual (Lange, Little and Taylor 1989, Journal of the
American Statistical Association 84, 881-896).
"""

import numpy as np

from appraise.base.dataclass import dataclass
from appraise.pricing.kernel import Points, covariance
from appraise.pricing.posterior import NoisePrior, Posterior, condition, mean_weights
from appraise.pricing.search import Grid, best
from appraise.pricing.texts import Floats

FREEDOM = 4.0
"""Degrees of freedom of the errors."""
ROUNDS = 4
"""Rounds of reweighting; the grid is searched in the first and in the last."""
FIRST = 400
"""Rows that the first search minds at most, spread over all: it only serves the first weights."""
LIGHTEST, HEAVIEST = 0.05, (FREEDOM + 1.0) / FREEDOM
SHARE_OF_VARIANCE = 0.02
"""The noise expected beforehand, as a share of the variance of the log prices."""
CLOSEST = 0.1367
"""Standard deviation of the logs of 920, 800 and 700, fetched by identical lots sold minutes
apart (Ashenfelter 1989, Journal of Economic Perspectives 3(3), 23-36): where all prices of a log
agree, they are taken to vary by as much."""


@dataclass(frozen=True, slots=True)
class RobustFit:
    """The posterior and the rows' weights.

    Attributes:
        posterior: The price curve.
        weights: (n,) `LIGHTEST`..`HEAVIEST`; low where a price fits nothing else.
        error: Standard deviation of the residuals, weighted.
        left_out: (n,) each log price less what the others say of it, in closed form: alpha over
            the diagonal of the precision (Rasmussen and Williams 2006, section 5.4.2).
    """

    posterior: Posterior
    weights: Floats
    error: float
    left_out: Floats


def noise_prior(centred: Floats) -> NoisePrior:
    """The prior of the noise variance for log prices about their median."""
    variance = float(np.var(centred))
    return NoisePrior(1.0, SHARE_OF_VARIANCE * (variance if variance > 1e-8 else CLOSEST**2))


def weigh(residuals: Floats, error: float) -> Floats:
    """The weight of each residual for errors of standard deviation `error`, (n,)."""
    return np.clip(
        (FREEDOM + 1.0) / (FREEDOM + (residuals / max(error, 1e-9)) ** 2), LIGHTEST, HEAVIEST
    )


def fit_robustly(points: Points, centred: Floats, middle: float, grid: Grid) -> RobustFit:
    """The price curve of a log of at most some hundred rows.

    Args:
        points: The log's n entries, n at least 1.
        centred: (n,) log prices less `middle`.
        middle: The median log price.
        grid: The covariance figures to try.
    """
    prior = noise_prior(centred)
    weights = np.ones(len(points))
    few = slice(None, None, -(-len(points) // FIRST))
    kernel = best(points.some(few), centred[few], 1.0 / weights[few], prior, grid)
    bare = covariance(kernel, points, points, same=True)
    for _ in range(ROUNDS - 1):
        residuals = mean_weights(bare, centred, 1.0 / weights) / weights
        weights = weigh(residuals, _error(residuals, weights))
    kernel = best(points, centred, 1.0 / weights, prior, grid)
    posterior = condition(kernel, points, centred, 1.0 / weights, prior, middle)
    error = _error(posterior.alpha / weights, weights)
    left_out = posterior.alpha / np.diagonal(posterior.precision)
    return RobustFit(posterior, weights, error, left_out)


def _error(residuals: Floats, weights: Floats) -> float:
    """The weighted standard deviation of residuals about 0."""
    return float(np.sqrt((weights * residuals**2).mean()))
