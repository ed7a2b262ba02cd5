"""P(h) once a great many answers are in at once, by the cells that are left alive.

The same sums as the joint table's, for cases in which most housings and processes have become so
unlikely that they no longer count.
"""

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from itertools import accumulate
from operator import mul

from appraise.knowledge.records import BELONGING, Check, Knowledge
from appraise.reading.factors import Factor, Factors, side_of
from appraise.reading.frame import Vector
from appraise.reading.joint import PAIRS, Joint, spreads
from appraise.reading.years import (
    exchanged,
    housing_terms,
    layered_by_class,
    loose_rate,
    mean_of,
    times,
)

KEPT = 0.999  # of the table before its sums over years: the likeliest cells that make it up
MAIN = ("housing", "process", "belonging", "package")
STATES = len(BELONGING)


class Quick:
    """A joint table to which many answers are added at once, again and again."""

    def __init__(self, joint: Joint, factors: Factors, knowledge: Knowledge) -> None:
        """Prepare.

        Args:
            joint: The table so far.
            factors: The evidence in it.
            knowledge: For the sides of the parts.
        """
        self._joint = joint
        self._knowledge = knowledge
        parts = {**factors.package, **factors.loose}
        self._parts = {part: times(found) for part, found in parts.items()}
        self._image = times(factors.image)
        self._body = times(factors.body)

    def states(self, tables: Sequence[Factor], dated: Iterable[tuple[Check, Vector]]) -> Vector:
        """P(h) after further evidence.

        Args:
            tables: Factors over states of the table.
            dated: Checks with their answer's likelihood by year.
        """
        frame = self._joint.frame
        alive = self._alive(tables)
        picture, constant, shared = self._lines(dated)
        kappa = frame.weights.kappa
        terms = housing_terms(frame, shared)
        together = layered_by_class(frame, terms.together)
        window = layered_by_class(frame, terms.window)
        years = {
            p: [list(map(mul, frame.process_years[p], line)) for line in picture]
            for p in {p for _, p in alive}
        }
        sums = [0.0] * STATES
        for (m, p), cell in alive.items():
            mean = terms.mean[m]
            for u, line in enumerate(years[p]):
                alone = mean * sum(line)
                near = kappa * sum(map(mul, line, window[m])) + (1 - kappa) * alone
                modern = constant * mean
                found = (sum(map(mul, line, together[m])), near, alone, modern, modern)
                for h, value in enumerate(found):
                    sums[h] += cell[2 * h + u] * value
        total = sum(sums)
        return tuple(value / total for value in sums)

    def _alive(self, tables: Sequence[Factor]) -> dict[tuple[int, int], list[float]]:
        """The cells that still count, without their sums over years."""
        frame, prior = self._joint.frame, self._joint.prior
        alone = {axis: [1.0] * len(frame.states(axis) or "1") for axis in MAIN}
        coupled = []
        for factor in tables:
            if len(factor.axes) == 1:
                axis = factor.axes[0]
                alone[axis] = list(map(mul, alone[axis], factor.values))
            else:
                coupled.append(factor)
        pairs = [alone["belonging"][h] * alone["package"][u] for h, u in PAIRS]
        shares: list[list[float]] = []
        found = {}
        for m, rows in enumerate(prior):
            if not m or any("housing" in factor.axes for factor in coupled):
                shares = spreads(pairs, coupled, m, len(rows))
            for p, cell in enumerate(rows):
                scale = alone["housing"][m] * alone["process"][p]
                found[m, p] = scale * sum(map(mul, cell, shares[p])), scale, shares[p]
        ordered = sorted(found.items(), key=lambda item: -item[1][0])
        reached = list(accumulate(mass for _, (mass, _, _) in ordered))
        return {
            (m, p): [scale * a * b for a, b in zip(prior[m][p], line, strict=True)]
            for (m, p), (_, scale, line) in ordered[: 1 + bisect_left(reached, KEPT * reached[-1])]
        }

    def _lines(self, dated: Iterable[tuple[Check, Vector]]) -> tuple[list[Vector], float, Vector]:
        """I K_u for both package states, their constant, and the housing's shared line."""
        frame = self._joint.frame
        image, body, parts = self._image, self._body, dict(self._parts)
        for check, line in dated:
            side = side_of(check, self._knowledge)
            if side == "image":
                image = tuple(map(mul, image, line))
            elif side == "housing":
                body = tuple(map(mul, body, line))
            elif side:
                was = parts.get(check.part)
                parts[check.part] = tuple(map(mul, was, line)) if was else line
        picture, constant = [image, image], mean_of(frame, image)
        for part, line in parts.items():
            mean = mean_of(frame, line)
            if self._knowledge.parts[part].side == "package":
                constant *= mean
                picture = [
                    tuple(map(mul, one, exchanged(line, mean, rho)))
                    for one, rho in zip(picture, frame.weights.exchange, strict=True)
                ]
            else:
                body = tuple(map(mul, body, exchanged(line, mean, loose_rate(frame, part))))
        return picture, constant, body
