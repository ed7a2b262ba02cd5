"""Random logs of features, twins, constant columns, missing values and texts."""

import numpy as np

from appraise.pricing.kernel import Fade, Kernel, Points, Scale, covariance, prior_variance
from appraise.pricing.texts import TextRows, WordWeights

WORDS = ["girl", "boy", "basket", "hoop", "dog", "", "soldier sword", "two weavers"]
LEAST_NOISE = 0.8


def random_points(rng: np.random.Generator) -> Points:
    """Up to forty entries of up to twelve features and three words."""
    n, p = int(rng.integers(1, 40)), int(rng.integers(1, 12))
    raw = np.round(rng.standard_normal((n, p)) * rng.choice([0.0, 1.0, 50.0], p), 1)
    raw[rng.random((n, p)) < 0.2] = np.nan
    raw = raw[rng.integers(0, n, n)]
    texts = [" ".join(rng.choice(WORDS, int(rng.integers(0, 4)))) for _ in range(n)]
    scale = Scale.of(raw)
    dense = TextRows.of(texts, WordWeights.of(texts)).dense(np.arange(n))
    return Points(scale.apply(raw), dense, scale.varying)


def random_kernel(rng: np.random.Generator) -> Kernel:
    """A kernel of the grid, or with all of the smooth part given to the words."""
    return Kernel(
        float(rng.choice([0.05, 0.5, 5.0])),
        float(rng.choice([0.0, 0.3, 3.0])),
        float(rng.choice([1.0, 4.0])),
        float(rng.choice([0.0, 0.3, 0.6, 1.0])),
        fade=Fade.ROUGH if rng.random() < 0.5 else Fade.SOFT,
    )


def positive_definite(seed: int) -> bool:
    """Whether one log's covariance is symmetric, has the stated diagonal and no eigenvalue below
    the least noise, less rounding.
    """
    rng = np.random.default_rng(seed)
    points, kernel = random_points(rng), random_kernel(rng)
    total = covariance(kernel, points, points, same=True)
    own = np.allclose(np.diagonal(total), prior_variance(kernel, points))
    least = np.linalg.eigvalsh(total + LEAST_NOISE * np.eye(len(points))).min()
    return bool(own and np.allclose(total, total.T) and least > LEAST_NOISE - 0.01)
