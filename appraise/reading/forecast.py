"""What a check not yet made would tell: the chance of each answer, and what would follow from it.

P(answer) and P(h | answer) are exact sums over the joint table: what the reading would say after
that answer, with nothing sampled.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from appraise.knowledge.records import Check, Knowledge
from appraise.piece.records import Finding
from appraise.reading.dating import dated_rows
from appraise.reading.evidence import belief, gather, leader_of
from appraise.reading.factors import (
    Factors,
    answer_columns,
    answer_lines,
    axes_of,
    believed_table,
    factors_of,
)
from appraise.reading.frame import Vector
from appraise.reading.ground import Ground, by_state
from appraise.reading.influence import belonging_of
from appraise.reading.information import information, scales
from appraise.reading.joint import Joint, solve
from appraise.reading.reading import Reading
from appraise.reading.usual import Usual

CLAIM = "claim"  # the part whose checks ask what the seller says
Rows = list[list[float]]


@dataclass(frozen=True, slots=True)
class Prospect:
    """What a check not yet made would tell.

    Attributes:
        check: The check.
        chances: P(answer), summing to 1.
        states: P(h | answer).
        conditions: After each answer, the share of its price kept beside the usual damage.
        now: P(h) before it, under the group weights that hold after it.
        bits: Expected information about h.
        whole: Expected information about h and the process together; 0 where not asked for.
    """

    check: Check
    chances: Vector
    states: tuple[Vector, ...]
    conditions: Vector
    now: Vector
    bits: float = 0.0
    whole: float = 0.0


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
        self.usual = Usual(reading, knowledge)
        self.reading = reading.images[0][1] if reading.images else reading
        self.knowledge = knowledge
        self.frame = self.reading.joint.frame
        self.open = tuple(
            check for check in self.reading.checks if check.id not in self.reading.piece.findings
        )
        self.open_names = frozenset(check.id for check in self.open)
        self.ground = Ground(self.reading.joint, self.reading.factors, self.reading.lines)
        self._order = {name: place for place, name in enumerate(knowledge.checks)}
        self._demoted: dict[str, Ground] = {}
        self._by_dates: dict[object, Joint] = {}
        self._asked = {name for one in self.reading.evidence for name in one.check.when}
        self._dated = {one.check.part for one in self.reading.evidence if one.check.dates}

    def known(self, check: Check) -> str:
        """How the answer would be known: what a seller says is known from the seller."""
        return "seller" if check.part == CLAIM else self.reading.piece.default_known

    def prospect(self, check: Check, whole: bool = False) -> Prospect:
        """What a check would tell.

        Args:
            check: An open one.
            whole: Also its information about process and belonging together.
        """
        leads, ground = self._standing(check)
        if not axes_of(check, self.frame) and not check.dates:
            return self._idle(check, ground)
        beliefs = self._beliefs(check, leads)
        if check.dates:
            rows, full = dated_rows(ground, check, beliefs, self.knowledge, whole)
            means = answer_lines(self.frame, check.id)[1]
        else:
            rows, full = self._table_rows(ground, check, beliefs)
            means = answer_columns(self.frame, check.id)[3]
        factors = scales(beliefs, means)
        rows = _scaled(rows, factors)
        totals = [sum(row) for row in rows]
        return Prospect(
            check=check,
            chances=tuple(total / sum(totals) for total in totals),
            states=self._after(check, rows),
            conditions=self.conditions(check, self._beliefs(check, True)),
            now=ground.states,
            bits=information(rows),
            whole=information(_scaled(full, factors)) if whole else 0.0,
        )

    def _standing(self, check: Check) -> tuple[bool, Ground]:
        """Whether a check would lead its evidence group, and the table it would be weighed in."""
        mates = [one.check for one in self.reading.evidence if one.check.group == check.group]
        if not check.group or not mates:
            return True, self.ground
        ordered = sorted([*mates, check], key=lambda one: self._order[one.id])
        leader = leader_of(check.group, ordered)
        if leader is not check:
            return False, self.ground
        if check.group not in self._demoted:
            self._demoted[check.group] = self._without_leader(check.group, mates)
        return True, self._demoted[check.group]

    def _without_leader(self, group: str, mates: Sequence[Check]) -> Ground:
        """The table once the leader of a group has become one of its followers."""
        leader = leader_of(group, mates)
        rest = self.knowledge.weights.group_rest
        evidence = [
            replace(one, belief=one.belief * rest) if one.check is leader else one
            for one in self.reading.evidence
        ]
        factors = factors_of(
            evidence,
            self.frame,
            self.knowledge,
            self.reading.factors.belonging,
            self.reading.factors.mount,
        )
        return Ground(self._solved(factors), factors)

    def _solved(self, factors: Factors) -> Joint:
        """A table; tables with the same dated findings share their sums over years."""
        piece, dates = self.reading.piece, factors.dates
        like = self._by_dates.get(dates, self.reading.joint)
        solved = solve(self.frame, factors, piece.channel, piece.subject, like)
        self._by_dates.setdefault(dates, solved)
        return solved

    def _beliefs(self, check: Check, leads: bool) -> list[float]:
        known, weights = self.known(check), self.knowledge.weights
        return [
            belief(check, place, Finding(check.id, answer.id, known), leads, weights)
            for place, answer in enumerate(check.answers)
        ]

    def _table_rows(
        self, ground: Ground, check: Check, beliefs: Sequence[float]
    ) -> tuple[Rows, Rows]:
        """Weights by answer and state of belonging, and by answer, process and state."""
        full = []
        for place, r in enumerate(beliefs):
            factor = believed_table(self.frame, check.id, place, r)
            found = ground.with_table(factor)
            if found is None:
                tables = {**ground.factors.tables, check.id: factor}
                solved = Ground(
                    self._solved(replace(ground.factors, tables=tables)), ground.factors
                )
                found = solved.flat
            full.append(found)
        return [by_state(row) for row in full], full

    def _after(self, check: Check, rows: Rows) -> tuple[Vector, ...]:
        """P(h | answer); read anew where the answer makes other findings lose their sense."""
        found = []
        for place, row in enumerate(rows):
            if self._upsets(check, place):
                found.append(self._read_anew(check, place))
            else:
                total = sum(row)
                found.append(tuple(value / total for value in row))
        return tuple(found)

    def _upsets(self, check: Check, place: int) -> bool:
        """Whether findings that count now would not count after an answer."""
        answer = check.answers[place]
        if answer.undates and check.part in self._dated:
            return True
        return check.id in self._asked and any(
            answer.id not in one.check.when.get(check.id, (answer.id,))
            for one in self.reading.evidence
        )

    def _read_anew(self, check: Check, place: int) -> Vector:
        answer = check.answers[place].id
        piece = self.reading.piece.with_finding(check.id, answer, self.known(check))
        evidence = gather(piece, self.knowledge)
        factors = factors_of(
            evidence,
            self.frame,
            self.knowledge,
            self.reading.factors.belonging,
            self.reading.factors.mount,
        )
        return belonging_of(self._solved(factors))

    def conditions(self, check: Check, beliefs: Sequence[float]) -> Vector:
        """After each answer, the share of its price kept beside the usual damage."""
        if check.defect is None:
            return (self.usual.now,) * len(check.answers)
        return tuple(self.usual.after_one(check, step, r) for step, r in enumerate(beliefs))

    def _idle(self, check: Check, ground: Ground) -> Prospect:
        """The prospect of a check that bears on nothing but, perhaps, the condition."""
        count = len(check.answers)
        beliefs = self._beliefs(check, True)
        chances: Vector = (1 / count,) * count
        if check.defect is not None:
            chances = self.usual.answers(check, beliefs)
        states = (ground.states,) * count
        conditions = self.conditions(check, beliefs)
        return Prospect(check, chances, states, conditions, ground.states)


def _scaled(rows: Rows, factors: Sequence[float]) -> Rows:
    return [[one * value for value in row] for one, row in zip(factors, rows, strict=True)]
