"""What every state of belonging holds year by year, so that one more line need only be summed.

The joint table is linear in the likelihood of each dated part. Once its weights are laid out by
the picture's year and by the housing's year, taking a finding away, asking whether a part is an
exchange, or weighing an answer not yet given is one sum over years for each state.
"""

from collections.abc import Callable, Iterable, Sequence
from functools import cached_property
from operator import add, mul

from appraise.knowledge.records import BELONGING
from appraise.reading.frame import SPAN, Frame, Vector
from appraise.reading.joint import (
    ALL_MODERN,
    MARRIED,
    MODERN_CASE,
    MODERN_IMAGE,
    PERIOD_IMAGE,
    TOGETHER,
    Joint,
)
from appraise.reading.stretches import Line, Stretch, blend, unlagged, unwindowed, whole
from appraise.reading.years import Layers, layered, mean_of

NEGLIGIBLE = 1e-16  # share of the whole below which a cell moves no weight that a double can hold
FLAT = (MARRIED, MODERN_CASE, MODERN_IMAGE, ALL_MODERN)


class YearLines:
    """The joint table's weights by year.

    Attributes:
        joint: The table.
        picture: [package state][state] by the picture's year, for states whose picture is of its
            period.
        states: Weights by state of belonging.
    """

    def __init__(self, joint: Joint, processes: Iterable[int] | None = None) -> None:
        """Lay a table out.

        Args:
            joint: The table.
            processes: Places of the processes to lay out; None: all of them.
        """
        self.joint = joint
        count = len(joint.frame.processes)
        chosen = set(range(count) if processes is None else processes)
        self._rows = [
            [
                cell if p in chosen and sum(weights) > NEGLIGIBLE * joint.total else NOTHING
                for p, (cell, weights) in enumerate(zip(row, rows, strict=True))
            ]
            for row, rows in zip(joint.prior, joint.cells, strict=True)
        ]
        self._chosen = sorted(chosen)
        self._own = [_Blends(self, TOGETHER, u, joint.terms.housing.together) for u in self._states]
        self._near = [_Blends(self, MARRIED, u, joint.terms.housing.window) for u in self._states]
        self.picture = (self._picture(0), self._picture(1))
        cells = [joint.by_process[p] for p in self._chosen]
        self.states = tuple(
            sum(cell[2 * h] + cell[2 * h + 1] for cell in cells) for h in range(len(BELONGING))
        )

    @property
    def _states(self) -> tuple[int, ...]:
        """The package states to lay out: one will do where the other is in proportion."""
        return (0, 1) if self.joint.odds is None else (0,)

    def prior(self, h: int, u: int) -> list[list[float]]:
        """Prior weights of one state as [housing][process], 0 for processes not laid out."""
        return [[cell[2 * h + u] for cell in row] for row in self._rows]

    def _picture(self, u: int) -> tuple[Line, ...]:
        """Lines of together, married and modern-case for one package state."""
        joint, kappa = self.joint, self.joint.frame.weights.kappa
        scale = joint.odds if u and joint.odds is not None else 1.0
        place = u if joint.odds is None else 0
        far, free = (blend(joint.frame, self._flat(h, u)) for h in (MARRIED, MODERN_CASE))
        picture = joint.terms.picture[u]
        own, near = self._own[place].line, self._near[place].line
        return (
            [scale * a * b for a, b in zip(own, picture, strict=True)],
            [
                (scale * kappa * a + (1 - kappa) * b) * c
                for a, b, c in zip(near, far, picture, strict=True)
            ],
            list(map(mul, free, picture)),
        )

    def _flat(self, h: int, u: int) -> Line:
        """By process, SUM over m of the prior times the housing's constant."""
        means = self.joint.terms.housing.mean
        return [sum(map(mul, means, column)) for column in zip(*self.prior(h, u), strict=True)]

    @cached_property
    def _both(self) -> list[Line]:
        """`picture` over both package states."""
        return [list(map(add, a, b)) for a, b in zip(*self.picture, strict=True)]

    @cached_property
    def years(self) -> tuple[Line, Line]:
        """Weights over the picture's year, given that it is of its period, for u = 0 and 1."""
        first, second = (
            [a + b + c for a, b, c in zip(*lines, strict=True)] for lines in self.picture
        )
        return first, second

    @cached_property
    def housing(self) -> tuple[Line, ...]:
        """By state of belonging, weights over the housing's own year."""
        joint, weights = self.joint, self.joint.frame.weights
        own = joint.terms.housing.own
        together = self._turned(self._own, lambda line, _, stop: unlagged(line, weights.lags, stop))
        near = self._turned(
            self._near,
            lambda line, start, stop: unwindowed(line, weights.kappa_window, start, stop),
        )
        flat = {h: self._constant(h) for h in FLAT}
        years = joint.frame.years
        lines = {h: list(map(mul, layered(joint.frame, own, flat[h]), years)) for h in FLAT}
        lines[MARRIED] = [weights.kappa * a + b for a, b in zip(near, lines[MARRIED], strict=True)]
        return (together, *(lines[h] for h in FLAT))

    def _turned(
        self, blends: Sequence["_Blends"], turn: Callable[[Stretch, int, int], Line]
    ) -> Line:
        """A sum over the picture's year laid out by the housing's year."""
        terms = self.joint.terms
        seen = self._seen()
        base = [one.over_base(picture) for one, picture in zip(blends, seen, strict=True)]
        line = list(map(mul, terms.housing.own.base, turn(whole(_added(base)), 0, SPAN)))
        for m, more in enumerate(terms.housing.own.more):
            parts = [one.over_more(m, picture) for one, picture in zip(blends, seen, strict=True)]
            first = blends[0].layers.more[m]
            back = turn(Stretch(first.start, first.stop, _added(parts)), more.start, more.stop)
            line[more.start : more.stop] = [
                a + b * c
                for a, b, c in zip(line[more.start : more.stop], more.values, back, strict=True)
            ]
        return line

    def _seen(self) -> list[Sequence[float]]:
        """I K_u for each of the package states laid out, both in one where in proportion."""
        picture, odds = self.joint.terms.picture, self.joint.odds
        if odds is None:
            return list(picture)
        return [[a + odds * b for a, b in zip(*picture, strict=True)]]

    def _constant(self, h: int) -> Line:
        """By housing class, what the constant SUM pi C is multiplied with in a state."""
        joint = self.joint
        if h != MARRIED:
            return [
                sum(rows[p][2 * h] + rows[p][2 * h + 1] for p in self._chosen) / mean
                for rows, mean in zip(joint.cells, joint.terms.housing.mean, strict=True)
            ]
        far = 1 - joint.frame.weights.kappa
        pairs = [(self.prior(h, u), joint.years.alone[u]) for u in (0, 1)]
        return [
            far * sum(sum(map(mul, prior[m], alone)) for prior, alone in pairs)
            for m in range(len(joint.cells))
        ]

    def with_picture(self, ratios: Sequence[Vector], constant: float) -> Vector:
        """Weights by state when the picture's line is multiplied by a ratio.

        Args:
            ratios: By package state, by year.
            constant: What it comes to for a modern picture.
        """
        if ratios[0] is ratios[1]:
            found = [sum(map(mul, line, ratios[0])) for line in self._both]
        else:
            (first, second), (a, b) = self.picture, ratios
            found = [sum(map(mul, first[h], a)) + sum(map(mul, second[h], b)) for h in PERIOD_IMAGE]
        return (*found, *(constant * weight for weight in self.states[MODERN_IMAGE:]))

    def with_housing(self, ratio: Vector) -> Vector:
        """Weights by state when the housing's line is multiplied by a ratio."""
        return tuple([sum(map(mul, line, ratio)) for line in self.housing])


class _Blends:
    """SUM over processes of a state's prior times pi_p, where each layer of C needs it."""

    def __init__(self, lines: YearLines, h: int, u: int, layers: Layers) -> None:
        self._frame = lines.joint.frame
        self.layers = layers
        prior = lines.prior(h, u)
        levels = [one.level for one in self._frame.housing_raised]
        self._base = blend(
            self._frame, [sum(map(mul, levels, column)) for column in zip(*prior, strict=True)]
        )
        self._more = [
            blend(self._frame, row, more.start, more.stop)
            for row, more in zip(prior, layers.more, strict=True)
        ]

    @cached_property
    def line(self) -> Line:
        """SUM over housings and processes of prior times pi_p times C, by the picture's year."""
        line = list(map(mul, self._base, self.layers.base))
        for blended, more in zip(self._more, self.layers.more, strict=True):
            part = slice(more.start, more.stop)
            line[part] = [
                a + b * c for a, b, c in zip(line[part], blended, more.values, strict=True)
            ]
        return line

    def over_base(self, picture: Sequence[float]) -> Line:
        """The blend over the shared layer, times the picture's line."""
        return list(map(mul, self._base, picture))

    def over_more(self, m: int, picture: Sequence[float]) -> Line:
        """The blend over one class's stretch, times the picture's line."""
        more = self.layers.more[m]
        return list(map(mul, self._more[m], picture[more.start : more.stop]))


NOTHING = (0.0,) * (2 * len(BELONGING))


def _added(lines: Sequence[Line]) -> Line:
    return lines[0] if len(lines) == 1 else list(map(sum, zip(*lines, strict=True)))


def ratio_of_means(frame: Frame, line: Vector, ratio: Vector) -> float:
    """SUM pi line ratio over SUM pi line: what a ratio comes to where years are averaged away."""
    return mean_of(frame, tuple(map(mul, line, ratio))) / mean_of(frame, line)
