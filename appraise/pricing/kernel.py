"""The covariance of log prices: how far what is known of one entry speaks for another.

In units of the noise variance, for standardised features x of p varying columns, their distance
d = |x - x'| / sqrt(p), and motif texts with cosine c:

    level + linear x.x'/p + smooth fade(d / reach) (1 - text + text c)

The fade is soft, 1 / (1 + d^2 / 2) (rational quadratic), where prices follow the features in
sweeps, or rough, exp(-d) (exponential), where they follow them in steps. Every part is positive
semi-definite (Rasmussen and Williams, Gaussian Processes for Machine Learning, 2006, chapter 4:
sections 4.2.1 and 4.2.4).
"""

from collections.abc import Iterator
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from appraise.base.dataclass import dataclass
from appraise.pricing.texts import Floats

FARTHEST = 5.0
"""New features beyond this many standard deviations, and beyond the log's range, are cut there."""
EVEN = 0.5
"""Spread of a yes or no that is as often the one as the other. No column of shares 0..1 is scaled
by less, so a rare word or a rare gap has no more to say than a common one (binary inputs are left
unscaled: Gelman 2008, Statistics in Medicine 27, 2865-2873)."""
PART = 4096
"""Rows of features that are worked on at a time."""
ABSURD = 1e100
"""Features of this size or more count as missing: no measure of a piece comes near it."""


class Fade(StrEnum):
    """How the smooth part falls with distance."""

    SOFT = "soft"
    ROUGH = "rough"


@dataclass(frozen=True, slots=True)
class Kernel:
    """The covariance's figures, in units of the noise variance.

    Attributes:
        linear: Weight of the linear part, 0 or more.
        smooth: Weight of the part that fades with distance, 0 or more.
        reach: Length over which it fades, in standard deviations of a feature, above 0.
        text: Share of the smooth part that only entries with common words share, 0..1.
        level: Prior variance of the general price level: wide, so that the log alone sets it.
        fade: How the smooth part falls with distance.
    """

    linear: float
    smooth: float = 0.0
    reach: float = 1.0
    text: float = 0.0
    level: float = 100.0
    fade: Fade = Fade.SOFT


@dataclass(frozen=True, slots=True)
class Scale:
    """How raw features become standardised ones.

    Attributes:
        middle: (p,) means of the known values of the log.
        spread: (p,) population standard deviations, of shares 0..1 at least `EVEN`; 1 where a
            column does not vary.
        lowest: (p,) standardised values below which new ones are cut.
        highest: (p,) standardised values above which new ones are cut.
        varying: Number of columns that vary, at least 1.
    """

    middle: Floats
    spread: Floats
    lowest: Floats
    highest: Floats
    varying: int

    @classmethod
    def of(cls, features: Floats) -> "Scale":
        """The scale of an (n, p) array, n at least 1; see `known` for what counts as missing."""
        count, width = features.shape
        total, many, shares = np.zeros(width), np.zeros(width), np.ones(width, dtype=bool)
        for part in parts(features):
            there = known(part)
            filled = np.where(there, part, 0.0)
            total += filled.sum(axis=0)
            many += there.sum(axis=0)
            shares &= ((filled >= 0.0) & (filled <= 1.0)).all(axis=0)
        middle = total / np.maximum(many, 1)
        squares, least, most = np.zeros(width), np.zeros(width), np.zeros(width)
        for part in parts(features):
            gaps = np.where(known(part), part - middle, 0.0)
            squares += (gaps**2).sum(axis=0)
            least, most = np.minimum(least, gaps.min(axis=0)), np.maximum(most, gaps.max(axis=0))
        spread = np.sqrt(squares / count)
        flat = spread <= 1e-12 * np.maximum(np.abs(middle), 1.0)
        spread = np.where(shares, np.maximum(spread, EVEN), spread)
        least, most = np.where(flat, 0.0, least), np.where(flat, 0.0, most)
        spread = np.where(flat, 1.0, spread)
        return cls(
            middle,
            spread,
            np.minimum(least / spread, -FARTHEST),
            np.maximum(most / spread, FARTHEST),
            max(int((~flat).sum()), 1),
        )

    def apply(self, features: Floats) -> Floats:
        """Standardised features, (m, p): a missing value is 0, a far one is cut."""
        out = np.empty(features.shape)
        for part, told in zip(parts(features), parts(out), strict=True):
            filled = np.where(known(part), part, self.middle)
            np.clip((filled - self.middle) / self.spread, self.lowest, self.highest, out=told)
        return out


def parts(table: Floats) -> Iterator[Floats]:
    """The rows some thousands at a time, so that what is worked out of them stays at hand."""
    for start in range(0, len(table), PART):
        yield table[start : start + PART]


def known(features: Floats) -> NDArray[np.bool_]:
    """Which values are there: finite and of a sane size."""
    return np.isfinite(features) & (np.abs(features) < ABSURD)


@dataclass(frozen=True, slots=True)
class Points:
    """Entries as the kernel sees them.

    Attributes:
        x: (n, p) standardised features.
        words: (n, v) dense word vectors, or None where no texts are used.
        varying: The p that the kernel divides by.
    """

    x: Floats
    words: Floats | None
    varying: int

    def __len__(self) -> int:
        return len(self.x)

    def some(self, chosen: slice) -> "Points":
        """Some of them, seen by the same kernel."""
        words = None if self.words is None else self.words[chosen]
        return Points(self.x[chosen], words, self.varying)


def squared_distance(a: Points, b: Points) -> Floats:
    """|x - x'|^2 / p for every pair, (n, m), never negative."""
    across = (a.x**2).sum(axis=1)[:, None] + (b.x**2).sum(axis=1) - 2.0 * a.x @ b.x.T
    distance: Floats = np.maximum(across, 0.0) / a.varying
    return distance


def cosine(a: Points, b: Points, same: bool) -> Floats | None:
    """Cosines of the word vectors, (n, m); with `same` a is b and the diagonal is 1."""
    if a.words is None or b.words is None:
        return None
    across = a.words @ b.words.T
    if same:
        np.fill_diagonal(across, 1.0)
    return across


def faded(distance: Floats, reach: float, fade: Fade) -> Floats:
    """The smooth part at weight 1 without texts, from squared distances over p: in 0..1."""
    if fade is Fade.ROUGH:
        return np.exp(np.sqrt(distance) * (-1.0 / reach))
    out: Floats = 1.0 / (1.0 + distance * (0.5 / reach**2))
    return out


def with_texts(near: Floats, cosines: Floats | None, text: float) -> Floats:
    """The smooth part once the texts are minded: (1 - text + text c) times `near`."""
    if cosines is None or not text:
        return near
    out: Floats = near * (1.0 - text + text * cosines)
    return out


def covariance(kernel: Kernel, a: Points, b: Points, same: bool = False) -> Floats:
    """Covariances between two sets of points, (n, m), in units of the noise variance."""
    out = a.x @ b.x.T * (kernel.linear / a.varying) + kernel.level
    if kernel.smooth:
        near = faded(squared_distance(a, b), kernel.reach, kernel.fade)
        near = with_texts(near, cosine(a, b, same), kernel.text)
        if same:
            np.fill_diagonal(near, 1.0)
        out += kernel.smooth * near
    return out


def prior_variance(kernel: Kernel, a: Points) -> Floats:
    """The covariance of each point with itself, (n,)."""
    own: Floats = (a.x**2).sum(axis=1) * (kernel.linear / a.varying)
    return own + (kernel.level + kernel.smooth)
