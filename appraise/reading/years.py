"""The terms of the joint table that depend on years: the picture's, the package's, the housing's.

I(y) of the picture, K_u(y) of the package, every part of which may be an exchange, and C_h(y) of
the housing, which is older than the picture by a lag (together), near it or anywhere (married), or
free of it (modern). What the sitter wears dates the sitting: of a period copy it says nothing about
the copy's own year.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache, reduce

import numpy as np

from appraise.reading.factors import Dated, Factors
from appraise.reading.frame import SPAN, Array, Frame, mean_of

ONES = np.ones(SPAN)


@dataclass(frozen=True, slots=True, eq=False)
class YearTerms:
    """The year-dependent terms of the joint table; Y years, M housing classes.

    Attributes:
        picture: (2, C, Y) I(y) K_u(y) by package state and copy; C is 1 where copies do not matter.
        constant: (C,) the same averaged away, for a modern picture.
        own: (M, Y) the housing's findings and years, by its own year.
        together, window: (M, Y) C for `together` and the near part of `married`, by the
            picture's year.
        mean: (M,) the constant SUM pi C.
    """

    picture: Array
    constant: Array
    own: Array
    together: Array
    window: Array
    mean: Array


def year_terms(frame: Frame, factors: Factors) -> YearTerms:
    """I, K and C of the model, for every year and housing class."""
    image, dress = times(factors.image), times(factors.dress)
    seen, whole = [image * dress], [mean_of(frame, image * dress)]
    if factors.dress:
        gone = mean_of(frame, dress)
        seen.append(image * gone)
        whole.append(mean_of(frame, image) * gone)
    picture, constant = np.array([seen, seen]), np.array(whole)
    for found in factors.package.values():
        values = times(found)
        mean = mean_of(frame, values)
        constant *= mean
        for u, rho in enumerate(frame.weights.exchange):
            picture[u] *= exchanged(values, mean, rho)
    shared = housing_line(frame, factors)
    own, together, window, means = housing_terms(frame, shared.tobytes())
    return YearTerms(picture, constant, own, together, window, means)


@lru_cache(maxsize=64)
def housing_terms(frame: Frame, shared: bytes) -> tuple[Array, Array, Array, Array]:
    """`own`, `together`, `window`, `mean` of the year terms; kept, since few findings change them.

    Args:
        frame: States and priors.
        shared: (Y,) what all housing classes share, as the bytes of its array.
    """
    own = np.frombuffer(shared) * frame.housing_years
    return own, own @ frame.lag.T, own @ frame.window.T, own @ frame.years


def housing_line(frame: Frame, factors: Factors) -> Array:
    """(Y,) what dates the housing, by its own year; pad and clasp perhaps exchanged."""
    line = times(factors.body)
    for part, found in factors.loose.items():
        values = times(found)
        line = line * exchanged(values, mean_of(frame, values), loose_rate(frame, part))
    return line


def loose_rate(frame: Frame, part: str) -> float:
    """How often pad or clasp is an exchange against the case body."""
    return frame.weights.pad if part == "pad" else frame.weights.clasp


def times(found: Sequence[Dated]) -> Array:
    """The product of lines, year by year."""
    return reduce(np.multiply, (one.values for one in found), ONES)


def exchanged(line: Array, mean: float, rho: float) -> Array:
    """A part's line when it is an exchange with probability rho."""
    return (1 - rho) * line + rho * mean


def own_ratio(frame: Frame, was: Array, now: Array, rho: float) -> Array:
    """How the line of a part that may be an exchange changes with its findings, year by year."""
    return exchanged(now, mean_of(frame, now), rho) / exchanged(was, mean_of(frame, was), rho)
