"""What a check not yet made would tell: the chance of each answer, and what would follow from it.

P(answer) and P(h | answer) are exact sums over the joint table: what the reading would say after
that answer, with nothing sampled.
"""

from collections.abc import Iterator, Sequence
from functools import cached_property
from itertools import accumulate

import numpy as np

from appraise.base.dataclass import dataclass
from appraise.inquiry.changed import ChangedTables
from appraise.inquiry.information import information, informations
from appraise.knowledge.records import Check, Knowledge
from appraise.reading.evidence import gather, leader_of, telling, with_implied
from appraise.reading.factors import axes_of, beliefs, dated_rows, odd_rows, state_rows
from appraise.reading.frame import Array, Vector
from appraise.reading.reading import Reading
from appraise.reading.usual import Usual
from appraise.reading.views import BOTH, Views, chances, states_of

CLAIM = "claim"  # the part whose checks ask what the seller says


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
        whole: Expected information about h and the process together.
        process: Expected information about the process.
    """

    check: Check
    chances: Vector
    states: tuple[Vector, ...]
    conditions: Vector
    now: Vector
    bits: float = 0.0
    whole: float = 0.0
    process: float = 0.0


@dataclass(frozen=True, slots=True)
class _Asked:
    """A check that bears on the table, whether it would lead its group, and the table then."""

    check: Check
    leads: bool
    views: Views


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
        told = self._told_at_once()
        self.open = tuple(
            check for check in self.reading.checks if check.id not in found and check.id not in told
        )
        self.open_names = frozenset(check.id for check in self.open)
        self._order = {name: place for place, name in enumerate(knowledge.checks)}
        self._tables = ChangedTables(self.reading, knowledge)
        self._counting: dict[tuple[object, ...], Array] = {}
        self._hanging = [one for name in found if (one := knowledge.checks.get(name)) and one.when]
        self._asked = {name for one in self.reading.evidence for name in one.check.when}
        self._dated = {one.check.part for one in self.reading.evidence if one.check.dates}

    def _told_at_once(self) -> set[str]:
        """Checks of a fact that is weighed once and that a stronger finding has told."""
        facts = self.knowledge.weights.once
        led = {one.check.group: one.check for one in self.reading.evidence if one.leads}
        return {
            check.id
            for check in self.reading.checks
            if check.group in facts
            and check.group in led
            and leader_of(check.group, (led[check.group], check)) is not check
        }

    @cached_property
    def usual(self) -> Usual:
        """The damage of the whole piece, beside what is usual."""
        return Usual(self.whole_reading, self.knowledge)

    def known(self, check: Check) -> str:
        """How the answer would be known: what a seller says is known from the seller."""
        return "seller" if check.part == CLAIM else self.reading.piece.default_known

    def prospect(self, check: Check) -> Prospect:
        """What an open check would tell."""
        return self.prospects((check,))[check.id]

    def prospects(self, checks: Sequence[Check]) -> dict[str, Prospect]:
        """What several open checks would tell, each by itself."""
        asked = [_Asked(check, *self._standing(check)) for check in checks]
        bearing = [one for one in asked if axes_of(one.check, self.frame) or one.check.dates]
        found = {one.check.id: one for one in self._telling(bearing)}
        found.update(
            (one.check.id, self._idle(one.check, one.views))
            for one in asked
            if one.check.id not in found
        )
        return found

    def _telling(self, asked: Sequence[_Asked]) -> Iterator[Prospect]:
        """The prospects of checks that bear on the table, all of their answers in one array."""
        if not asked:
            return
        each = self._weighed(asked)
        weights = np.concatenate(each)
        starts = [0, *accumulate(len(one) for one in each[:-1])]
        by_state = weights.sum(axis=1)
        totals = by_state.sum(axis=1)
        sums = np.repeat(np.add.reduceat(totals, starts), [len(one) for one in each])
        answers, states = (totals / sums).tolist(), (by_state / totals[:, None]).tolist()
        bits, whole = informations(by_state, starts), informations(weights, starts)
        process = informations(weights.sum(axis=2), starts)
        for n, (one, start) in enumerate(zip(asked, starts, strict=True)):
            place = slice(start, start + len(each[n]))
            yield Prospect(
                check=one.check,
                chances=tuple(answers[place]),
                states=self._after(one.check, states[place], one.views is not self.reading.views),
                conditions=self.conditions(one.check),
                now=chances(one.views.joint.states),
                bits=float(bits[n]),
                whole=float(whole[n]),
                process=float(process[n]),
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

    def _weighed(self, asked: Sequence[_Asked]) -> list[Array]:
        """By check, (answers, P, 5) weights of the table once each answer is multiplied in.

        Checks that bear on the same axes, or date the same part, are summed together.
        """
        alike: dict[tuple[object, ...], list[int]] = {}
        for n, one in enumerate(asked):
            same = axes_of(one.check, self.frame) or one.check.part
            alike.setdefault((id(one.views), same), []).append(n)
        found: list[Array] = [np.empty(0)] * len(asked)
        for mates in alike.values():
            rows = [self._rows(asked[n]) for n in mates]
            weights = self._with(asked[mates[0]], *map(np.concatenate, zip(*rows, strict=True)))
            ends = list(accumulate(len(row) for row, _ in rows))
            for n, some in zip(mates, np.split(weights, ends[:-1]), strict=True):
                found[n] = some
        for one, line in zip(asked, found, strict=True):
            self._undated(one, line)
        return found

    def _rows(self, one: _Asked) -> tuple[Array, Array]:
        """(answers, ...) what is multiplied in: rows over states, or lines over years.

        Of an ordinary piece and of one that is odd all over.
        """
        told = (self.frame, one.check.id, self.known(one.check), False, one.leads)
        if axes_of(one.check, self.frame):
            return state_rows(*told), odd_rows(*told)
        return (lines := dated_rows(*told)), lines

    def _with(self, one: _Asked, rows: Array, odd: Array) -> Array:
        """(answers, P, 5) weights once rows of such a check are multiplied in."""
        axes = axes_of(one.check, self.frame)
        if axes:
            return one.views.with_rows(axes, rows, odd)
        return one.views.with_lines(one.check, rows, self.knowledge)

    def _undated(self, one: _Asked, weights: Array) -> None:
        """Put right the answers that take the years away: they say the same of every year."""
        if axes_of(one.check, self.frame):
            return
        for place, answer in enumerate(one.check.answers):
            if answer.undates:
                said = self._rows(one)[0][place][0]
                weights[place] = said * one.views.marginal(("process", "belonging"))

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
        return True, self._tables.after(self._tables.follower(check.group))

    def _after(
        self, check: Check, states: Sequence[Sequence[float]], leads: bool
    ) -> tuple[Vector, ...]:
        """P(h | answer); read anew where other findings count otherwise after it.

        Args:
            check: The check.
            states: (answers, 5) P(h | answer) where the other findings count as they do.
            leads: Whether it takes the lead of its group from a finding.
        """
        return tuple(
            self._read_anew(check, place) if self._upsets(check, place, leads) else tuple(line)
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
        """P(h | answer) in the table of what counts after it, into which it is multiplied."""
        answer = check.answers[place]
        senseless = tuple(
            one.id for one in self._hanging if answer.id not in one.when.get(check.id, (answer.id,))
        )
        same = (check.id, senseless, answer.undates, answer.unnamed, *answer.implies.items())
        if same not in self._counting:
            self._counting[same] = self._states_after(check, answer.id)
        found = self._counting[same]
        return chances(found[place] if len(found) > 1 else found[0])

    def _states_after(self, check: Check, answer: str) -> Array:
        """(answers, 5) P(h | answer) where all else counts as after one of them.

        Only (1, 5) where the answer itself counts for nothing.
        """
        piece = self.reading.piece.with_finding(check.id, answer, self.known(check))
        evidence = gather(piece, self.knowledge)
        change = self._tables.change_to(one for one in evidence if one.id != check.id)
        mine = next((one for one in evidence if one.id == check.id and not one.silent), None)
        undated = self._tables.undated_part(change)
        if undated is not None and (mine is None or not {*axes_of(check, self.frame)} - {*BOTH}):
            weights = self.reading.views.with_lines(*undated, self.knowledge)
            if mine is not None:
                weights = weights * self._beside(check, mine.leads)
            return states_of(weights)
        views = self._tables.after(change)
        if mine is None:
            return views.joint.states[None]
        return states_of(self._weighed([_Asked(check, mine.leads, views)])[0])

    def _beside(self, check: Check, leads: bool) -> Array:
        """(answers, P or 1, 5 or 1) the rows of a check over process and belonging at most."""
        axes = axes_of(check, self.frame)
        rows = state_rows(self.frame, check.id, self.known(check), False, leads)
        sizes = [rows.shape[1 + axes.index(axis)] if axis in axes else 1 for axis in BOTH]
        return rows.reshape(len(rows), *sizes)

    def beliefs(self, check: Check) -> Vector:
        """How far each answer of a check on damage would be believed, alone in its group."""
        return beliefs(self.frame, check.id, self.known(check), False, True)

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
        now = chances(views.joint.states)
        return Prospect(check, likely, (now,) * count, self.conditions(check), now)
