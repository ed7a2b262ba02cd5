"""What the log says a piece would cost, for buying decisions only.

`learn` once per change of the log, then `Prices.estimate` for a subject. Prices are medians and
quantiles in the base currency: a Student-t on logs has no mean.
"""

import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import field, replace
from zlib import crc32

import numpy as np

from appraise.base.dataclass import dataclass
from appraise.pricing.comparables import Comparable, compare
from appraise.pricing.features import Design, PricedRow, motifs
from appraise.pricing.likeness import Likeness, likeness
from appraise.pricing.model import MOST, Model, Point
from appraise.pricing.regression import fit
from appraise.pricing.robust import CLOSEST
from appraise.pricing.shares import corrections
from appraise.pricing.spread import FEW
from appraise.pricing.texts import Floats

METHOD = "robust regression on the log"
FAR = 700.0
NEEDED = 5
SHOWN_INSTEAD = " They are shown instead."
"""Like entries below which no number is given."""


@dataclass(frozen=True, slots=True)
class Estimate:
    """What the log says of a piece whose parts belong together.

    Attributes:
        low: Base currency; None, as median and high, where the log does not bear a number.
        median: The middle price.
        high: The upper end.
        level: Share of such sales between low and high.
        method: How it was found, in a few words.
        like: Effective number of entries like the piece.
        entries: Number of priced entries in the log.
        comparables: The nearest entries, adjusted to the piece.
        why: One plain sentence.
        point: The whole prediction on the log scale, without the known ratios; None as above.
        ratio: Log of the piece's known price ratios.
    """

    low: float | None
    median: float | None
    high: float | None
    level: float
    method: str
    like: float
    entries: int
    comparables: tuple[Comparable, ...]
    why: str
    point: Point | None = None
    ratio: float = 0.0

    def quantile(self, q: float) -> float | None:
        """The price that a share q of such sales stays below."""
        if self.point is None:
            return None
        return price_of(self.point.quantile(q) + self.ratio)

    def prob_at_least(self, price: float) -> float | None:
        """The chance that such a sale reaches `price` or more."""
        if self.point is None:
            return None
        if price <= 0.0:
            return 1.0
        return self.point.prob_at_least(math.log(price) - self.ratio)

    @property
    def doubt(self) -> float:
        """Standard uncertainty of the median's log: what the winner's curse acts on; 0 if none."""
        return self.point.doubt if self.point else 0.0


@dataclass(frozen=True, slots=True)
class Doubtful:
    """An entry that fits nothing else in the log: a slip, a bundle, or a real bargain.

    Attributes:
        id: The entry's name in the log.
        price: What was logged.
        others: What the other entries say of it.
        weight: Its weight in the regression, below 0.4.
    """

    id: str
    price: float
    others: float
    weight: float

    def says(self, currency: str) -> str:
        """What to do about it, in one plain sentence."""
        return (
            f"Check this price: a total of {plain(self.price)} {currency}, where similar entries "
            f"suggest about {plain(self.others)}. It is given little weight."
        )


@dataclass(frozen=True, slots=True)
class Prices:
    """A learnt log.

    Attributes:
        rows: The priced entries.
        design: The features' construction.
        features: (n, columns) raw features.
        model: The regression; None for an empty log.
        figures: What makes entries like one another.
        corrections: What the log says of the shares by belonging; see `shares`.
    """

    rows: tuple[PricedRow, ...]
    design: Design
    features: Floats
    model: Model | None
    figures: Likeness
    corrections: Mapping[str, float] = field(default_factory=dict)

    def estimate(self, subject: PricedRow, level: float = 0.80, shown: int = 5) -> Estimate:
        """The price of `subject` for the channel, record and date that it states.

        Args:
            subject: The piece at hand, without a price.
            level: Share of such sales that the interval should hold.
            shown: How many comparables to give.
        """
        if self.model is None:
            why = "No estimate: the log holds no price yet."
            return Estimate(None, None, None, level, "no opinion", 0.0, 0, (), why)
        alike = likeness(self.features, self.design, subject, self.figures)
        at = self.model.subjects(self.design.matrix([subject]), motifs([subject]))
        curve = self.model.near(at)
        similarity = alike * self.model.likeness(at)
        grid = compare(self.model, self.design, self.rows, subject, curve, similarity, shown)
        like, entries = float(alike.sum()), len(self.rows)
        if like < NEEDED:
            why = _too_few(like, entries)
            method = "too few like entries" if like else "no opinion"
            return Estimate(None, None, None, level, method, like, entries, grid, why)
        point = _credible(self.model.point(at, curve), entries)
        low, median, high = (
            price_of(point.quantile(q) + subject.ratio)
            for q in ((1.0 - level) / 2.0, 0.5, (1.0 + level) / 2.0)
        )
        why = (
            f"Estimate {plain(median)}, from about {like:.0f} similar entries of {entries} in the "
            f"log. {100 * level:.0f}% of such sales should fall between {plain(low)} and "
            f"{plain(high)}."
        )
        return Estimate(
            low, median, high, level, METHOD, like, entries, grid, why, point, subject.ratio
        )

    def without(self, ids: Collection[str]) -> "Prices":
        """The log learnt anew over entries other than some: those of the piece at hand."""
        rest = [row for row in self.rows if row.id not in ids]
        return self if len(rest) == len(self.rows) else learn(rest, self.figures)

    def median(self, subject: PricedRow) -> float | None:
        """The middle price of `subject` alone; None where too little in the log is like it."""
        if self.model is None:
            return None
        if float(likeness(self.features, self.design, subject, self.figures).sum()) < NEEDED:
            return None
        at = self.model.subjects(self.design.matrix([subject]), motifs([subject]))
        point = self.model.point(at, self.model.near(at))
        return price_of(point.quantile(0.5) + subject.ratio)

    def doubtful(self) -> tuple[Doubtful, ...]:
        """The entries whose price should be checked, most doubtful first."""
        if self.model is None:
            return ()
        out = []
        for i in self.model.doubtful:
            price = self.rows[i].price or 0.0
            others = price * math.exp(-float(self.model.left_out[i]))
            out.append(Doubtful(self.rows[i].id, price, others, float(self.model.weights[i])))
        return tuple(out)


def learn(rows: Sequence[PricedRow], figures: Likeness | None = None) -> Prices:
    """Learn a log.

    The sample of a long one goes by the entries' ids, so that a change of one entry leaves it as
    it is, whatever the order of the rows.

    Args:
        rows: Entries, every one with a price.
        figures: What makes entries like one another.

    Raises:
        InputError: when an entry has no price above 0.
    """
    design = Design.of(rows)
    features = design.matrix(rows)
    targets = [row.level_price for row in rows]
    lots = [crc32(row.id.encode()) for row in rows] if len(rows) > MOST else None
    model = fit(features, targets, motifs(rows), lots=lots) if rows else None
    return Prices(
        tuple(rows), design, features, model, figures or Likeness(), _corrections(rows, model)
    )


def _corrections(rows: Sequence[PricedRow], model: Model | None) -> dict[str, float]:
    """What the rows whose belonging was noted say of the shares; others say nothing."""
    noted = np.array([place for place, row in enumerate(rows) if row.belonging], dtype=int)
    if model is None or not len(noted):
        return {}
    states = [rows[place].belonging for place in noted]
    return corrections(states, model.left_out_at(noted).tolist())


def _credible(point: Point, entries: int) -> Point:
    """The point, no surer than sales of identical lots are while the log is short."""
    if entries >= FEW:
        return point
    return replace(point, deviation=max(point.deviation, CLOSEST))


def _too_few(like: float, entries: int) -> str:
    """Why there is no estimate."""
    if like == 0.0:
        return f"No estimate: none of the {entries} entries in the log is similar."
    return (
        f"No estimate: about {like:.1f} of the {entries} entries in the log are similar, and "
        f"{NEEDED} are needed.{SHOWN_INSTEAD}"
    )


def price_of(log: float) -> float:
    """A price from its natural log, kept to what a machine can hold."""
    return math.exp(min(max(log, -FAR), FAR))


def plain(price: float) -> str:
    """A price for a sentence: whole units, cents below ten."""
    return f"{price:,.0f}" if price >= 10.0 else f"{price:.2f}"
