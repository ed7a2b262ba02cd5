"""Where prices scatter more and where less: a factor on the deviation, learnt from the log.

The size of an entry's leave-one-out residual is expected to be the mean of all sizes, moved
towards the sizes of its neighbours (a kernel-weighted mean, Nadaraya 1964 and Watson 1964). The
reach of the neighbourhood and the weight of the mean are those under which each entry's size,
predicted from the others, is likeliest for double-exponential errors; unless that beats an even
scatter by a clear margin, there is no factor. Intervals scaled in this way keep their coverage
(locally weighted conformal prediction: Lei, G'Sell, Rinaldo, Tibshirani and Wasserman 2018,
Journal of the American Statistical Association 113, 1094-1111, section 5.2).
"""

import numpy as np

from appraise.base.dataclass import dataclass
from appraise.pricing.kernel import Points, squared_distance
from appraise.pricing.texts import Floats

REACHES = (0.25, 0.35, 0.5)
STIFFNESSES = (2.0, 5.0, 15.0)
"""Entries that the mean of all sizes counts as, beside the neighbours."""
MARGIN = 1.0
"""Log likelihood by which a local scatter must beat an even one."""
CAP = 0.98
"""Sizes beyond this quantile count as it: one odd price is not a scatter."""


@dataclass(frozen=True, slots=True)
class Scatter:
    """A learnt factor on the deviation.

    Attributes:
        points: The n entries.
        sizes: (n,) sizes of their standardised residuals.
        reach: Length over which neighbours count, in standard deviations of a feature.
        stiffness: Entries that the mean of all sizes counts as.
    """

    points: Points
    sizes: Floats
    reach: float
    stiffness: float

    def at(self, subjects: Points) -> Floats:
        """The factor at each subject, (m,): about 1, above 0."""
        near = _nearness(squared_distance(subjects, self.points), self.reach)
        middle = float(self.sizes.mean())
        told: Floats = (near @ self.sizes + self.stiffness * middle) / (
            near.sum(axis=1) + self.stiffness
        )
        return told / middle


def _nearness(distance: Floats, reach: float) -> Floats:
    return np.exp(distance * (-0.5 / reach**2))


def learn_scatter(points: Points, residuals: Floats) -> tuple[Scatter | None, Floats]:
    """The scatter that the log bears out, if any, and the factor at each of its own entries.

    Args:
        points: The n entries, n at least 2.
        residuals: (n,) leave-one-out residuals over their deviations.

    Returns:
        The scatter or None, and (n,) factors, each found without the entry itself.
    """
    sizes = np.abs(residuals)
    sizes = np.minimum(sizes, np.quantile(sizes, CAP))
    even = np.ones(len(sizes))
    others = (sizes.sum() - sizes) / (len(sizes) - 1)
    if not others.min() > 0.0:
        return None, even
    best, chosen, factors = _likelihood(sizes, others) + MARGIN, None, even
    distance = squared_distance(points, points)
    for reach in REACHES:
        near = _nearness(distance, reach)
        np.fill_diagonal(near, 0.0)
        told, weight = near @ sizes, near.sum(axis=1)
        for stiffness in STIFFNESSES:
            expected = (told + stiffness * others) / (weight + stiffness)
            score = _likelihood(sizes, expected)
            if score > best:
                best, chosen = score, Scatter(points, sizes, reach, stiffness)
                factors = expected / sizes.mean()
    return chosen, factors


def _likelihood(sizes: Floats, expected: Floats) -> float:
    """Log likelihood of sizes that are exponential about their expectation."""
    return float(-(np.log(expected) + sizes / expected).sum())
