"""The table that an answer not yet given would be weighed against, laid out for quick sums."""

from collections.abc import Mapping, Sequence
from functools import cached_property
from itertools import product
from operator import mul

from appraise.knowledge.records import BELONGING
from appraise.reading.factors import Factor, Factors
from appraise.reading.frame import Vector
from appraise.reading.joint import Joint
from appraise.reading.lines import YearLines
from appraise.reading.unknowns import UNKNOWN

COMMON = 0.03  # processes less likely than that are taken together when they are told apart
STATES = len(BELONGING)


class Ground:
    """A joint table and what is summed from it again and again.

    Weights go by (process, state of belonging) as one flat list, the state fastest.
    """

    def __init__(self, joint: Joint, factors: Factors, lines: YearLines | None = None) -> None:
        self.joint = joint
        self.factors = factors
        self._lines = lines

    @cached_property
    def lines(self) -> YearLines:
        """The table by years."""
        return self._lines or YearLines(self.joint)

    @cached_property
    def states(self) -> Vector:
        """P(h)."""
        sums = [sum(self.flat[h::STATES]) for h in range(STATES)]
        return tuple(value / self.joint.total for value in sums)

    @cached_property
    def flat(self) -> list[float]:
        """Weights by (process, state)."""
        return [
            cell[2 * h] + cell[2 * h + 1] for cell in self.joint.by_process for h in range(STATES)
        ]

    @cached_property
    def _by_package(self) -> tuple[list[float], list[float]]:
        cells = self.joint.by_process
        return (
            [cell[2 * h] for cell in cells for h in range(STATES)],
            [cell[2 * h + 1] for cell in cells for h in range(STATES)],
        )

    @cached_property
    def shared(self) -> list[YearLines]:
        """The table by years for each common process."""
        chosen = [
            place
            for place, cell in enumerate(self.joint.by_process)
            if sum(cell) >= COMMON * self.joint.total
        ]
        return [YearLines(self.joint, (place,)) for place in chosen]

    def with_table(self, factor: Factor) -> list[float] | None:
        """Weights by (process, state) once a factor over states is multiplied in.

        None where the factor ties the unknowns in a way that only the whole table can tell.
        """
        if set(factor.axes) & set(UNKNOWN):
            summed = self._over_unknown(factor)
            if summed is None:
                return None
            factor = summed
        if "housing" in factor.axes:
            return self._over_housing(factor)
        if "package" in factor.axes:
            pair = (
                map(mul, weights, self._spread(factor, 0, u))
                for u, weights in enumerate(self._by_package)
            )
            return [a + b for a, b in zip(*pair, strict=True)]
        return list(map(mul, self.flat, self._spread(factor, 0, 0)))

    def _spread(self, factor: Factor, m: int, u: int) -> list[float]:
        """A factor by (process, state) for one housing and package state."""
        values, p_step, h_step = factor.values, factor.stride("process"), factor.stride("belonging")
        first = m * factor.stride("housing") + u * factor.stride("package")
        count = len(self.joint.by_process)
        if not p_step:
            return [values[first + h * h_step] for h in range(STATES)] * count
        return [
            values[first + p * p_step + h * h_step] for p in range(count) for h in range(STATES)
        ]

    def _over_housing(self, factor: Factor) -> list[float]:
        sums = [0.0] * len(self.flat)
        for m, rows in enumerate(self.joint.cells):
            for u in (0, 1):
                weights = [cell[2 * h + u] for cell in rows for h in range(STATES)]
                spread = self._spread(factor, m, u)
                sums = [a + b * c for a, b, c in zip(sums, weights, spread, strict=True)]
        return sums

    def _over_unknown(self, factor: Factor) -> Factor | None:
        """A factor that bears on one of the further unknowns, summed over that unknown."""
        bearing = [axis for axis in UNKNOWN if axis in factor.axes]
        tied = self.joint.unknowns
        if len(bearing) > 1:
            return None
        yes = tied.yes[UNKNOWN.index(bearing[0])]
        frame = self.joint.frame
        axes: tuple[str, ...] = tuple(
            axis
            for axis in ("housing", "process", "belonging", "package")
            if axis in factor.axes or axis in tied.factor.axes
        )
        shape = tuple(len(frame.states(axis)) for axis in axes)
        step = factor.stride(bearing[0])
        values = []
        for states in product(*(range(size) for size in shape)):
            at: Mapping[str, int] = dict(zip(axes, states, strict=True))
            chance = yes[tied.factor.place(at)]
            no = factor.place(at)
            values.append((1 - chance) * factor.values[no] + chance * factor.values[no + step])
        return Factor(axes, shape, tuple(values))


def by_state(weights: Sequence[float]) -> list[float]:
    """Weights by (process, state) summed over the processes."""
    return [sum(weights[h::STATES]) for h in range(STATES)]
