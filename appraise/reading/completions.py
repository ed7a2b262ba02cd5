"""Whole pieces drawn from the joint table, and what the checks still open would say of them.

A cell of the table is drawn, then the picture's year, the housing's, which parts are exchanges and
from when, and then an answer to every open check. The draws follow the model exactly, so the same
code makes the pieces on which its calibration is tried.
"""

from bisect import bisect_right
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate
from operator import mul
from random import Random

from appraise.knowledge.records import Check, Defect, Knowledge
from appraise.piece.records import Finding
from appraise.reading.evidence import belief
from appraise.reading.factors import (
    Factor,
    Factors,
    answer_columns,
    answer_lines,
    axes_of,
    believed_line,
    believed_table,
    side_of,
)
from appraise.reading.frame import SPAN, Vector
from appraise.reading.information import scales
from appraise.reading.joint import ALL_MODERN, MARRIED, MODERN_IMAGE, PAIRS, TOGETHER, Joint
from appraise.reading.years import layered_by_class, loose_rate, mean_of, times

MODERN_PICTURE = (MODERN_IMAGE, ALL_MODERN)


@dataclass(frozen=True, slots=True)
class Truth:
    """One piece as it might be.

    Attributes:
        states: By axis, the place of its state.
        years: By part, the place in `YEARS` from which its style is; 'image' and 'housing' stand
            for the parts that are as old as those.
    """

    states: Mapping[str, int]
    years: Mapping[str, int]

    def year(self, check: Check, side: str) -> int:
        """The year from which the part of a dated check is."""
        return self.years.get(check.part, self.years["image" if side == "image" else "housing"])


class Draws:
    """Pieces drawn from a joint table."""

    def __init__(self, joint: Joint, factors: Factors, knowledge: Knowledge) -> None:
        """Prepare.

        Args:
            joint: The table to draw from.
            factors: The evidence in it.
            knowledge: For the sides of the parts.
        """
        self.joint = joint
        self._factors = factors
        self._parts = [name for name, part in knowledge.parts.items() if part.side == "package"]
        self._cells = list(accumulate(w for rows in joint.cells for cell in rows for w in cell))
        self._kept: dict[object, Vector] = {}

    def truth(self, rng: Random) -> Truth:
        """One piece."""
        place = min(bisect_right(self._cells, rng.random() * self._cells[-1]), len(self._cells) - 1)
        pair, entry = divmod(place, len(PAIRS))
        m, p = divmod(pair, len(self.joint.frame.processes))
        h, u = PAIRS[entry]
        states = {"housing": m, "process": p, "belonging": h, "package": u}
        unknowns = self.joint.unknowns
        both = unknowns.pairs[unknowns.factor.place(states)]
        states["copy"], states["altered"] = divmod(pick(list(accumulate(both)), rng), 2)
        image = self._image_year(m, p, h, u, rng)
        housing = self._housing_year(m, h, image, rng)
        years = {"image": image, "housing": housing}
        self._exchange(years, h, u, rng)
        return Truth(states, years)

    def _once(self, key: object, make: Callable[[], Sequence[float]]) -> Vector:
        """A line of weights summed up, kept for the next draw."""
        if key not in self._kept:
            self._kept[key] = tuple(accumulate(make()))
        return self._kept[key]

    @cached_property
    def _own(self) -> list[list[float]]:
        return layered_by_class(self.joint.frame, self.joint.terms.housing.own)

    @cached_property
    def _together(self) -> list[list[float]]:
        return layered_by_class(self.joint.frame, self.joint.terms.housing.together)

    @cached_property
    def _window(self) -> list[list[float]]:
        return layered_by_class(self.joint.frame, self.joint.terms.housing.window)

    def _image_year(self, m: int, p: int, h: int, u: int, rng: Random) -> int:
        frame, terms = self.joint.frame, self.joint.terms

        def weights() -> list[float]:
            if h in MODERN_PICTURE:
                return list(map(mul, frame.years, times(self._factors.image)))
            line = list(map(mul, frame.process_years[p], terms.picture[u]))
            if h == TOGETHER:
                return list(map(mul, line, self._together[m]))
            if h == MARRIED:
                far = (1 - frame.weights.kappa) * terms.housing.mean[m]
                near = frame.weights.kappa
                return [a * (near * b + far) for a, b in zip(line, self._window[m], strict=True)]
            return line

        return pick(self._once((m, p, h, u), weights), rng)

    def _housing_year(self, m: int, h: int, image: int, rng: Random) -> int:
        frame, own = self.joint.frame, self._own[m]
        if h == TOGETHER:
            lags = frame.weights.lags
            weights = [lag * own[max(0, image - n)] for n, lag in enumerate(lags)]
            return max(0, image - pick(list(accumulate(weights)), rng))
        if h == MARRIED:
            kappa, reach = frame.weights.kappa, frame.weights.kappa_window
            near = kappa * self._window[m][image]
            far = (1 - kappa) * self.joint.terms.housing.mean[m]
            if rng.random() * (near + far) < near:
                low = max(0, image - reach)
                return low + pick(list(accumulate(own[low : min(SPAN, image + reach + 1)])), rng)
        return pick(self._once(("free", m), lambda: list(map(mul, frame.years, own))), rng)

    def _exchange(self, years: dict[str, int], h: int, u: int, rng: Random) -> None:
        """Let the parts that may be exchanges have their own years."""
        rho = self.joint.frame.weights.exchange[u]
        for part in self._parts:
            line = self._factors.package.get(part, ())
            base = None if h in MODERN_PICTURE else years["image"]
            years[part] = self._part_year(part, times(line), base, rho, rng)
        for part in ("pad", "clasp"):
            line, rate = self._factors.loose.get(part, ()), loose_rate(self.joint.frame, part)
            years[part] = self._part_year(part, times(line), years["housing"], rate, rng)

    def _part_year(self, part: str, line: Vector, base: int | None, rho: float, rng: Random) -> int:
        """The year of a part that goes with a year unless it was exchanged, or with none."""
        frame = self.joint.frame
        if base is not None:
            gone = rho * mean_of(frame, line)
            if rng.random() * (gone + (1 - rho) * line[base]) >= gone:
                return base
        return pick(self._once(("part", part), lambda: list(map(mul, frame.years, line))), rng)


class Answers:
    """Answers to checks, drawn as the model has it that they come."""

    def __init__(self, knowledge: Knowledge, joint: Joint, known: Callable[[Check], str]) -> None:
        """Prepare.

        Args:
            knowledge: The trade's knowledge.
            joint: The table, for its frame.
            known: How the answer to a check is known.
        """
        self._knowledge = knowledge
        self._frame = joint.frame
        self._known = known
        self._rows: dict[tuple[str, int, bool], tuple[float, ...]] = {}
        self._strides: dict[str, tuple[tuple[str, int], ...]] = {}

    def beliefs(self, check: Check, leads: bool) -> list[float]:
        """How far each answer is believed."""
        known, weights = self._known(check), self._knowledge.weights
        return [
            belief(check, place, Finding(check.id, answer.id, known), leads, weights)
            for place, answer in enumerate(check.answers)
        ]

    def draw(self, check: Check, truth: Truth, leads: bool, uniform: float) -> int:
        """The place of an answer, or -1 for a check that bears on nothing.

        Args:
            check: The check.
            truth: The piece it is asked of.
            leads: Whether it leads its evidence group.
            uniform: A number from 0 up to 1, drawn evenly.
        """
        reached = self.sums(check, truth, leads)
        return min(bisect_right(reached, uniform), len(reached) - 1)

    def sums(self, check: Check, truth: Truth, leads: bool) -> Vector:
        """P(answer) as running sums in the order of the answers; empty where it bears on nothing.

        Args:
            check: The check.
            truth: The piece it is asked of.
            leads: Whether it leads its evidence group.
        """
        if axes_of(check, self._frame):
            place = sum(step * truth.states[axis] for axis, step in self._steps(check))
        elif check.dates:
            place = truth.year(check, side_of(check, self._knowledge))
        elif check.defect is not None:
            return tuple(accumulate(self._rates(check.defect, truth)))
        else:
            return ()
        key = (check.id, place, leads)
        if key not in self._rows:
            self._rows[key] = tuple(accumulate(self._row(check, place, leads)))
        return self._rows[key]

    def _steps(self, check: Check) -> tuple[tuple[str, int], ...]:
        """How far apart neighbouring states of each axis lie in a check's table."""
        if check.id not in self._strides:
            axes, shape, _, _ = answer_columns(self._frame, check.id)
            factor = Factor(axes, shape, ())
            self._strides[check.id] = tuple((axis, factor.stride(axis)) for axis in axes)
        return self._strides[check.id]

    def _row(self, check: Check, place: int, leads: bool) -> list[float]:
        """P(answer) for one state or year, a distribution over the answers."""
        frame, beliefs = self._frame, self.beliefs(check, leads)
        if check.dates:
            means = answer_lines(frame, check.id)[1]
            lines = [believed_line(frame, check.id, n, r) for n, r in enumerate(beliefs)]
        else:
            means = answer_columns(frame, check.id)[3]
            lines = [believed_table(frame, check.id, n, r).values for n, r in enumerate(beliefs)]
        row = [one * line[place] for one, line in zip(scales(beliefs, means), lines, strict=True)]
        if check.dates:
            rows = zip(check.answers, means, row, strict=True)
            row = [mean if answer.undates else value for answer, mean, value in rows]
        return [value / sum(row) for value in row]

    def _rates(self, defect: Defect, truth: Truth) -> Vector:
        """The base rates of the steps of damage for a piece."""
        process = self._frame.processes[truth.states["process"]]
        housing = self._frame.housings[truth.states["housing"]]
        words = (process.id, process.family, housing.id, "any")
        return next(defect.rates[word] for word in words if word in defect.rates)


def pick(sums: Sequence[float], rng: Random) -> int:
    """A place drawn by weights, given as running sums."""
    return min(bisect_right(sums, rng.random() * sums[-1]), len(sums) - 1)
