"""How far prices fall from the curve, learnt from each entry left out in turn.

Leave-one-out residuals over their own predictive deviation are ranked; the q-quantile stands at
rank q (n + 1), the conformal rank (Vovk, Gammerman and Shafer, Algorithmic Learning in a Random
World, 2005; with residuals left out one at a time, Barber, Candes, Ramdas and Tibshirani 2021,
Annals of Statistics 49, 486-507), and half a rank further out, which is what rounding up to a
whole rank comes to on average. The median is pinned to the curve. With few entries the
quantiles are never nearer than those of the Student-t that the model itself states; beyond
probability n / (n + 1) they go on like that Student-t.
"""

import numpy as np

from appraise.base.dataclass import dataclass
from appraise.pricing.student import t_cdf, t_quantile
from appraise.pricing.texts import Floats

HALF = 0.5
"""How far beyond rank q (n + 1) the q-quantile stands, never beyond the outermost rank."""
FEW = 20
"""Below this many entries the interval is never narrower than the model's own."""


@dataclass(frozen=True, slots=True)
class Spread:
    """Quantiles of (log price - median) / deviation.

    Attributes:
        ranked: (n,) leave-one-out residuals over their deviations, ascending.
        freedom: Degrees of freedom of the model's own prediction.
        edge: The model's own quantile at n / (n + 1); 0 for one entry.
    """

    ranked: Floats
    freedom: float
    edge: float

    @classmethod
    def of(cls, residuals: Floats, freedom: float) -> "Spread":
        """The spread of standardised residuals in any order."""
        last = len(residuals) / (len(residuals) + 1)
        return cls(np.sort(residuals), freedom, t_quantile(last, freedom))

    def quantile(self, q: float) -> float:
        """The q-quantile, 0 < q < 1; never falls as q grows, and 0 at one half."""
        if q == 0.5:
            return 0.0
        if q < 0.5:
            return -self._outward(-self.ranked[::-1], 1.0 - q)
        return self._outward(self.ranked, q)

    def probability_below(self, z: float) -> float:
        """P(residual < z), the inverse of `quantile`; one half wherever that stays at 0."""
        if z == 0.0:
            return 0.5
        if z < 0.0:
            return 1.0 - self._reached(-self.ranked[::-1], -z)
        return self._reached(self.ranked, z)

    def _outward(self, ranked: Floats, q: float) -> float:
        """The distance upwards in `ranked` from the median at probability q above one half."""
        count = len(ranked)
        if not self.edge:
            return t_quantile(q, self.freedom)
        if q <= count / (count + 1):
            seen = float(np.interp(q * (count + 1) + HALF, np.arange(1, count + 1), ranked))
        else:
            seen = float(ranked[-1]) * t_quantile(q, self.freedom) / self.edge
        return max(seen, t_quantile(q, self.freedom) if count < FEW else 0.0)

    def _reached(self, ranked: Floats, z: float) -> float:
        """The probability of staying below a distance z > 0 upwards in `ranked`."""
        count = len(ranked)
        if not self.edge:
            return t_cdf(z, self.freedom)
        if z <= ranked[-1]:
            place = float(np.interp(z, ranked, np.arange(1, count + 1)))
            seen = max((place - HALF) / (count + 1), 0.5)
        else:
            outermost = float(ranked[-1])
            seen = t_cdf(z * self.edge / outermost, self.freedom) if outermost > 0.0 else 1.0
        return min(seen, t_cdf(z, self.freedom)) if count < FEW else seen
