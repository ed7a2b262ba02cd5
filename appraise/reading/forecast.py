"""What a check not yet made would tell: the chance of each answer, and what would follow from it.

P(answer) and P(h | answer) are exact sums over the joint table: what the reading would say after
that answer, with nothing sampled.
"""

from dataclasses import dataclass, replace
from functools import cached_property

from appraise.knowledge.records import Check, Knowledge
from appraise.reading.evidence import belief, gather, leader_of, telling, with_implied
from appraise.reading.factors import Factors, axes_of, dated_rows, factors_of, state_rows
from appraise.reading.frame import Array, Vector
from appraise.reading.information import information
from appraise.reading.joint import solve
from appraise.reading.reading import Reading
from appraise.reading.usual import Usual
from appraise.reading.views import Views, chances, states_of
from appraise.records.piece import Finding

CLAIM = "claim"  # the part whose checks ask what the seller says


@dataclass(frozen=True)
class Prospect:
    """What a check not yet made would tell.

    Attributes:
        check: The check.
        chances: P(answer), summing to 1.
        states: P(h | answer).
        conditions: After each answer, the share of its price kept beside the usual damage.
        now: P(h) before it, under the group weights that hold after it.
        weights: (answers, P, 5) the table's weights with each answer multiplied in; None where the
            check bears on nothing in it.
    """

    check: Check
    chances: Vector
    states: tuple[Vector, ...]
    conditions: Vector
    now: Vector
    weights: Array | None = None

    @cached_property
    def bits(self) -> float:
        """Expected information about h."""
        return 0.0 if self.weights is None else information(self.weights.sum(axis=1))

    @cached_property
    def whole(self) -> float:
        """Expected information about h and the process together."""
        return 0.0 if self.weights is None else information(self.weights)

    @cached_property
    def process(self) -> float:
        """Expected information about the process."""
        return 0.0 if self.weights is None else information(self.weights.sum(axis=2))


class Forecast:
    """Prospects of the checks that are open on a piece.

    Attributes:
        reading: The piece as read; of several images, the first.
        usual: The damage of the whole piece, beside what is usual.
        open: The checks that make sense and have not been answered or passed over.
        open_names: Their ids.
    """

    def __init__(self, reading: Reading, knowledge: Knowledge) -> None:
        """Prepare for the checks of a reading."""
        self.whole_reading = reading
        self.reading = reading.images[0][1] if reading.images else reading
        self.knowledge = knowledge
        self.frame = self.reading.joint.frame
        found = with_implied(self.reading.piece, knowledge)
        self.open = tuple(check for check in self.reading.checks if check.id not in found)
        self.open_names = frozenset(check.id for check in self.open)
        self._order = {name: place for place, name in enumerate(knowledge.checks)}
        self._demoted: dict[str, Views] = {}
        self._asked = {name for one in self.reading.evidence for name in one.check.when}
        self._dated = {one.check.part for one in self.reading.evidence if one.check.dates}

    @cached_property
    def usual(self) -> Usual:
        """The damage of the whole piece, beside what is usual."""
        return Usual(self.whole_reading, self.knowledge)

    def known(self, check: Check) -> str:
        """How the answer would be known: what a seller says is known from the seller."""
        return "seller" if check.part == CLAIM else self.reading.piece.default_known

    def prospect(self, check: Check) -> Prospect:
        """What an open check would tell."""
        leads, views = self._standing(check)
        if not axes_of(check, self.frame) and not check.dates:
            return self._idle(check, views)
        weights = self.weights(check, leads, views)
        totals = weights.sum(axis=(1, 2))
        return Prospect(
            check=check,
            chances=chances(totals),
            states=self._after(check, states_of(weights), views is not self.reading.views),
            conditions=self.conditions(check),
            now=chances(views.states),
            weights=weights,
        )

    def housing_bits(self, check: Check) -> float:
        """Expected information of a check about the material of the case."""
        axes = axes_of(check, self.frame)
        if "housing" not in axes:
            return 0.0
        rows = state_rows(self.frame, check.id, self.known(check), False, True)
        others = tuple(1 + n for n, axis in enumerate(axes) if axis != "housing")
        line = rows.mean(axis=others) if others else rows
        return information(line * self.reading.views.marginal(("housing",)))

    def weights(self, check: Check, leads: bool, views: Views) -> Array:
        """(answers, P, 5) weights of the table once each answer is multiplied in."""
        known = self.known(check)
        axes = axes_of(check, self.frame)
        if axes:
            return views.with_rows(axes, state_rows(self.frame, check.id, known, False, leads))
        lines = dated_rows(self.frame, check.id, known, False, leads)
        found = views.with_lines(check, lines, self.knowledge)
        for place, answer in enumerate(check.answers):
            if answer.undates:
                found[place] = lines[place][0] * views.marginal(("process", "belonging"))
        return found

    def _standing(self, check: Check) -> tuple[bool, Views]:
        """Whether a check would lead its group, and the table once it is answered.

        The table is another one where the check would take the lead from a finding.
        """
        if not check.group:
            return True, self.reading.views
        found = [
            (one.check, one.answer)
            for one in self.reading.evidence
            if one.check.group == check.group
        ]
        if not found:
            return True, self.reading.views
        mates = [one for one, place in telling(found) if not one.answers[place].unnamed]
        order = sorted([*mates, check], key=lambda one: self._order[one.id])
        if leader_of(check.group, order) is not check:
            return False, self.reading.views
        if check.group not in self._demoted:
            self._demoted[check.group] = self._without_leader(check.group)
        return True, self._demoted[check.group]

    def _without_leader(self, group: str) -> Views:
        """The table once the leader of a group has become one of its followers."""
        evidence = [
            replace(one, leads=False) if one.check.group == group else one
            for one in self.reading.evidence
        ]
        return self._views(
            factors_of(
                evidence,
                self.frame,
                self.knowledge,
                self.reading.factors.belonging,
                self.reading.told,
            )
        )

    def _views(self, factors: Factors) -> Views:
        piece = self.reading.piece
        return Views(solve(self.frame, factors, piece.channel, piece.subjects), factors)

    def _after(self, check: Check, states: Array, leads: bool) -> tuple[Vector, ...]:
        """P(h | answer); read anew where other findings count otherwise after it.

        Args:
            check: The check.
            states: (answers, 5) P(h | answer) where the other findings count as they do.
            leads: Whether it takes the lead of its group from a finding.
        """
        return tuple(
            self._read_anew(check, place) if self._upsets(check, place, leads) else chances(line)
            for place, line in enumerate(states)
        )

    def _upsets(self, check: Check, place: int, leads: bool) -> bool:
        """Whether other findings would count otherwise after an answer than `states` have it.

        What undates its part leads no group, and dates of that part no longer count; nor does an
        answer that names no style; an answer may take its sense from another check.
        """
        answer = check.answers[place]
        if (answer.undates and (leads or check.part in self._dated)) or (answer.unnamed and leads):
            return True
        return check.id in self._asked and any(
            answer.id not in one.check.when.get(check.id, (answer.id,))
            for one in self.reading.evidence
        )

    def _read_anew(self, check: Check, place: int) -> Vector:
        answer = check.answers[place].id
        piece = self.reading.piece.with_finding(check.id, answer, self.known(check))
        factors = factors_of(
            gather(piece, self.knowledge),
            self.frame,
            self.knowledge,
            self.reading.factors.belonging,
            self.reading.told,
        )
        return chances(self._views(factors).states)

    def beliefs(self, check: Check) -> list[float]:
        """How far each answer of a check on damage would be believed, alone in its group."""
        known, weights = self.known(check), self.knowledge.weights
        return [
            belief(check, place, Finding(check.id, answer.id, known), True, weights)
            for place, answer in enumerate(check.answers)
        ]

    def conditions(self, check: Check) -> Vector:
        """After each answer, the share of its price kept beside the usual damage."""
        if check.defect is None:
            return (self.usual.now,) * len(check.answers)
        return self.usual.after_each(check, self.beliefs(check))

    def _idle(self, check: Check, views: Views) -> Prospect:
        """The prospect of a check that bears on nothing but, perhaps, the condition."""
        count = len(check.answers)
        likely: Vector = (1 / count,) * count
        if check.defect is not None:
            likely = self.usual.answers(check, self.beliefs(check))
        now = chances(views.states)
        return Prospect(check, likely, (now,) * count, self.conditions(check), now)
