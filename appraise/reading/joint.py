"""The joint table of a piece: housing, process, belonging, package, copy, altered and year.

    J = P(m) P(p) P(h | m, p, channel) P(u) P(c) P(a) pi_p(y) * tables * I_c(y) K_u(y) C_h(y)

over housing class m, process p, how the piece came together h, package undisturbed or disturbed u,
period copy of an older picture or not c, added to or altered or not a, and the picture's year y.
Nothing is sampled and nothing is left out. A piece without a housing has one nameless class, and is
either of its period or modern.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property, reduce

import numpy as np

from appraise.reading.factors import INDIFFERENT, Factors
from appraise.reading.frame import AXES, Array, Frame, unaltered_cells
from appraise.reading.years import MODERN_IMAGE, YearTerms, lines_of, year_sums, year_terms

PERIOD = MODERN_IMAGE  # the states of which the picture is of its period come first


@dataclass(frozen=True, eq=False)
class Joint:
    """The joint table after the evidence, over `AXES`.

    Attributes:
        frame: The states it is over.
        free: (M, P, 5, 2, 2) what each cell holds apart from the sum over years, without `altered`.
        altering: Over `AXES`, as far as it depends on them: what `altered` adds.
        weights: (M, P, 5, 2, 2) each cell's weight, not normalised.
        total: Their sum: P(evidence), up to the model's constants.
        terms: The terms that depend on years.
        sums: (M, P, 5, 2, C) each cell's sum over years.
        by_state: Weights over (housing, process, belonging, package).
    """

    frame: Frame
    free: Array
    altering: Array
    weights: Array
    total: float
    terms: YearTerms
    sums: Array
    by_state: Array

    @cached_property
    def prior(self) -> Array:
        """What each cell over `AXES` holds apart from the sum over years."""
        found: Array = self.free[..., None] * self.altering
        return found

    @cached_property
    def seen(self) -> Array:
        """(M, P, 5, 2, 2) the same over all but `altered`, on which no year depends."""
        found: Array = self.free * either(self.altering)
        return found

    @cached_property
    def cells(self) -> Array:
        """Weights over `AXES`."""
        found: Array = self.prior * self.sums[..., None]
        return found

    @property
    def copy(self) -> float:
        """P(a period copy of an older picture)."""
        return float(self.weights[..., 1].sum() / self.total)

    @cached_property
    def altered(self) -> float:
        """P(added to or altered later)."""
        share = self.altering[..., 1] / either(self.altering)
        return float((self.weights * share).sum() / self.total)

    @cached_property
    def by_belonging(self) -> Array:
        """(M, P, 5) weights whatever the package's state."""
        return either(self.by_state)

    @cached_property
    def states(self) -> Array:
        """P(h) over `BELONGING`."""
        found: Array = self.by_belonging.reshape(-1, self.by_belonging.shape[2]).sum(axis=0)
        return found / self.total


def solve(frame: Frame, factors: Factors, channel: str, subjects: Sequence[str]) -> Joint:
    """The joint table after the evidence.

    Args:
        frame: States and priors of the piece's kind and region.
        factors: The evidence.
        channel: Where the piece is met; moves the chances of modern parts.
        subjects: What it shows; soldiers and famous sitters move the chance of a modern picture.
    """
    terms = year_terms(frame, lines_of(factors), frame.housing_years)
    sums = year_sums(terms, frame.process_years)
    return _table(frame, factors, frame.modern(channel, subjects), terms, sums)


def resolved(joint: Joint, factors: Factors, channel: str, subjects: Sequence[str]) -> Joint:
    """The same as `solve` where nothing but the evidence over states is another."""
    modern = joint.frame.modern(channel, subjects)
    return _table(joint.frame, factors, modern, joint.terms, joint.sums)


def _table(
    frame: Frame, factors: Factors, modern: tuple[float, float], terms: YearTerms, sums: Array
) -> Joint:
    free, altering = prior_cells(frame, factors, modern)
    weights = free * either(altering) * sums
    by_state = either(weights)
    return Joint(frame, free, altering, weights, float(by_state.sum()), terms, sums, by_state)


def prior_cells(frame: Frame, factors: Factors, modern: tuple[float, float]) -> tuple[Array, Array]:
    """Every cell's prior times the evidence that does not depend on the year.

    Without `altered`, and what that adds: they multiply into all of it.
    """
    by_axes: dict[tuple[str, ...], list[Array]] = {}
    for factor in factors.tables.values():
        by_axes.setdefault(factor.axes, []).append(factor.values)
    if factors.belonging is not INDIFFERENT:
        by_axes.setdefault(("belonging",), []).append(np.array(factors.belonging))
    free, altering = [np.ones((1,) * 6)], [frame.reference(AXES[-1]).reshape(1, 1, 1, 1, 1, 2)]
    for axes, found in by_axes.items():
        grouped = np.multiply.reduce(found).reshape(spread_over(axes, found[0].shape))
        (altering if AXES[-1] in axes else free).append(grouped)
    free.sort(key=lambda one: (one.shape[0], one.size))  # what has all axes comes last
    cells = unaltered_cells(frame, modern) * reduce(np.multiply, free)[..., 0]
    return cells, reduce(np.multiply, altering)


def either(cells: Array) -> Array:
    """The sum over a last axis of two; numpy is slow at summing so short an axis."""
    found: Array = cells[..., 0] + cells[..., 1]
    return found


def spread_over(axes: tuple[str, ...], shape: Sequence[int]) -> list[int]:
    """The shape of an array over some axes, with 1 for every other of `AXES`."""
    sizes = dict(zip(axes, shape, strict=True))
    return [sizes.get(axis, 1) for axis in AXES]


def axis_numbers(axes: tuple[str, ...]) -> tuple[int, ...]:
    """The places of axes among `AXES`."""
    return tuple(AXES.index(axis) for axis in axes)
