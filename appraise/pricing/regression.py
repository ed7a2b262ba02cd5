"""Prices from features and motif texts: a robust Gaussian process with honest intervals.

    model = fit(features, log_prices, texts)
    low, median, high = model.predict(features, texts, level=0.80)
    point = model.at(row, "girl with a basket")
    point.quantile(0.9), point.prob_at_least(math.log(40)), point.like

Covariance: `kernel`. Its figures: `search`. Weights of the rows: `robust`. Interval: `scatter` and
`spread`. Everything is on the scale of natural logs of prices.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from appraise.base.errors import InputError
from appraise.pricing.kernel import Points, Scale
from appraise.pricing.model import MOST, Model, as_matrix
from appraise.pricing.posterior import Posterior
from appraise.pricing.robust import RobustFit, fit_robustly, weigh
from appraise.pricing.scatter import Scatter, learn_scatter
from appraise.pricing.search import Grid
from appraise.pricing.spread import FEW, Spread
from appraise.pricing.texts import Floats, TextRows, WordWeights

LARGEST = 750.0
"""No number that a machine holds has a natural log of this size."""
CHUNK = 4096
"""Rows that are compared with the sample at a time."""


def fit(
    features: ArrayLike,
    log_prices: ArrayLike,
    texts: Sequence[str] | None = None,
    *,
    seed: int = 20240601,
    grid: Grid | None = None,
) -> Model:
    """Learn prices from a log; the same input always gives the same model.

    Args:
        features: (n, p) raw features, n at least 1; a value that is not finite is missing.
        log_prices: (n,) natural logs of prices.
        texts: n motif texts, or None. Texts that are all empty count as none.
        seed: Picks the sample of a log longer than `MOST`.
        grid: The covariance figures to try.

    Raises:
        InputError: when there is no row, a price is not finite, or lengths differ.
    """
    raw = as_matrix(features)
    prices = np.asarray(log_prices, dtype=float).reshape(-1)
    _check(raw, prices, texts)
    scale = Scale.of(raw)
    x = scale.apply(raw)
    vocabulary, rows = _motifs(texts)
    middle = float(np.median(prices))
    centred = prices - middle
    sample = _sample(len(raw), seed)
    points = Points(x[sample], None if rows is None else rows.dense(sample), scale.varying)
    fitted = fit_robustly(points, centred[sample], middle, grid or Grid())
    left_out = centred - _told(x, rows, sample, fitted.posterior)
    weights = weigh(left_out, fitted.error)
    left_out[sample], weights[sample] = fitted.left_out, fitted.weights
    squares = np.einsum("ij,ij->i", x, x)
    learnt = (scale, vocabulary, x, squares, rows, centred, left_out, weights)
    return Model(*learnt, fitted.posterior, *_interval(fitted))


def _motifs(texts: Sequence[str] | None) -> tuple[WordWeights | None, TextRows | None]:
    """The words of the texts and the texts in them; nothing where none says anything."""
    if texts is None or not any(map(str.split, texts)):
        return None, None
    vocabulary = WordWeights.of(texts)
    return vocabulary, TextRows.of(texts, vocabulary)


def _interval(fitted: RobustFit) -> tuple[Scatter | None, Spread]:
    """The shape of predictions, from each entry predicted by the others."""
    posterior = fitted.posterior
    doubt = 1.0 / np.diagonal(posterior.precision) - 1.0 / fitted.weights
    residuals = fitted.left_out / np.sqrt(posterior.noise * np.maximum(doubt + 1.0, 1e-9))
    if len(residuals) < FEW:
        return None, Spread.of(residuals, posterior.freedom)
    scatter, factors = learn_scatter(posterior.points, residuals)
    return scatter, Spread.of(residuals / factors, posterior.freedom)


def _told(x: Floats, rows: TextRows | None, sample: NDArray[np.intp], sampled: Posterior) -> Floats:
    """What the sample's curve says of every row outside it, less its middle; 0 within, (n,)."""
    out = np.zeros(len(x))
    others = np.setdiff1d(np.arange(len(x)), sample)
    for start in range(0, len(others), CHUNK):
        part = others[start : start + CHUNK]
        words = None if rows is None else rows.dense(part)
        told = sampled.mean(Points(x[part], words, sampled.points.varying))
        out[part] = told - sampled.middle
    return out


def _sample(count: int, seed: int) -> NDArray[np.intp]:
    """All rows, or a fixed sample of `MOST` in ascending order."""
    if count <= MOST:
        return np.arange(count)
    return np.sort(np.random.default_rng(seed).permutation(count)[:MOST])


def _check(raw: Floats, prices: Floats, texts: Sequence[str] | None) -> None:
    """Refuse a log that cannot be learnt from."""
    if not len(raw):
        raise InputError("the log holds no price", mend="Log one first.")
    if len(prices) != len(raw) or (texts is not None and len(texts) != len(raw)):
        raise InputError(f"{len(raw)} rows of features need as many prices and texts")
    bad = np.flatnonzero(~(np.abs(prices) < LARGEST))
    if len(bad):
        raise InputError(f"row {bad[0] + 1} of the log has no price")
