"""Quantiles of weighted observations, for groups too small for a regression.

Effective size: (sum w)^2 / sum w^2 (Kish, Survey Sampling, 1965). Quantiles: type 1 of Hyndman
and Fan 1996, The American Statistician 50, 361-365, and the weighted type 7 of Akinshin 2023,
arXiv:2304.07265, which equals the usual type 7 where all weights agree.
"""

import math
from collections.abc import Sequence


def effective_size(weights: Sequence[float]) -> float:
    """How many equal observations the weights (0 or more) are worth; 0 when all are 0."""
    squares = math.fsum(w * w for w in weights)
    return math.fsum(weights) ** 2 / squares if squares else 0.0


def _ordered(values: Sequence[float], weights: Sequence[float]) -> list[tuple[float, float]]:
    """Values with their share of the whole weight, ascending, without those of no weight."""
    total = math.fsum(weights)
    return sorted((x, w / total) for x, w in zip(values, weights, strict=True) if w > 0.0)


def smooth_quantile(values: Sequence[float], weights: Sequence[float], q: float) -> float:
    """Weighted type 7, q in 0..1: smooth, and blind to values of no weight.

    Raises:
        ValueError: when no value has a weight.
    """
    pairs = _ordered(values, weights)
    if not pairs:
        raise ValueError("no value has a weight")
    size = effective_size([share for _, share in pairs])
    start = (size - 1.0) * q / size

    def reached(u: float) -> float:
        return min(max((u - start) * size, 0.0), 1.0)

    run, out = 0.0, 0.0
    for value, share in pairs:
        out += value * (reached(run + share) - reached(run))
        run += share
    return out
