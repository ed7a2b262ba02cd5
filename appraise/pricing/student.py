"""Normal and Student-t distributions in plain Python, for quantiles, tails and scores.

The cumulative Student-t goes through the regularised incomplete beta function (Abramowitz and
Stegun, Handbook of Mathematical Functions, 26.5.27 and 26.7.1), evaluated by its continued
fraction with the modified Lentz method. No statistics library has to be loaded at start-up.
"""

import math
from statistics import NormalDist

NORMAL = NormalDist()
_TINY = 1e-300
_STEPS = 500


def _beta_fraction(a: float, b: float, x: float) -> float:
    """The continued fraction of the incomplete beta function (A&S 26.5.8)."""
    c, d = 1.0, 1.0 - (a + b) * x / (a + 1.0)
    d = 1.0 / (d if abs(d) > _TINY else _TINY)
    value = d
    for m in range(1, _STEPS):
        for step in (
            m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m)),
            -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1)),
        ):
            d = 1.0 + step * d
            d = 1.0 / (d if abs(d) > _TINY else _TINY)
            c = 1.0 + step / c
            c = c if abs(c) > _TINY else _TINY
            value *= c * d
        if abs(c * d - 1.0) < 1e-16:
            break
    return value


def incomplete_beta(a: float, b: float, x: float) -> float:
    """The regularised incomplete beta function I_x(a, b), a and b above 0, x in 0..1."""
    if x <= 0.0:
        return 0.0
    if x >= 1.0:
        return 1.0
    front = math.exp(
        math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b) + a * math.log(x) + b * math.log1p(-x)
    )
    if x < (a + 1.0) / (a + b + 2.0):
        return front * _beta_fraction(a, b, x) / a
    return 1.0 - front * _beta_fraction(b, a, 1.0 - x) / b


def t_cdf(x: float, df: float) -> float:
    """P(T <= x) of the standard Student-t with `df` degrees of freedom (any positive number)."""
    if math.isinf(x):
        return 1.0 if x > 0 else 0.0
    square = x * x
    if square > df:
        tail = 0.5 * incomplete_beta(df / 2.0, 0.5, df / (df + square))
    else:
        tail = 0.5 - 0.5 * incomplete_beta(0.5, df / 2.0, square / (df + square))
    return 1.0 - tail if x > 0 else tail


def t_pdf(x: float, df: float) -> float:
    """The density of the standard Student-t with `df` degrees of freedom at x."""
    log = math.lgamma((df + 1.0) / 2.0) - math.lgamma(df / 2.0) - 0.5 * math.log(df * math.pi)
    return math.exp(log - 0.5 * (df + 1.0) * math.log1p(x * x / df))


def t_quantile(q: float, df: float) -> float:
    """The q-quantile, q in 0..1 exclusive, by bisection and Newton steps on `t_cdf`.

    Raises:
        ValueError: when q is not strictly between 0 and 1.
    """
    if not 0.0 < q < 1.0:
        raise ValueError(f"a quantile needs a probability between 0 and 1, not {q}")
    if q == 0.5:
        return 0.0
    if q > 0.5:
        return -t_quantile(1.0 - q, df)
    low = -1.0
    while t_cdf(low, df) > q:
        low *= 2.0
    high = low / 2.0 if low < -1.0 else 0.0
    x = (low + high) / 2.0
    for _ in range(200):
        gap = t_cdf(x, df) - q
        low, high = (low, x) if gap > 0.0 else (x, high)
        slope = t_pdf(x, df)
        step = x - gap / slope if slope > 0.0 else low
        new = step if low < step < high else (low + high) / 2.0
        if abs(new - x) <= 1e-15 * abs(x):
            break
        x = new
    return x
