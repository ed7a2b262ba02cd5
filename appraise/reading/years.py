"""The terms of the joint table that depend on years: the picture's, the package's, the housing's.

I(y) of the picture, K_u(y) of the package, every part of which may be an exchange, and C_h(y) of
the housing, which is older than the picture by a lag (together), near it or anywhere (married), or
free of it (modern). What the sitter wears dates the sitting: of a period copy it says nothing about
the copy's own year. All arrays may have further axes in front, for many pieces at once.
"""

from collections.abc import Mapping, Sequence
from functools import reduce

import numpy as np

from appraise.base.dataclass import dataclass
from appraise.knowledge.records import Weights
from appraise.reading.factors import Dated, Factors
from appraise.reading.frame import SPAN, Array, Frame

ONES = np.ones(SPAN)
TOGETHER, MARRIED, MODERN_CASE, MODERN_IMAGE, ALL_MODERN = range(5)


@dataclass(frozen=True, slots=True, eq=False)
class Lines:
    """What dates a piece, by where it counts: lines (..., Y), each a product of likelihoods."""

    image: Array
    dress: Array | None
    package: Mapping[str, Array]
    body: Array
    loose: Mapping[str, Array]


@dataclass(frozen=True, slots=True, eq=False)
class YearTerms:
    """The year-dependent terms of the joint table; Y years, M housing classes.

    Attributes:
        picture: (..., C, 2, Y) I(y) K_u(y) by copy and package state; C is 1 where copies do not
            matter.
        package: (..., 2, Y) K_u(y) alone.
        constant: (..., C) I(y) K_u(y) averaged away, for a modern picture.
        seen: (..., P, C, 2, Y) pi_p I K_u, the years of a picture of its period.
        own: (..., M, Y) the housing's findings and years, by its own year.
        near: (..., M, 3, Y) C by the picture's year, for `together`, `married` and, a constant,
            `modern-case`.
    """

    picture: Array
    package: Array
    constant: Array
    seen: Array
    own: Array
    near: Array

    @property
    def mean(self) -> Array:
        """(..., M) the constant SUM pi C."""
        found: Array = self.near[..., MODERN_CASE, 0]
        return found


def lines_of(factors: Factors) -> Lines:
    """The dated evidence of a piece as lines."""
    return Lines(
        image=times(factors.image),
        dress=times(factors.dress) if factors.dress else None,
        package={part: times(found) for part, found in factors.package.items()},
        body=times(factors.body),
        loose={part: times(found) for part, found in factors.loose.items()},
    )


def year_terms(frame: Frame, lines: Lines, housings: Array, processes: Array) -> YearTerms:
    """I, K and C of the model, for every year and housing class.

    Args:
        frame: States and priors.
        lines: What dates the piece.
        housings: (M, Y) the years of the housing classes that count.
        processes: (P, Y) the priors over years of the processes that count.
    """
    picture = picture_terms(frame, lines, processes)
    return YearTerms(*picture, *housing_terms(frame, lines, housings))


def picture_terms(
    frame: Frame, lines: Lines, processes: Array
) -> tuple[Array, Array, Array, Array]:
    """What picture and package give of `YearTerms`: picture, package, constant and seen."""
    years = frame.years
    seen = lines.image[..., None, :]
    if lines.dress is not None:
        gone = np.broadcast_to((lines.dress @ years)[..., None], lines.dress.shape)
        seen = seen * np.stack([lines.dress, gone], axis=-2)
    whole, package = seen @ years, np.ones((2, SPAN))
    if lines.package:
        each = np.stack(list(lines.package.values()))
        means = (each @ years)[..., None]
        whole = whole * means.prod(axis=0)
        rates = np.array(frame.weights.exchange)[:, None]
        package = exchanged(each[..., None, :], means, rates).prod(axis=0)
    picture = seen[..., :, None, :] * package[..., None, :, :]
    return picture, package, whole, processes[:, None, None] * picture[..., None, :, :, :]


def housing_terms(frame: Frame, lines: Lines, housings: Array) -> tuple[Array, Array]:
    """What the housing gives of `YearTerms`: own and near."""
    own = housing_line(frame, lines)[..., None, :] * housings
    near = np.empty((*own.shape[:-1], MODERN_IMAGE, SPAN))
    tied = own @ frame.kernels.reshape(SPAN, -1)
    near[..., :MODERN_CASE, :] = tied.reshape(*own.shape[:-1], MODERN_CASE, SPAN)
    near[..., MODERN_CASE, :] = (own @ frame.years)[..., None]
    return own, near


def year_sums(terms: YearTerms) -> Array:
    """SUM over years of pi_p I K_u C_h as (..., C, 2, M, P, 5)."""
    near, seen = terms.near, terms.seen
    *front, count, layers, _ = near.shape
    processes, *sides = seen.shape[-4:-1]
    lines = near.reshape(*front, count * layers, SPAN)
    dated = lines @ seen.reshape(*front, -1, SPAN).swapaxes(-1, -2)
    dated = dated.reshape(*front, count, layers, processes, *sides)
    sums = np.empty((*front, *sides, count, processes, ALL_MODERN + 1))
    sums[..., :layers] = np.moveaxis(dated, (-2, -1, -4), (-5, -4, -1))
    modern = terms.constant[..., :, None] * terms.mean[..., None, :]  # C, M
    sums[..., MODERN_IMAGE:] = modern[..., :, None, :, None, None]
    return sums


def housing_line(frame: Frame, lines: Lines) -> Array:
    """(..., Y) what dates the housing, by its own year; pad and clasp perhaps exchanged."""
    found = lines.body
    for part, line in lines.loose.items():
        found = found * exchanged(line, line @ frame.years, loose_rate(frame.weights, part))
    return found


def loose_rate(weights: Weights, part: str) -> float:
    """How often pad or clasp is an exchange against the case body."""
    return weights.pad if part == "pad" else weights.clasp


def times(found: Sequence[Dated]) -> Array:
    """The product of lines, year by year."""
    return reduce(np.multiply, [one.values for one in found]) if found else ONES


def exchanged(line: Array, mean: Array | float, rho: float | Array) -> Array:
    """A part's line when it is an exchange with probability rho."""
    return (1 - rho) * line + rho * np.asarray(mean)[..., None]


def own_ratio(frame: Frame, was: Array, now: Array, rho: float | Array) -> Array:
    """How the line of a part that may be an exchange changes with its findings, year by year."""
    return exchanged(now, now @ frame.years, rho) / exchanged(was, was @ frame.years, rho)
