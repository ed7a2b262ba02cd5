"""Many sets of further answers weighed at once in one joint table."""

from collections.abc import Iterator
from functools import reduce

import numpy as np

from appraise.reading.factors import Factors
from appraise.reading.frame import AXES, SPAN, Array, Places
from appraise.reading.joint import HOUSING, Joint, either, spread_over
from appraise.reading.years import Lines, lines_of, year_sums, year_terms

AT_ONCE = 12  # sets weighed at once, so that their arrays stay in the cache
ALIVE = 2e-4  # housings and processes less likely than that in the table are left out


class Batch:
    """A joint table to which each of N sets of answers is added.

    The sums are those of the table itself, over the housings and processes that are still likely.
    """

    def __init__(self, joint: Joint, factors: Factors, count: int) -> None:
        """Prepare.

        Args:
            joint: The table so far.
            factors: The evidence in it.
            count: N, how many sets of answers.
        """
        self._frame, self._count = joint.frame, count
        self._tables: dict[tuple[str, ...], Array] = {}
        ones, lines = np.ones((count, SPAN)), lines_of(factors)
        self._side = {"image": ones * lines.image, "housing": ones * lines.body}
        self._side["dress"] = ones if lines.dress is None else ones * lines.dress
        self._package = {part: ones * line for part, line in lines.package.items()}
        self._loose = {part: ones * line for part, line in lines.loose.items()}
        weights = joint.by_state / joint.total
        self._m = np.flatnonzero(weights.sum(axis=(0, 2, 3)) >= ALIVE)
        self._p = np.flatnonzero(weights.sum(axis=(0, 1, 3)) >= ALIVE)
        prior = joint.prior * joint.altering
        self._prior = prior.take(self._m, axis=HOUSING).take(self._p, axis=HOUSING + 1)

    def add_table(self, axes: tuple[str, ...], rows: Array, places: Places) -> None:
        """Multiply in one answer of a check over states for each set.

        Args:
            axes: The axes that it bears on.
            rows: (answers, *states) P'(answer | states).
            places: (N,) the answers; NO_ANSWER where there is none.
        """
        for axis, alive in (("housing", self._m), ("process", self._p)):
            if axis in axes:
                rows = rows.take(alive, axis=1 + axes.index(axis))
        chosen = _chosen(rows, places)
        old = self._tables.get(axes)
        self._tables[axes] = chosen if old is None else old * chosen

    def add_line(self, side: str, part: str, rows: Array, places: Places) -> None:
        """Multiply in one answer of a dated check for each set.

        Args:
            side: Where the part counts.
            part: The part.
            rows: (answers, Y) P'(answer | year).
            places: (N,) the answers; NO_ANSWER where there is none.
        """
        chosen = _chosen(rows, places)
        if side in ("package", "loose"):
            parts = self._package if side == "package" else self._loose
            parts[part] = parts[part] * chosen if part in parts else chosen
        else:
            self._side[side] = self._side[side] * chosen

    def states(self) -> Array:
        """(N, 5) P(h) after all that was added."""
        some = (slice(start, start + AT_ONCE) for start in range(0, self._count, AT_ONCE))
        return np.concatenate([self._states(few) for few in some])

    def _states(self, few: slice) -> Array:
        """The same for a few of the sets."""
        side = {name: line[few] for name, line in self._side.items()}
        package = {part: line[few] for part, line in self._package.items()}
        loose = {part: line[few] for part, line in self._loose.items()}
        lines = Lines(side["image"], side["dress"], package, side["housing"], loose)
        frame = self._frame
        housings, processes = frame.housing_years[self._m], frame.process_years[self._p]
        sums = year_sums(year_terms(frame, lines, housings, processes))
        weights = np.einsum("ncumph,ncumph->nh", self._cells(few), sums)
        found: Array = weights / weights.sum(axis=1, keepdims=True)
        return found

    def _cells(self, few: slice) -> Array:
        """(N, 2, 2, M, P, 5) what each cell holds apart from the sum over years.

        What bears on no housing is multiplied first, so that few arrays have all axes.
        """
        prior = self._prior
        free = reduce(np.multiply, self._wide(few, housed=False), np.ones((1,) * 7))
        housed = reduce(np.multiply, self._wide(few, housed=True), np.ones((1,) * 7))
        if housed.shape[1] == 1:
            found = prior[0] * free[:, 0]
            found += prior[1] * free[:, -1]
            return found * housed[:, 0]
        return either((prior * free * housed).swapaxes(0, 1))

    def _wide(self, few: slice, housed: bool) -> Iterator[Array]:
        """What was added for checks that bear on the housing, or do not, over (N, *AXES)."""
        for axes, table in self._tables.items():
            if (AXES[HOUSING] in axes) == housed:
                yield table[few].reshape(-1, *spread_over(axes, table.shape[1:]))


def _chosen(rows: Array, places: Places) -> Array:
    """(N, ...) the row of each answer, ones where there is none."""
    found: Array = np.concatenate([rows, np.ones((1, *rows.shape[1:]))])[places]
    return found
