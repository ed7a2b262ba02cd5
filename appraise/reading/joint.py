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
from appraise.reading.frame import AXES, Array, Frame, base_cells
from appraise.reading.years import MODERN_IMAGE, YearTerms, lines_of, year_sums, year_terms

PERIOD = MODERN_IMAGE  # the states of which the picture is of its period come first


@dataclass(frozen=True, eq=False)
class Joint:
    """The joint table after the evidence, over `AXES`.

    Attributes:
        frame: The states it is over.
        prior: What each cell holds apart from the sum over years.
        seen: (M, P, 5, 2, 2) the same over all but `altered`, on which no year depends.
        weights: seen times each cell's sum over years, not normalised.
        total: Their sum: P(evidence), up to the model's constants.
        terms: The terms that depend on years.
        sums: (M, P, 5, 2, C) each cell's sum over years.
        by_state: Weights over (housing, process, belonging, package).
    """

    frame: Frame
    prior: Array
    seen: Array
    weights: Array
    total: float
    terms: YearTerms
    sums: Array
    by_state: Array

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
        return float((self.prior[..., 1] * self.sums).sum() / self.total)

    @property
    def states(self) -> Array:
        """P(h) over `BELONGING`."""
        each = self.by_state.reshape(-1, *self.by_state.shape[2:]).sum(axis=0)
        found: Array = either(each) / self.total
        return found


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
    prior = prior_cells(frame, factors, modern)
    seen = either(prior)
    weights = seen * sums
    by_state = either(weights)
    return Joint(frame, prior, seen, weights, float(by_state.sum()), terms, sums, by_state)


def prior_cells(frame: Frame, factors: Factors, modern: tuple[float, float]) -> Array:
    """Every cell's prior times the evidence that does not depend on the year."""
    by_axes: dict[tuple[str, ...], list[Array]] = {}
    for factor in factors.tables.values():
        by_axes.setdefault(factor.axes, []).append(factor.values)
    if factors.belonging is not INDIFFERENT:
        by_axes.setdefault(("belonging",), []).append(np.array(factors.belonging))
    grouped = [
        np.multiply.reduce(found).reshape(spread_over(axes, found[0].shape))
        for axes, found in by_axes.items()
    ]
    small = reduce(np.multiply, sorted(grouped, key=lambda one: one.size), np.ones((1,) * 6))
    return base_cells(frame, modern) * small


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
