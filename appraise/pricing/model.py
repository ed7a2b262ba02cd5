"""A fitted log of prices: predictions with intervals, on the scale of natural logs of prices."""

from collections.abc import Sequence
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike, NDArray

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.pricing.kernel import Points, Scale, faded, with_texts
from appraise.pricing.posterior import Posterior, condition
from appraise.pricing.robust import noise_prior, weigh
from appraise.pricing.scatter import Scatter
from appraise.pricing.spread import Spread
from appraise.pricing.texts import Floats, TextRows, WordWeights

MOST = 700
"""Rows that one covariance holds; a longer log is fitted on a sample and read near the subject."""
CHUNK = 4096
"""Rows that are compared with the sample at a time."""
DOUBTFUL = 0.4
"""Rows of less weight are shown to the user: check this price."""


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
class Sampled:
    """The rows that the curve is fitted on: all of a log of up to `MOST`.

    Attributes:
        rows: (k,) their places in the log, ascending.
        left_out: (k,) each log price less what the others of the sample say of it.
        weights: (k,) as `Model.weights` has them.
        error: Standard deviation of the residuals, weighted.
    """

    rows: NDArray[np.intp]
    left_out: Floats
    weights: Floats
    error: float


@dataclass(frozen=True)
class Model:
    """A fitted log.

    Attributes:
        scale: How raw features become standardised ones.
        vocabulary: The words of the texts, or None where there are none.
        x: (n, p) standardised features of the log.
        squares: (n,) |x|^2 of each row.
        rows: The log's texts as vectors, or None.
        centred: (n,) log prices less the posterior's middle.
        sampled: The rows that the curve is fitted on.
        posterior: The price curve, of the whole log or of its sample.
        scatter: Where prices scatter more and where less; None: evenly.
        spread: The shape of predictions.
    """

    scale: Scale
    vocabulary: WordWeights | None
    x: Floats
    squares: Floats
    rows: TextRows | None
    centred: Floats
    sampled: Sampled
    posterior: Posterior
    scatter: Scatter | None
    spread: Spread

    def __len__(self) -> int:
        return len(self.x)

    @cached_property
    def left_out(self) -> Floats:
        """Each log price less what the other entries say of it, (n,)."""
        return self.left_out_at(np.arange(len(self)))

    @cached_property
    def weights(self) -> Floats:
        """How far each row counts, 0.05..1.25, (n,); below `DOUBTFUL` it fits nothing else."""
        return self._weights_at(np.arange(len(self)), self.left_out)

    def left_out_at(self, rows: NDArray[np.intp]) -> Floats:
        """The same of some rows, by their places in ascending order, (k,).

        Of a row outside the sample the sample's curve says it.
        """
        out = np.empty(len(rows))
        place, inside = self._in_sample(rows)
        out[inside] = self.sampled.left_out[place[inside]]
        others = np.flatnonzero(~inside)
        for start in range(0, len(others), CHUNK):
            part = others[start : start + CHUNK]
            chosen = rows[part]
            words = None if self.rows is None else self.rows.dense(chosen)
            told = self.posterior.mean(Points(self.x[chosen], words, self.scale.varying))
            out[part] = self.centred[chosen] - (told - self.posterior.middle)
        return out

    def _weights_at(self, rows: NDArray[np.intp], left_out: Floats) -> Floats:
        place, inside = self._in_sample(rows)
        found = weigh(left_out, self.sampled.error)
        found[inside] = self.sampled.weights[place[inside]]
        return found

    def _in_sample(self, rows: NDArray[np.intp]) -> tuple[NDArray[np.intp], NDArray[np.bool_]]:
        """The place in the sample that each row has if it is there, and whether it is."""
        sample = self.sampled.rows
        place = np.minimum(np.searchsorted(sample, rows), len(sample) - 1)
        return place, sample[place] == rows

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
            median, doubt = np.array(pairs, dtype=float).reshape(-1, 2).T
        deviation = self._deviation(at, doubt)
        low = self.spread.quantile((1.0 - level) / 2.0)
        high = self.spread.quantile((1.0 + level) / 2.0)
        return median + low * deviation, median, median + high * deviation

    def at(self, row: ArrayLike, text: str = "") -> Point:
        """The prediction for one subject of p raw features.

        Raises:
            InputError: when the row has not p features.
        """
        subject = self.subjects(np.atleast_2d(np.asarray(row, dtype=float)), [text])
        return self.point(subject, self.near(subject))

    def point(self, subject: Points, curve: Posterior) -> Point:
        """The prediction for one subject by the curve that `near` gives for it."""
        median, doubt = curve.mean_and_doubt(subject)
        return Point(
            float(median[0]),
            float(self._deviation(subject, doubt)[0]),
            float(np.sqrt(self.posterior.noise * doubt[0])),
            self.spread,
            float(self.likeness(subject).sum()),
        )

    def _deviation(self, at: Points, doubt: Floats) -> Floats:
        """The scale of a single price about the median at each point, (m,)."""
        deviation: Floats = np.sqrt(self.posterior.noise * (doubt + 1.0))
        return deviation if self.scatter is None else deviation * self.scatter.at(at)

    def subjects(self, features: ArrayLike, texts: Sequence[str] | None = None) -> Points:
        """Raw features and texts as points of this model; errors as in `predict`."""
        raw = as_matrix(features)
        if raw.shape[1] != self.x.shape[1]:
            raise InputError(f"{raw.shape[1]} features where the log has {self.x.shape[1]}")
        if texts is not None and len(texts) != len(raw):
            raise InputError(f"{len(texts)} texts for {len(raw)} rows")
        vectors = None
        if self.vocabulary is not None:
            told = TextRows.of(texts if texts is not None else [""] * len(raw), self.vocabulary)
            vectors = told.dense(np.arange(len(raw)))
        return Points(self.scale.apply(raw), vectors, self.scale.varying)

    def likeness(self, subject: Points) -> Floats:
        """How like one subject every row of the log is: (n,) values in 0..1.

        exp(-d^2 / 2) of the distance d over all features, less for other words as far as prices
        follow them; the same measure whatever fade and reach the covariance has.
        """
        return with_texts(
            np.exp(-0.5 * self._distance(subject)),
            self._cosines(subject),
            self.posterior.kernel.text,
        )

    def _distance(self, subject: Points) -> Floats:
        """Squared distance of every row to one subject over the varying features, (n,)."""
        aim = subject.x[0]
        distance = self.squares + float(aim @ aim) - 2.0 * (self.x @ aim)
        told: Floats = np.maximum(distance, 0.0) / self.scale.varying
        return told

    def _cosines(self, subject: Points) -> Floats | None:
        """The cosine of every row's text with the subject's, (n,)."""
        if self.rows is None or subject.words is None:
            return None
        return self.rows.cosines(subject.words[0])

    def near(self, subject: Points) -> Posterior:
        """The price curve about one subject: of the log, or of the `MOST` rows nearest to it."""
        if len(self) <= MOST:
            return self.posterior
        kernel = self.posterior.kernel
        nearness = with_texts(
            faded(self._distance(subject), kernel.reach, kernel.fade),
            self._cosines(subject),
            kernel.text,
        )
        chosen = np.sort(np.argpartition(-nearness, MOST)[:MOST])
        words = None if self.rows is None else self.rows.dense(chosen)
        return condition(
            kernel,
            Points(self.x[chosen], words, self.scale.varying),
            self.centred[chosen],
            1.0 / self._weights_at(chosen, self.left_out_at(chosen)),
            noise_prior(self.centred[chosen]),
            self.posterior.middle,
        )


def _singly(at: Points) -> list[Points]:
    """Each point by itself."""
    return [
        Points(at.x[i : i + 1], None if at.words is None else at.words[i : i + 1], at.varying)
        for i in range(len(at))
    ]


def as_matrix(features: ArrayLike) -> Floats:
    """Features as an (n, p) array of floats."""
    raw = np.asarray(features, dtype=float)
    if raw.ndim != 2:
        raise InputError(f"features of {raw.ndim} dimensions where rows and columns are needed")
    return raw
