"""Many sets of further answers weighed at once in one joint table."""

from functools import reduce

import numpy as np

from appraise.reading.factors import Factors
from appraise.reading.frame import AXES, SPAN, Array
from appraise.reading.joint import MODERN_CASE, MODERN_IMAGE, Joint, axis_numbers
from appraise.reading.simulation import Places
from appraise.reading.years import loose_rate, times

ALIVE = 1e-5  # housings and processes less likely than that in the table are left out


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
        self._joint, self._frame, self._count = joint, joint.frame, count
        self._tables: dict[tuple[str, ...], Array] = {}
        ones = np.ones((count, SPAN))
        self._image, self._dress = ones * times(factors.image), ones * times(factors.dress)
        self._body = ones * times(factors.body)
        self._package = {part: ones * times(one) for part, one in factors.package.items()}
        self._loose = {part: ones * times(one) for part, one in factors.loose.items()}
        weights = joint.by_state / joint.total
        self._m = np.flatnonzero(weights.sum(axis=(1, 2, 3)) >= ALIVE)
        self._p = np.flatnonzero(weights.sum(axis=(0, 2, 3)) >= ALIVE)

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
        elif side == "image":
            self._image = self._image * chosen
        elif side == "dress":
            self._dress = self._dress * chosen
        else:
            self._body = self._body * chosen

    def states(self) -> Array:
        """(N, 5) P(h) after all that was added."""
        prior = self._joint.prior[np.ix_(self._m, self._p)][None]
        for axes, table in sorted(self._tables.items(), key=lambda item: item[1].size):
            shape = [self._count] + [1] * len(AXES)
            for size, place in zip(table.shape[1:], axis_numbers(axes), strict=True):
                shape[1 + place] = size
            prior = prior * table.reshape(shape)
        weights = (prior.sum(axis=6) * self._sums()).sum(axis=(1, 2, 4, 5))
        found: Array = weights / weights.sum(axis=1, keepdims=True)
        return found

    def _sums(self) -> Array:
        """(N, M, P, 5, 2, 2) each cell's sum over years."""
        frame = self._frame
        picture, constant = self._picture()
        own = self._housing()[:, None, :] * frame.housing_years[self._m]
        mean = own @ frame.years  # (N, M)
        kappa = frame.weights.kappa
        near = np.concatenate([own @ frame.lag.T, own @ frame.window.T], axis=1)
        lines = picture[:, :, :, None, :] * near[:, None, None]
        processes = frame.process_years[self._p].T
        dated = (lines.reshape(-1, SPAN) @ processes).reshape(
            self._count, 2, 2, 2, len(self._m), -1
        )
        dated = dated.transpose(0, 3, 4, 5, 1, 2)  # (N, layer, M, P, 2, 2)
        alone = (picture @ processes).transpose(0, 3, 1, 2)  # (N, P, 2, 2)
        free = mean[:, :, None, None, None] * alone[:, None]
        modern = mean[:, :, None] * constant[:, None]  # (N, M, 2)
        sums = np.empty((*free.shape[:3], 5, 2, 2))
        sums[:, :, :, 0] = dated[:, 0]
        sums[:, :, :, 1] = kappa * dated[:, 1] + (1 - kappa) * free
        sums[:, :, :, MODERN_CASE] = free
        sums[:, :, :, MODERN_IMAGE:] = modern[:, :, None, None, None, :]
        return sums

    def _picture(self) -> tuple[Array, Array]:
        """(N, 2, 2, Y) I K_u by package state and copy, and (N, 2) its constant."""
        frame = self._frame
        gone = self._dress @ frame.years
        plain, copied = self._image * self._dress, self._image * gone[:, None]
        constant = np.stack([plain @ frame.years, copied @ frame.years], axis=1)
        picture = np.stack([plain, copied], axis=1)[:, None].repeat(2, axis=1)
        for line in self._package.values():
            mean = line @ frame.years
            constant = constant * mean[:, None]
            for u, rho in enumerate(frame.weights.exchange):
                picture[:, u] *= ((1 - rho) * line + rho * mean[:, None])[:, None]
        return picture, constant

    def _housing(self) -> Array:
        """(N, Y) what all housing classes share."""

        def kept(part: str, line: Array) -> Array:
            rho = loose_rate(self._frame, part)
            found: Array = (1 - rho) * line + rho * (line @ self._frame.years)[:, None]
            return found

        lines = (kept(part, line) for part, line in self._loose.items())
        return reduce(np.multiply, lines, self._body)


def _chosen(rows: Array, places: Places) -> Array:
    """(N, ...) the row of each answer, ones where there is none."""
    found: Array = np.concatenate([rows, np.ones((1, *rows.shape[1:]))])[places]
    return found
