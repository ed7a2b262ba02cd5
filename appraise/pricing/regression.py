"""Prices from features and motif texts: a robust Gaussian process with honest intervals.

    model = fit(features, log_prices, texts)
    low, median, high = model.predict(features, texts, level=0.80)
    point = model.at(row, "girl with a basket")
    point.quantile(0.9), point.prob_at_least(math.log(40)), point.like

Covariance: `kernel`. Its figures: `search`. Weights of the rows: `robust`. Interval: `spread`.
Everything is on the scale of natural logs of prices.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from appraise.base.errors import InputError
from appraise.pricing.kernel import (
    Points,
    Scale,
    similarity,
)
from appraise.pricing.posterior import Posterior, condition
from appraise.pricing.robust import fit_robustly, noise_prior, weigh
from appraise.pricing.search import Grid
from appraise.pricing.spread import Spread
from appraise.pricing.texts import Floats, TextRows, Vocabulary

MOST = 700
"""Rows that one covariance holds; a longer log is fitted on a sample and read near the subject."""
DOUBTFUL = 0.4
"""Rows of less weight are shown to the user: check this price."""
LIKE_REACH = 1.0
"""The reach at which entries are counted as like the subject, whatever reach prices follow."""
CHUNK = 4096
"""Rows that are compared with the sample at a time."""


@dataclass(frozen=True, slots=True)
class Point:
    """What the model says of one subject, on the scale of log prices.

    Attributes:
        median: The middle of the prediction.
        deviation: Scale of a single price about it, curve's doubt and noise together.
        doubt: Scale of the uncertainty of the median itself.
        spread: The shape of the prediction.
        like: Effective number of entries like the subject: the sum of their similarities.
    """

    median: float
    deviation: float
    doubt: float
    spread: Spread
    like: float

    def quantile(self, q: float) -> float:
        """The log price that a share q of such sales stays below, 0 < q < 1."""
        return self.median + self.deviation * self.spread.quantile(q)

    def prob_at_least(self, log_price: float) -> float:
        """The chance that such a sale reaches `log_price` or more."""
        return 1.0 - self.spread.probability_below((log_price - self.median) / self.deviation)


@dataclass(frozen=True, slots=True)
class Model:
    """A fitted log.

    Attributes:
        scale: How raw features become standardised ones.
        vocabulary: The words of the texts, or None where there are none.
        x: (n, p) standardised features of the log.
        rows: The log's texts as vectors, or None.
        centred: (n,) log prices less the posterior's middle.
        weights: (n,) 0.05..1.25; rows below `DOUBTFUL` fit nothing else in the log.
        posterior: The price curve, of the whole log or of its sample.
        spread: The shape of predictions.
    """

    scale: Scale
    vocabulary: Vocabulary | None
    x: Floats
    rows: TextRows | None
    centred: Floats
    weights: Floats
    posterior: Posterior
    spread: Spread

    def __len__(self) -> int:
        return len(self.x)

    @property
    def doubtful(self) -> NDArray[np.intp]:
        """The rows whose price should be checked, most doubtful first."""
        order = np.argsort(self.weights, kind="stable")
        return order[self.weights[order] < DOUBTFUL]

    def predict(
        self, features: ArrayLike, texts: Sequence[str] | None = None, level: float = 0.80
    ) -> tuple[Floats, Floats, Floats]:
        """Low, median and high log price of each row.

        Args:
            features: (m, p) raw features; a value that is not finite is missing.
            texts: m motif texts; none are the same as empty ones.
            level: Share of single sales that the interval should hold, 0..1 exclusive.

        Returns:
            Three (m,) arrays.

        Raises:
            InputError: when the features are not (m, p), the texts not m, or the level not a share.
        """
        if not 0.0 < level < 1.0:
            raise InputError(f"level {level} is not a share", mend="Give one such as 0.80.")
        at = self.subjects(features, texts)
        if len(self) <= MOST:
            median, doubt = self.posterior.mean_and_doubt(at)
        else:
            pairs = [self.near(one).mean_and_doubt(one) for one in _singly(at)]
            median = np.array([float(pair[0][0]) for pair in pairs])
            doubt = np.array([float(pair[1][0]) for pair in pairs])
        deviation = np.sqrt(self.posterior.noise * (doubt + 1.0))
        low = self.spread.quantile((1.0 - level) / 2.0)
        high = self.spread.quantile((1.0 + level) / 2.0)
        return median + low * deviation, median, median + high * deviation

    def at(self, row: ArrayLike, text: str = "") -> Point:
        """The prediction for one subject of p raw features.

        Raises:
            InputError: when the row has not p features.
        """
        subject = self.subjects(np.atleast_2d(np.asarray(row, dtype=float)), [text])
        median, doubt = self.near(subject).mean_and_doubt(subject)
        noise = self.posterior.noise
        return Point(
            float(median[0]),
            float(np.sqrt(noise * (doubt[0] + 1.0))),
            float(np.sqrt(noise * doubt[0])),
            self.spread,
            float(self.likeness(subject, LIKE_REACH).sum()),
        )

    def subjects(self, features: ArrayLike, texts: Sequence[str] | None = None) -> Points:
        """Raw features and texts as points of this model; errors as in `predict`."""
        raw = _matrix(features)
        if raw.shape[1] != self.x.shape[1]:
            raise InputError(f"{raw.shape[1]} features where the log has {self.x.shape[1]}")
        if texts is not None and len(texts) != len(raw):
            raise InputError(f"{len(texts)} texts for {len(raw)} rows")
        vectors = None
        if self.vocabulary is not None:
            told = TextRows.of(texts if texts is not None else [""] * len(raw), self.vocabulary)
            vectors = told.dense(np.arange(len(raw)))
        return Points(self.scale.apply(raw), vectors, self.scale.varying)

    def likeness(self, subject: Points, reach: float) -> Floats:
        """The similarity of every row of the log to one subject: (n,) values in 0..1."""
        distance = ((self.x - subject.x[0]) ** 2).sum(axis=1) / self.scale.varying
        cosines = None
        if self.rows is not None and subject.words is not None:
            cosines = self.rows.cosines(subject.words[0])
        return similarity(distance, cosines, reach, self.posterior.kernel.text)

    def near(self, subject: Points) -> Posterior:
        """The price curve about one subject: of the log, or of the `MOST` rows nearest to it."""
        if len(self) <= MOST:
            return self.posterior
        kernel = self.posterior.kernel
        nearness = self.likeness(subject, kernel.reach)
        chosen = np.sort(np.argpartition(-nearness, MOST)[:MOST])
        words = None if self.rows is None else self.rows.dense(chosen)
        return condition(
            kernel,
            Points(self.x[chosen], words, self.scale.varying),
            self.centred[chosen],
            1.0 / self.weights[chosen],
            noise_prior(self.centred[chosen]),
            self.posterior.middle,
        )


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
        log_prices: (n,) natural logs of prices, all finite.
        texts: n motif texts, or None. Texts that are all empty count as none.
        seed: Picks the sample of a log longer than `MOST`.
        grid: The covariance figures to try.

    Raises:
        InputError: when there is no row, a price is not finite, or lengths differ.
    """
    raw = _matrix(features)
    prices = np.asarray(log_prices, dtype=float).reshape(-1)
    _check(raw, prices, texts)
    scale = Scale.of(raw)
    x = scale.apply(raw)
    vocabulary = Vocabulary.of(texts) if texts is not None and any(map(str.split, texts)) else None
    rows = None if vocabulary is None or texts is None else TextRows.of(texts, vocabulary)
    middle = float(np.median(prices))
    centred = prices - middle
    sample = _sample(len(raw), seed)
    points = Points(x[sample], None if rows is None else rows.dense(sample), scale.varying)
    fitted = fit_robustly(points, centred[sample], middle, grid or Grid())
    posterior = fitted.posterior
    weights = fitted.weights
    if len(raw) > MOST:
        weights = _weights_of_all(x, rows, centred, posterior, fitted.error)
        weights[sample] = fitted.weights
    return Model(
        scale,
        vocabulary,
        x,
        rows,
        centred,
        weights,
        posterior,
        _spread(posterior, fitted.weights),
    )


def _spread(posterior: Posterior, weights: Floats) -> Spread:
    """The spread of the leave-one-out residuals, each over its own predictive deviation."""
    own = np.diagonal(posterior.precision)
    variance = posterior.noise * np.maximum(1.0 / own - 1.0 / weights + 1.0, 1e-9)
    return Spread.of(posterior.alpha / own / np.sqrt(variance), posterior.freedom)


def _weights_of_all(
    x: Floats, rows: TextRows | None, centred: Floats, sampled: Posterior, error: float
) -> Floats:
    """The weight of every row by its residual from the curve of the sample."""
    out = np.empty(len(x))
    for start in range(0, len(x), CHUNK):
        part = np.arange(start, min(start + CHUNK, len(x)))
        words = None if rows is None else rows.dense(part)
        told = sampled.mean(Points(x[part], words, sampled.points.varying)) - sampled.middle
        out[part] = weigh(centred[part] - told, error)
    return out


def _sample(count: int, seed: int) -> NDArray[np.intp]:
    """All rows, or a fixed sample of `MOST` in ascending order."""
    if count <= MOST:
        return np.arange(count)
    return np.sort(np.random.default_rng(seed).permutation(count)[:MOST])


def _singly(at: Points) -> list[Points]:
    """Each point by itself."""
    return [
        Points(at.x[i : i + 1], None if at.words is None else at.words[i : i + 1], at.varying)
        for i in range(len(at))
    ]


def _matrix(features: ArrayLike) -> Floats:
    """Features as an (n, p) array of floats."""
    raw = np.asarray(features, dtype=float)
    if raw.ndim != 2:
        raise InputError(f"features of {raw.ndim} dimensions where rows and columns are needed")
    return raw


def _check(raw: Floats, prices: Floats, texts: Sequence[str] | None) -> None:
    """Refuse a log that cannot be learnt from."""
    if not len(raw):
        raise InputError("the log holds no price", mend="Log one first.")
    if len(prices) != len(raw) or (texts is not None and len(texts) != len(raw)):
        raise InputError(f"{len(raw)} rows of features need as many prices and texts")
    bad = np.flatnonzero(~np.isfinite(prices))
    if len(bad):
        raise InputError(f"row {bad[0] + 1} of the log has no price")
