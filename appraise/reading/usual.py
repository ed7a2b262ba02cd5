"""What damage leaves of the price of a piece, beside one with the damage usual for its kind.

What nobody has looked at is neither sound nor broken: it is as it usually is, by base rates. A
finding moves its check from those rates towards what was seen, as far as it is believed: with r
the belief, P(step) = r where the step is the one seen, plus (1 - r) times its base rate. The share
of value left is that of `condition.value_factor`. Its mean over all steps, seen and unseen, is
summed exactly (`damage`), and what is told is that mean over the mean with nothing looked at. So
looking moves it up as well as down, and on average not at all.
"""

from collections.abc import Mapping, Sequence
from functools import cached_property

import numpy as np

from appraise.knowledge.records import Check, Knowledge
from appraise.reading.damage import STEPS, damage_of
from appraise.reading.evidence import Evidence, belief
from appraise.reading.factors import scales
from appraise.reading.frame import Array, Places, Vector
from appraise.reading.reading import Reading

NONE = np.eye(STEPS)[0]  # no damage


class Usual:
    """The damage of a piece beside what is usual.

    Attributes:
        rates: (D, STEPS) P(step) of each check on damage before looking; 1 for none where a check
            makes no sense for the piece.
    """

    def __init__(self, reading: Reading, knowledge: Knowledge) -> None:
        """Prepare for a reading; of several images, every one counts."""
        images = [one for _, one in reading.images] or [reading]
        self._damage = damage_of(images[0].joint.frame)
        places, self._worst = self._damage.places, worst_of(images)
        asked = {check.id for one in images for check in one.checks if check.defect is not None}
        self.rates = step_chances(images[0])
        spared = places.keys() - asked - self._worst.keys()
        self.rates[[places[name] for name in spared]] = NONE
        self._bare_lines = self._damage.lines(self.rates)
        self._lines = self._seen_lines(knowledge)
        self._held = self._damage.kept(self._lines)

    def _seen_lines(self, knowledge: Knowledge) -> Array:
        """(D, W) the lines of the checks: P(step) moved to what was seen, as far as believed."""
        lines = self._bare_lines.copy()
        if self._worst:
            found, weights = self._worst.values(), knowledge.weights
            r = np.array(
                [belief(one.check, one.answer, one.finding, True, weights) for one in found]
            )
            mine = [self._damage.places[name] for name in self._worst]
            left = self._damage.left[mine, :, [one.answer for one in found]]
            lines[mine] = r[:, None] * left + (1 - r)[:, None] * lines[mine]
        return lines

    @cached_property
    def now(self) -> float:
        """The share of its price that the piece keeps, beside one with the usual damage.

        1 with nothing looked at, above it for what was found sound, below it for what was not.
        """
        return float(np.prod(self._held / self._bare))

    @cached_property
    def _bare(self) -> Array:
        """(parts,) the mean share left with nothing looked at."""
        return self._damage.kept(self._bare_lines)

    def answers(self, check: Check, beliefs: Sequence[float]) -> Vector:
        """P(answer) of a check on damage not yet made, by how far each answer is believed."""
        rates = self.rates[self._damage.places[check.id]]
        found: list[float] = (rates * scales(beliefs, rates)).tolist()
        return tuple(found)

    def after_each(self, check: Check, beliefs: Sequence[float]) -> Vector:
        """The share kept after each answer to one more check, by how far each is believed."""
        place = self._damage.places[check.id]
        part = self._damage.part_of(place)
        means = self._seen(place, beliefs) @ (self._others[place] * self._damage.above[part])
        found: list[float] = (self.now / self._held[part] * means).tolist()
        return tuple(found)

    def after_many(self, drawn: Mapping[str, tuple[Places, Sequence[float]]]) -> Array:
        """(N,) the share kept by each of N pieces.

        Args:
            drawn: By check, the steps (N,) seen, -1 where it was not looked at, and by step how
                far it is believed.
        """
        kept = np.prod(self._held / self._bare) * np.ones(1)
        parts: dict[int, list[str]] = {}
        for name in drawn:
            parts.setdefault(self._damage.part_of(self._damage.places[name]), []).append(name)
        ends = [*self._damage.starts[1:], len(self._lines)]
        for part, names in parts.items():
            mine = {self._damage.places[name] for name in names}
            rest = [n for n in range(self._damage.starts[part], ends[part]) if n not in mine]
            reached = self._lines[rest].prod(axis=0)
            for name in names:
                places, beliefs = drawn[name]
                place = self._damage.places[name]
                lines = np.vstack([self._seen(place, beliefs), self._lines[place]])
                reached = reached * lines[places]
            kept = kept * (reached @ self._damage.above[part]) / self._held[part]
        return kept

    def _seen(self, place: int, beliefs: Sequence[float]) -> Array:
        """(steps, W) the line of a check once each of its steps is seen, as far as believed."""
        left, r = self._damage.left[place], np.array(beliefs)[:, None]
        found: Array = r * left.T[: len(beliefs)] + (1 - r) * (left @ self.rates[place])
        return found

    @cached_property
    def _others(self) -> Array:
        """(D, W) by check, the product of the lines of the other checks of its part."""
        lines = self._lines
        found = np.ones_like(lines)
        starts = self._damage.starts
        for start, end in zip(starts, [*starts[1:], len(lines)], strict=True):
            mine = lines[start:end]
            ones = np.ones((1, lines.shape[1]))
            before = np.cumprod(np.vstack([ones, mine[:-1]]), axis=0)
            behind = np.cumprod(np.vstack([ones, mine[:0:-1]]), axis=0)[::-1]
            found[start:end] = before * behind
        return found


def beside_usual(reading: Reading, knowledge: Knowledge) -> float:
    """The share of its price that a piece keeps, beside one with the damage usual for its kind."""
    return Usual(reading, knowledge).now


def step_chances(reading: Reading) -> Array:
    """(D, STEPS) P(step) of every check on damage, from base rates as probable as they are.

    By process or else by housing. Where the check makes sense for some of them only, the others
    have no such damage.
    """
    frame = reading.joint.frame
    processes = [reading.processes[one.id] for one in frame.processes]
    housings = [reading.housings.get(one.id, 0.0) for one in frame.housings]
    return damage_of(frame).chances(np.array([*processes, *housings]))


def worst_of(readings: Sequence[Reading]) -> dict[str, Evidence]:
    """The findings on damage; of a check asked of several images the worst answer counts."""
    worst: dict[str, Evidence] = {}
    for one in (one for reading in readings for one in reading.evidence):
        if one.check.defect is not None and (
            one.id not in worst or one.answer > worst[one.id].answer
        ):
            worst[one.id] = one
    return worst
