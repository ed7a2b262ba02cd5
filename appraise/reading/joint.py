"""The joint table of a piece: housing, process, belonging, package, copy, altered and year.

    J = P(m) P(p) P(h | m, p, channel) P(u) P(c) P(a) pi_p(y) * tables * I_c(y) K_u(y) C_h(y)

over housing class m, process p, how the piece came together h, package undisturbed or disturbed u,
period copy of an older picture or not c, added to or altered or not a, and the picture's year y.
Nothing is sampled and nothing is left out. A piece without a housing has one nameless class, and is
either of its period or modern. The tables are those of an ordinary piece and, with a small chance,
those of a piece whose signs are odd together: a mixture over one more unknown, summed at once.
"""

from collections.abc import Sequence
from functools import cached_property, lru_cache, reduce
from math import log

import numpy as np

from appraise.base.dataclass import dataclass
from appraise.reading.factors import INDIFFERENT, Factors
from appraise.reading.frame import AXES, Array, Frame, unaltered_cells
from appraise.reading.years import (
    MODERN_IMAGE,
    YearTerms,
    housing_terms,
    lines_of,
    picture_terms,
    year_sums,
    year_terms,
)

HOUSING = AXES.index("housing")
UNLIKELY = log(1e-4)  # an odd piece that weighs less than this beside an ordinary one is left out
PERIOD = MODERN_IMAGE  # the states of which the picture is of its period come first


@dataclass(frozen=True, eq=False)
class Joint:
    """The joint table after the evidence, over `AXES`.

    Attributes:
        frame: The states it is over.
        prior: (2, 2, M, P, 5) what each cell holds apart from the sum over years, altered or not.
        altering: P(altered | cell) over `AXES`, with 1 for those that it does not depend on.
        weights: (2, 2, M, P, 5) each cell's weight, not normalised.
        total: Their sum: P(evidence), up to the model's constants.
        terms: The terms that depend on years.
        sums: (C, 2, M, P, 5) each cell's sum over years.
        by_state: Weights over (package, housing, process, belonging).
        oddly: `prior` and `altering` of the part of the pieces that are odd all over, where they
            weigh at all.
    """

    frame: Frame
    prior: Array
    altering: Array
    weights: Array
    total: float
    terms: YearTerms
    sums: Array
    by_state: Array
    oddly: tuple[Array, Array] | None = None

    @cached_property
    def cells(self) -> Array:
        """Weights over `AXES`."""
        found: Array = self.weights * self.altering
        return found

    @cached_property
    def odd_cells(self) -> Array | None:
        """The part of `cells` that is of pieces odd all over; None where it does not weigh."""
        if self.oddly is None:
            return None
        prior, altering = self.oddly
        found: Array = prior * self.sums * altering
        return found

    @property
    def copy(self) -> float:
        """P(a period copy of an older picture)."""
        return float(self.weights[1].sum() / self.total)

    @cached_property
    def altered(self) -> float:
        """P(added to or altered later)."""
        yes = self.altering[1]
        if yes.size == yes.shape[-1]:
            return float((yes.ravel() * self.states).sum())
        return float((self.weights * yes).sum() / self.total)

    @cached_property
    def by_belonging(self) -> Array:
        """(M, P, 5) weights whatever the package's state."""
        return either(self.by_state)

    @cached_property
    def states(self) -> Array:
        """P(h) over `BELONGING`."""
        found: Array = self.by_belonging.reshape(-1, self.by_belonging.shape[-1]).sum(axis=0)
        return found / self.total


def solve(frame: Frame, factors: Factors, channel: str, subjects: Sequence[str]) -> Joint:
    """The joint table after the evidence.

    Args:
        frame: States and priors of the piece's kind and region.
        factors: The evidence.
        channel: Where the piece is met; moves the chances of modern parts.
        subjects: What it shows; soldiers and famous sitters move the chance of a modern picture.
    """
    terms = year_terms(frame, lines_of(factors), frame.housing_years, frame.process_years)
    return _table(frame, factors, frame.modern(channel, subjects), terms, year_sums(terms))


def resolved(
    joint: Joint, before: Factors, factors: Factors, channel: str, subjects: Sequence[str]
) -> Joint:
    """The same as `solve` for evidence a little other than `before`, from its joint table."""
    frame, was, lines = joint.frame, joint.terms, lines_of(factors)
    picture = was.picture, was.package, was.constant, was.seen
    housing = was.own, was.near
    same = factors.image, factors.dress, factors.package
    if same != (before.image, before.dress, before.package):
        picture = picture_terms(frame, lines, frame.process_years)
    if (factors.body, factors.loose) != (before.body, before.loose):
        housing = housing_terms(frame, lines, frame.housing_years)
    terms = YearTerms(*picture, *housing)
    moved = terms.seen is not was.seen or terms.near is not was.near
    sums = year_sums(terms) if moved else joint.sums
    return _table(frame, factors, frame.modern(channel, subjects), terms, sums)


def _table(
    frame: Frame, factors: Factors, modern: tuple[float, float], terms: YearTerms, sums: Array
) -> Joint:
    oddly = None
    prior, altering = prior_cells(frame, factors, modern)
    if (chance := frame.weights.odd.chance) and may_be_odd(factors, chance):
        odd, odd_altering = prior_cells(frame, factors, modern, odd=True)
        oddly = (chance * odd, odd_altering)
        prior = (1 - chance) * prior + oddly[0]
        share = np.divide(oddly[0], prior, out=np.zeros_like(prior), where=prior > 0)
        altering = altering + share * (odd_altering - altering)
    weights = prior * sums
    by_state = either(weights)
    total = float(by_state.sum())
    return Joint(frame, prior, altering, weights, total, terms, sums, by_state, oddly)


def may_be_odd(factors: Factors, chance: float) -> bool:
    """Whether a piece that is odd all over could weigh at all beside an ordinary one."""
    return log(chance) + sum(factor.most for factor in factors.tables.values()) > UNLIKELY


def prior_cells(
    frame: Frame, factors: Factors, modern: tuple[float, float], odd: bool = False
) -> tuple[Array, Array]:
    """`prior` and `altering` of a `Joint`: all that does not depend on the year.

    Args:
        frame: States and priors.
        factors: The evidence.
        modern: The chances of modern parts.
        odd: Of a piece whose signs are odd together, and not of an ordinary one.
    """
    by_axes: dict[tuple[str, ...], list[Array]] = {}
    for factor in factors.tables.values():
        by_axes.setdefault(factor.axes, []).append(factor.odd if odd else factor.values)
    if factors.belonging is not INDIFFERENT:
        by_axes.setdefault(("belonging",), []).append(np.array(factors.belonging))
    free, altering = list[Array](), [frame.reference(AXES[0]).reshape(2, 1, 1, 1, 1, 1)]
    for axes, found in by_axes.items():
        grouped = np.multiply.reduce(found) if len(found) > 1 else found[0]
        grouped = grouped.reshape(spread_over(axes, grouped.shape))
        if AXES[0] in axes:
            altering.append(grouped)
        else:
            free.append(grouped[0])
    free.sort(key=lambda one: (one.shape[HOUSING - 1], one.size))  # what has all axes comes last
    both: Array = reduce(np.multiply, altering)
    summed = either(both)
    return unaltered_cells(frame, modern) * reduce(np.multiply, free, summed), both / summed


def either(cells: Array) -> Array:
    """The sum over a first axis of two; numpy is slow at summing so short an axis."""
    found: Array = cells[0] + cells[1]
    return found


@lru_cache(maxsize=256)
def spread_over(axes: tuple[str, ...], shape: tuple[int, ...]) -> tuple[int, ...]:
    """The shape of an array over some axes, with 1 for every other of `AXES`."""
    sizes = dict(zip(axes, shape, strict=True))
    return tuple(sizes.get(axis, 1) for axis in AXES)


def axis_numbers(axes: tuple[str, ...]) -> tuple[int, ...]:
    """The places of axes among `AXES`."""
    return tuple(AXES.index(axis) for axis in axes)
