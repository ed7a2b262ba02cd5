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
from appraise.pricing.model import MOST, Model, Sampled, as_matrix
from appraise.pricing.robust import RobustFit, fit_robustly
from appraise.pricing.scatter import Scatter, learn_scatter
from appraise.pricing.search import Grid
from appraise.pricing.spread import FEW, Spread
from appraise.pricing.texts import Floats, TextRows, WordWeights

LARGEST = 750.0
"""No number that a machine holds has a natural log of this size."""
SEED = 20240601
"""Draws the lots of rows that bring none."""


def fit(
    features: ArrayLike,
    log_prices: ArrayLike,
    texts: Sequence[str] | None = None,
    *,
    lots: Sequence[int] | None = None,
    grid: Grid | None = None,
) -> Model:
    """Learn prices from a log; the same input always gives the same model.

    Args:
        features: (n, p) raw features, n at least 1; a value that is not finite is missing.
        log_prices: (n,) natural logs of prices.
        texts: n motif texts, or None. Texts that are all empty count as none.
        lots: For each row a number of its own; of a log longer than `MOST` the rows of the lowest
            are its sample. None: drawn, the same for every log of that length.
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
    sample = _sample(len(raw), lots)
    points = Points(x[sample], None if rows is None else rows.dense(sample), scale.varying)
    fitted = fit_robustly(points, centred[sample], middle, grid or Grid())
    squares = squares_of(x)
    sampled = Sampled(sample, fitted.left_out, fitted.weights, fitted.error)
    learnt = (scale, vocabulary, x, squares, rows, centred, sampled)
    return Model(*learnt, fitted.posterior, *_interval(fitted))


def squares_of(x: Floats) -> Floats:
    """|x|^2 of each row, (n,)."""
    found: Floats = np.einsum("ij,ij->i", x, x)
    return found


def _motifs(texts: Sequence[str] | None) -> tuple[WordWeights | None, TextRows | None]:
    """The words of the texts and the texts in them; nothing where none says anything."""
    if texts is None or not any(map(str.split, texts)):
        return None, None
    return TextRows.learnt(texts)


def _interval(fitted: RobustFit) -> tuple[Scatter | None, Spread]:
    """The shape of predictions, from each entry predicted by the others."""
    posterior = fitted.posterior
    doubt = 1.0 / np.diagonal(posterior.precision) - 1.0 / fitted.weights
    residuals = fitted.left_out / np.sqrt(posterior.noise * np.maximum(doubt + 1.0, 1e-9))
    if len(residuals) < FEW:
        return None, Spread.of(residuals, posterior.freedom)
    scatter, factors = learn_scatter(posterior.points, residuals)
    return scatter, Spread.of(residuals / factors, posterior.freedom)


def _sample(count: int, lots: Sequence[int] | None) -> NDArray[np.intp]:
    """All rows, or the `MOST` of the lowest lots, in ascending order."""
    if count <= MOST:
        return np.arange(count)
    drawn = np.random.default_rng(SEED).permutation(count) if lots is None else np.array(lots)
    return np.sort(np.argsort(drawn, kind="stable")[:MOST])


def _check(raw: Floats, prices: Floats, texts: Sequence[str] | None) -> None:
    """Refuse a log that cannot be learnt from."""
    if not len(raw):
        raise InputError("the log holds no price", mend="Log one first.")
    if len(prices) != len(raw) or (texts is not None and len(texts) != len(raw)):
        raise InputError(f"{len(raw)} rows of features need as many prices and texts")
    bad = np.flatnonzero(~(np.abs(prices) < LARGEST))
    if len(bad):
        raise InputError(f"row {bad[0] + 1} of the log has no price")
