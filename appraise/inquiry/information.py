"""How much an answer not yet given would tell, in bits and in money."""

from collections.abc import Sequence
from operator import mul

import numpy as np

from appraise.reading.frame import Array

TINY = 1e-300  # so that nothing times its logarithm is nothing


def information(weights: Sequence[Sequence[float]] | Array) -> float:
    """Mutual information in bits between answers and states.

    The expected information of Lindley, "On a Measure of the Information Provided by an
    Experiment", Annals of Mathematical Statistics 27, 1956.

    Args:
        weights: Joint weights (answers, *states), none below 0, of any sum above 0.
    """
    return float(informations(np.asarray(weights, dtype=float), [0])[0])


def informations(weights: Array, starts: Sequence[int]) -> Array:
    """The mutual information of several tables that lie one behind the other.

    Args:
        weights: (all answers, *states), each table as for `information`.
        starts: Where the answers of each table begin.
    """
    table = weights.reshape(len(weights), -1)
    answers = table.sum(axis=1)
    states = np.add.reduceat(table, starts, axis=0)
    totals = np.add.reduceat(answers, starts)
    cells = np.add.reduceat(_spread(table).sum(axis=1) - _spread(answers), starts)
    found: Array = (cells - _spread(states).sum(axis=1) + _spread(totals)) / totals
    return np.maximum(0.0, found)


def _spread(values: Array) -> Array:
    found: Array = values * np.log2(np.maximum(values, TINY))
    return found


def gain(chances: Sequence[float], worths: Sequence[float], now: float, cost: float) -> float:
    """What hearing an answer before deciding to buy or to pass is worth on average, 0 or more.

    The expected value of sample information: SUM P(a) max(0, W(a) - K) - max(0, W - K), with W the
    mean of W(a). Where the worth shown now is another than that mean, as it is when unseen damage
    has not been taken off, the decision now goes by what is shown: the gain is what each answer
    saves by changing it.

    Args:
        chances: P(answer).
        worths: What the piece is worth after each answer.
        now: What it is worth now.
        cost: What it costs, all in.
    """
    if now > cost:
        return sum(c * max(0.0, cost - w) for c, w in zip(chances, worths, strict=True))
    return sum(c * max(0.0, w - cost) for c, w in zip(chances, worths, strict=True))


def variance(chances: Sequence[float], worths: Sequence[float]) -> float:
    """How far the answers part the worth: SUM P(a) (W(a) - mean)^2."""
    mean = sum(map(mul, chances, worths))
    pairs = zip(chances, worths, strict=True)
    return float(sum([chance * (worth - mean) ** 2 for chance, worth in pairs]))
