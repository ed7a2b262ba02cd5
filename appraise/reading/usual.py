"""What damage leaves of the price of a piece, beside one with the damage usual for its kind.

What nobody has looked at is neither sound nor broken: it is as it usually is, by base rates. A
finding moves its check from those rates towards what was seen, as far as it is believed: with r
the belief, P(step) = r where the step is the one seen, plus (1 - r) times its base rate. The share
of value left is that of `condition.value_factor`: of each part the worst fault in full, the others
by their square root. Its mean over all steps, seen and unseen, is summed exactly, and what is told
is that mean over the mean with nothing looked at. So looking moves it up as well as down, and on
average not at all.
"""

from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property, reduce
from itertools import accumulate
from math import prod, sqrt
from operator import mul, sub

import numpy as np

from appraise.knowledge.records import Check, Defect, Knowledge
from appraise.reading.evidence import Evidence, belief
from appraise.reading.frame import Array, Vector
from appraise.reading.information import scales
from appraise.reading.reading import Reading
from appraise.reading.simulation import Places

Seen = tuple[Check, int, float]  # a check on damage, the step seen, and how far it is believed


class Usual:
    """The damage of a piece beside what is usual.

    Attributes:
        rates: By check on damage that makes sense for the piece, P(step) before looking.
        now: The share of its price that the piece keeps, beside one with the usual damage: 1 with
            nothing looked at, above it for what was found sound, below it for what was not.
    """

    def __init__(self, reading: Reading, knowledge: Knowledge) -> None:
        """Prepare for a reading; of several images, every one counts."""
        images = [one for _, one in reading.images] or [reading]
        self._checks = _damage(images)
        self.rates = {check.id: step_chances(images[0], check) for check in self._checks}
        self._worths = _worths_by_part(self._checks)
        self._found = {one.id: _seen(one, knowledge) for one in worst_of(images)}
        self._lines: dict[tuple[str, int, float], Vector] = {}

    @cached_property
    def now(self) -> float:
        """The share kept, after the findings so far."""
        return self.after(())

    def after(self, seen: Iterable[Seen]) -> float:
        """The share kept once some checks have been made as well."""
        found = {**self._found, **{one[0].id: one for one in seen}}
        parts = {check.part for check, _, _ in found.values()}
        return prod(self._left(part, found) / self._bare[part] for part in sorted(parts))

    def after_many(self, drawn: Mapping[str, tuple[Places, Sequence[float]]]) -> Array:
        """(N,) the share kept by each of N pieces.

        Args:
            drawn: By check, the steps (N,) seen, -1 where it was not looked at, and by step how
                far it is believed.
        """
        kept = np.ones(1)
        for part, checks in self._by_part.items():
            reached = np.ones(1)
            for check in checks:
                lines = [self._line(check, self._found.get(check.id))]
                if check.id in drawn:
                    places, beliefs = drawn[check.id]
                    seen = [self._line(check, (check, n, r)) for n, r in enumerate(beliefs)]
                    reached = reached * np.array([*seen, *lines])[places]
                else:
                    reached = reached * np.array(lines)
            kept = kept * (reached @ np.array(self._steps[part])) / self._bare[part]
        return kept

    def answers(self, check: Check, beliefs: Sequence[float]) -> Vector:
        """P(answer) of a check on damage not yet made, by how far each answer is believed."""
        rates = self.rates[check.id]
        return tuple(map(mul, rates, scales(beliefs, rates)))

    def after_one(self, check: Check, step: int, r: float) -> float:
        """The share kept once one more check has been made; quicker than `after`."""
        reached = map(mul, self._others[check.id], self._line(check, (check, step, r)))
        return self.now * self._mean(check.part, reached) / self._held[check.part]

    @cached_property
    def _bare(self) -> dict[str, float]:
        """By part, the mean share left with nothing looked at."""
        return {part: self._left(part, {}) for part in self._worths}

    @cached_property
    def _held(self) -> dict[str, float]:
        """By part, the mean share left after the findings so far."""
        return {part: self._left(part, self._found) for part in self._worths}

    @cached_property
    def _others(self) -> dict[str, Vector]:
        """By check, the product of the lines of the other checks of its part."""
        found = {}
        for checks in self._by_part.values():
            lines = [self._line(check, self._found.get(check.id)) for check in checks]
            ones = (1.0,) * len(lines[0])
            before = accumulate(lines[:-1], times, initial=ones)
            behind = reversed(list(accumulate(reversed(lines[1:]), times, initial=ones)))
            for check, low, high in zip(checks, before, behind, strict=True):
                found[check.id] = times(low, high)
        return found

    @cached_property
    def _by_part(self) -> dict[str, list[Check]]:
        parts: dict[str, list[Check]] = {}
        for check in self._checks:
            parts.setdefault(check.part, []).append(check)
        return parts

    @cached_property
    def _steps(self) -> dict[str, Vector]:
        """By part, by how much the square root of each worth is above that of the next."""
        parts = {}
        for part, worths in self._worths.items():
            roots = [sqrt(worth) for worth in worths]
            parts[part] = tuple(map(sub, roots, [*roots[1:], 0.0]))
        return parts

    def _left(self, part: str, found: Mapping[str, Seen]) -> float:
        """The mean share of value that the damage of one part leaves."""
        lines = [self._line(check, found.get(check.id)) for check in self._by_part[part]]
        reached: Vector = reduce(times, lines)
        return self._mean(part, reached)

    def _mean(self, part: str, reached: Iterable[float]) -> float:
        """The mean share left, from the product of the lines.

        With F(t) the mean of the product of square roots where no worth is below t, the mean of
        that product times the square root of the least worth is SUM over the worths t, from the
        greatest down, of sqrt(t) times what F gains there; which is SUM of F(t) times how far
        sqrt(t) is above the next.
        """
        return float(sum(map(mul, self._steps[part], reached)))

    def _line(self, check: Check, seen: Seen | None) -> Vector:
        """By worth t of the part, the mean square root of what a check leaves, if it is t or more.

        A line is worked out once for what was seen and how far it is believed.
        """
        key = (check.id, seen[1] if seen else 0, seen[2] if seen else 0.0)
        if key not in self._lines:
            _, step, r = key
            rates = self.rates[check.id]
            chances = [(1 - r) * rate + r * (n == step) for n, rate in enumerate(rates)]
            self._lines[key] = _tail_means(check.defect, chances, self._worths[check.part])
        return self._lines[key]


def times(a: Iterable[float], b: Iterable[float]) -> Vector:
    """The product of two lines."""
    return tuple(map(mul, a, b))


def beside_usual(reading: Reading, knowledge: Knowledge) -> float:
    """The share of its price that a piece keeps, beside one with the damage usual for its kind."""
    return Usual(reading, knowledge).now


def step_chances(reading: Reading, check: Check) -> Vector:
    """P(step) from base rates by process or else by housing, as probable as they are.

    Where the check makes sense for some processes or housings only, the others have no such damage.
    """
    defect = check.defect
    assert defect is not None
    rates = defect.rates
    chances: dict[str, float] = {}
    for process in reading.joint.frame.processes:
        word = process.id if process.id in rates else process.family
        if word in rates:
            chances[word] = chances.get(word, 0.0) + reading.processes[process.id]
    if not chances:
        chances = {word: chance for word, chance in reading.housings.items() if word in rates}
    rest = max(0.0, 1 - sum(chances.values()))
    lines = [(rates[word], chance) for word, chance in chances.items()]
    lines.append((rates["any"], rest))
    mixed = [sum(row[step] * chance for row, chance in lines) for step in range(len(rates["any"]))]
    applies = _applies(reading, check)
    return (1 - applies * (1 - mixed[0]), *(applies * chance for chance in mixed[1:]))


def _applies(reading: Reading, check: Check) -> float:
    """P(the piece is of a process, family or housing for which a check makes sense)."""
    words = set(check.only)
    if not words:
        return 1.0
    processes = [
        process
        for process in reading.joint.frame.processes
        if process.id in words or process.family in words
    ]
    by_process = sum(reading.processes[process.id] for process in processes)
    by_housing = sum(chance for word, chance in reading.housings.items() if word in words)
    return min(1.0, max(by_process, by_housing))


def worst_of(readings: Sequence[Reading]) -> list[Evidence]:
    """The findings on damage; of a check asked of several images the worst answer counts."""
    worst: dict[str, Evidence] = {}
    for one in (one for reading in readings for one in reading.evidence):
        if one.check.defect is not None and (
            one.id not in worst or one.answer > worst[one.id].answer
        ):
            worst[one.id] = one
    return list(worst.values())


def _damage(readings: Sequence[Reading]) -> list[Check]:
    """The checks on damage that make sense, and those that were answered."""
    checks = {check.id: check for one in readings for check in one.checks}
    checks.update({one.id: one.check for one in worst_of(readings)})
    return [check for check in checks.values() if check.defect is not None]


def _seen(one: Evidence, knowledge: Knowledge) -> Seen:
    """A finding, believed as if no other of its group had been made."""
    believed = belief(one.check, one.answer, one.finding, True, knowledge.weights)
    return one.check, one.answer, believed


def _worths_by_part(checks: Iterable[Check]) -> dict[str, list[float]]:
    """By part, the worths that its damage can leave, from the greatest down."""
    parts: dict[str, set[float]] = {}
    for check in checks:
        assert check.defect is not None
        parts.setdefault(check.part, set()).update(check.defect.worth)
    return {part: sorted(worths, reverse=True) for part, worths in parts.items()}


def _tail_means(defect: Defect | None, chances: Sequence[float], worths: list[float]) -> Vector:
    """By worth, the sum of chance times square root over the steps that leave it or more."""
    assert defect is not None
    line = [0.0] * len(worths)
    for worth, chance in zip(defect.worth, chances, strict=True):
        line[worths.index(worth)] += chance * sqrt(worth)
    return tuple(accumulate(line))
