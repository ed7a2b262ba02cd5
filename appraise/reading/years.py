"""The terms of the joint table that depend on years: the picture's, the package's, the housing's.

I(y) of the picture, K_u(y) of the package, every part of which may be an exchange, and C_h(y) of
the housing, which is older than the picture by a lag (together), near it or anywhere (married), or
free of it (modern).
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import prod
from operator import mul, truediv

from appraise.reading.factors import Dated, Factors
from appraise.reading.frame import SPAN, Frame, Vector
from appraise.reading.stretches import Line, Stretch, lagged, whole, windowed

ONES: Vector = (1.0,) * SPAN


@dataclass(frozen=True, slots=True)
class Layers:
    """A likelihood of the housing by class: a level of one shared line, and more in a stretch.

    The levels stand with `Frame.housing_raised`.
    """

    base: Vector
    more: tuple[Stretch, ...]


@dataclass(frozen=True, slots=True)
class HousingTerms:
    """C_h(y), by housing class.

    Attributes:
        own: The housing's findings and years, by its own year.
        together, window: C for `together` and the near part of `married`, by the picture's year.
        mean: The constant SUM pi C.
    """

    own: Layers
    together: Layers
    window: Layers
    mean: Vector


@dataclass(frozen=True, slots=True)
class YearTerms:
    """The year-dependent terms of the joint table.

    Attributes:
        picture: I(y) K_u(y) for u undisturbed and disturbed.
        constant: The same averaged away, for a modern picture.
        housing: C_h(y).
    """

    picture: tuple[Vector, Vector]
    constant: float
    housing: HousingTerms


def year_terms(frame: Frame, factors: Factors) -> YearTerms:
    """I, K and C of the model, for every year and housing class."""
    image = times(factors.image)
    package = {part: times(found) for part, found in factors.package.items()}
    means = {part: mean_of(frame, line) for part, line in package.items()}
    picture = []
    for rho in frame.weights.exchange:
        line = image
        for part, values in package.items():
            line = tuple(map(mul, line, exchanged(values, means[part], rho)))
        picture.append(line)
    return YearTerms(
        picture=(picture[0], picture[1] if package else picture[0]),
        constant=mean_of(frame, image) * prod(means.values()),
        housing=_kept_terms(frame, housing_line(frame, factors)),
    )


@lru_cache(maxsize=8)
def _kept_terms(frame: Frame, shared: Vector) -> HousingTerms:
    """`housing_terms`, kept, since few findings change them."""
    return housing_terms(frame, shared)


def housing_terms(frame: Frame, shared: Vector) -> HousingTerms:
    """C by housing class, from what all classes share."""
    weights = frame.weights
    own = Layers(
        shared,
        tuple(
            Stretch(one.start, one.stop, list(map(mul, shared[one.start : one.stop], one.extra)))
            for one in frame.housing_raised
        ),
    )
    mean = mean_of(frame, shared)
    return HousingTerms(
        own=own,
        together=_layers(own, lambda line: lagged(line, weights.lags)),
        window=_layers(own, lambda line: windowed(line, weights.kappa_window)),
        mean=tuple(
            one.level * mean + sum(map(mul, frame.years[more.start : more.stop], more.values))
            for one, more in zip(frame.housing_raised, own.more, strict=True)
        ),
    )


def _layers(own: Layers, change: Callable[[Stretch], Stretch]) -> Layers:
    return Layers(tuple(change(whole(own.base)).values), tuple(change(more) for more in own.more))


def housing_line(frame: Frame, factors: Factors) -> Vector:
    """The dated findings on the housing by its own year, pad and clasp perhaps exchanged."""
    line = times(factors.body)
    for part, found in factors.loose.items():
        values = times(found)
        mean = mean_of(frame, values)
        line = tuple(map(mul, line, exchanged(values, mean, loose_rate(frame, part))))
    return line


def layered(frame: Frame, layers: Layers, weights: Sequence[float]) -> Line:
    """SUM over housing classes of weight times their layered line."""
    level = sum(w * one.level for w, one in zip(weights, frame.housing_raised, strict=True))
    line = [level * value for value in layers.base]
    for weight, more in zip(weights, layers.more, strict=True):
        part = slice(more.start, more.stop)
        line[part] = [a + weight * b for a, b in zip(line[part], more.values, strict=True)]
    return line


def layered_by_class(frame: Frame, layers: Layers) -> list[Line]:
    """The layered line of every housing class."""
    found = []
    for one, more in zip(frame.housing_raised, layers.more, strict=True):
        line = [one.level * value for value in layers.base]
        for place, value in enumerate(more.values, more.start):
            line[place] += value
        found.append(line)
    return found


def loose_rate(frame: Frame, part: str) -> float:
    """How often pad or clasp is an exchange against the case body."""
    return frame.weights.pad if part == "pad" else frame.weights.clasp


def times(found: Sequence[Dated]) -> Vector:
    """The product of dated findings, year by year."""
    line = ONES
    for dated in found:
        line = tuple(map(mul, line, dated.values)) if line is not ONES else dated.values
    return line


def mean_of(frame: Frame, line: Sequence[float]) -> float:
    """The mean of a line under the fixed prior over years."""
    return float(sum(map(mul, frame.years, line)))


def exchanged(line: Vector, mean: float, rho: float) -> Vector:
    """A part's likelihood when it is an exchange with probability rho."""
    stays, goes = 1 - rho, rho * mean
    return tuple([stays * value + goes for value in line])


def own_ratio(frame: Frame, was: Vector, now: Vector, rho: float) -> Vector:
    """How the line of a part that may be an exchange changes with its findings, year by year."""
    lines = [exchanged(line, mean_of(frame, line), rho) for line in (was, now)]
    return tuple(map(truediv, lines[1], lines[0]))
