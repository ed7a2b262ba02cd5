"""The winner's curse: how far to bid below one's own estimate when others estimate too.

Model: each of n bidders sees log V + sigma z, z standard normal and independent, over a flat
prior of log V; sigma is the uncertainty of where the resale value lies, not the scatter of single
sales. The one who sees most has on average seen too much (Capen, Clapp and Campbell 1971,
Journal of Petroleum Technology 23, 641-653). With Z the largest of n standard normals, of
density n phi(z) Phi(z)^(n-1):

- middle: exp(-sigma median Z) = exp(-sigma Phi^-1(2^(-1/n))): an even chance of having overpaid;
- mean: E exp(-sigma Z);
- equilibrium: the bid in a symmetric second-price sale of a common value, E[V | my estimate ties
  with the best rival] (Milgrom and Weber 1982, Econometrica 50, 1089-1122). Its value above 1 at
  n = 2 comes from mean over median and is no advice to overbid.

What a piece is worth to the collector alone is not shaded.
"""

import math
from collections.abc import Callable

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.pricing.student import NORMAL

WIDTH, STEPS = 9.0, 1800


@dataclass(frozen=True, slots=True)
class Shade:
    """Factors on one's own estimate of the resale value.

    Attributes:
        middle: The default.
        mean: The mean version.
        equilibrium: The theory line.
    """

    middle: float
    mean: float
    equilibrium: float


def _phi(z: float) -> float:
    return math.exp(-0.5 * z * z) / math.sqrt(2.0 * math.pi)


def _below(z: float) -> float:
    return 0.5 * math.erfc(-z / math.sqrt(2.0))


def _integral(of: Callable[[float], float]) -> float:
    """The integral over -9..9 by the trapezium rule, which is near exact for such bells."""
    step = 2.0 * WIDTH / STEPS
    return step * math.fsum(of(-WIDTH + i * step) for i in range(STEPS + 1))


def shade(sigma: float, bidders: int) -> Shade:
    """The factors for an uncertainty `sigma` (log scale, 0 or more) among `bidders`, you included.

    Raises:
        InputError: when sigma is negative or not a number, or there is no bidder.
    """
    if bidders < 1 or not (0.0 <= sigma < math.inf):
        raise InputError(f"no winner's curse for {bidders} bidders and doubt {sigma}")
    if bidders == 1:
        return Shade(1.0, 1.0, 1.0)
    n = bidders
    middle = math.exp(-sigma * NORMAL.inv_cdf(2.0 ** (-1.0 / n)))
    mean = _integral(lambda z: n * math.exp(-sigma * z) * _phi(z) * _below(z) ** (n - 1))
    tie = _integral(lambda z: _phi(z) ** 2 * _below(z) ** (n - 2))
    tied = _integral(lambda z: math.exp(-sigma * z) * _phi(z) ** 2 * _below(z) ** (n - 2))
    return Shade(middle, mean, tied / tie)


def overpaid(bidders: int) -> float:
    """The chance that the winner overpays if all bid their raw estimates in a second-price sale."""
    return 1.0 - (bidders + 1) / 2.0**bidders
