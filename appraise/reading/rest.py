"""Everything still open on a piece answered at once, as the joint table has it."""

from bisect import bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import accumulate
from random import Random

from appraise.knowledge.records import Check
from appraise.piece.records import UNTOLD
from appraise.reading.completions import Answers, Draws, Truth
from appraise.reading.evidence import belief, leader_of
from appraise.reading.factors import Factor, axes_of, believed_line, believed_table, factors_of
from appraise.reading.forecast import Forecast
from appraise.reading.frame import Vector
from appraise.reading.joint import solve
from appraise.reading.quick import Quick
from appraise.reading.unknowns import UNKNOWN


class Rest:
    """The open checks of a piece.

    Attributes:
        now: P(h) before them, under the group weights that will hold after them.
    """

    def __init__(self, forecast: Forecast) -> None:
        """Prepare for the open checks of a forecast."""
        self._forecast = forecast
        self._leads = leaders(forecast)
        reading, knowledge = forecast.reading, forecast.knowledge
        weights = knowledge.weights
        evidence = [
            replace(
                one,
                belief=belief(one.check, one.answer, one.finding, self._leads[one.id], weights),
            )
            for one in reading.evidence
        ]
        factors = factors_of(
            evidence, forecast.frame, knowledge, reading.factors.belonging, reading.factors.mount
        )
        piece = reading.piece
        joint = solve(forecast.frame, factors, piece.channel, piece.subject, reading.joint)
        self._draws = Draws(joint, factors, knowledge)
        self._answers = Answers(knowledge, joint, forecast.known)
        self._quick = Quick(joint, factors, knowledge)
        self._beliefs = {
            check.id: self._answers.beliefs(check, self._leads[check.id]) for check in forecast.open
        }
        harms = [check for check in forecast.open if check.defect is not None]
        self._alone = {check.id: self._answers.beliefs(check, True) for check in harms}
        self._damage = {
            check.id: tuple(accumulate(forecast.usual.answers(check, self._alone[check.id])))
            for check in harms
            if not axes_of(check, forecast.frame) and not check.dates
        }
        self._open = parents_first(forecast.open)
        self.now = self._quick.states((), ())

    def complete(self, rng: Random) -> tuple[Vector, float]:
        """One piece with every open check answered: P(h), and what is left beside usual damage."""
        truth = self._draws.truth(rng)
        found = list(self._drawn(truth, rng))
        undated = {check.part for check, place in found if check.answers[place].undates}
        frame = self._forecast.frame
        tables: list[Factor] = []
        dated: list[tuple[Check, Vector]] = []
        for check, place in found:
            axes = axes_of(check, frame)
            r = self._beliefs[check.id][place]
            if axes and not set(axes) & set(UNKNOWN):
                tables.append(believed_table(frame, check.id, place, r))
            elif check.dates and check.part not in undated:
                dated.append((check, believed_line(frame, check.id, place, r)))
        return self._quick.states(tables, dated), self._left(found)

    def _drawn(self, truth: Truth, rng: Random) -> Iterator[tuple[Check, int]]:
        """Answers to the open checks, as far as the answers before leave them their sense."""
        said = {name: one.answer for name, one in self._forecast.reading.piece.findings.items()}
        for check in self._open:
            sense = all(
                said.get(other, "") in ("", UNTOLD, *answers)
                for other, answers in check.when.items()
            )
            if not sense:
                continue
            place = self._answer(check, truth, rng.random())
            if place >= 0:
                said[check.id] = check.answers[place].id
                yield check, place

    def _answer(self, check: Check, truth: Truth, uniform: float) -> int:
        """The place of an answer, or -1 for a check that bears on nothing."""
        if check.id in self._damage:
            return min(bisect_right(self._damage[check.id], uniform), len(check.answers) - 1)
        return self._answers.draw(check, truth, self._leads[check.id], uniform)

    def _left(self, found: Iterable[tuple[Check, int]]) -> float:
        """What the damage seen and drawn leaves, beside the usual."""
        return self._forecast.usual.after(
            (check, step, self._alone[check.id][step])
            for check, step in found
            if check.defect is not None
        )


def leaders(forecast: Forecast) -> dict[str, bool]:
    """By check, whether it leads its evidence group once all open ones are answered."""
    names = {one.id for one in forecast.reading.evidence} | {one.id for one in forecast.open}
    ordered = [check for name, check in forecast.knowledge.checks.items() if name in names]
    chosen = {group: leader_of(group, ordered) for group in {check.group for check in ordered}}
    return {check.id: not check.group or chosen[check.group] is check for check in ordered}


def parents_first(checks: tuple[Check, ...]) -> tuple[Check, ...]:
    """The checks in their order, save that those which may lose their sense come later."""
    ordered: list[Check] = []
    waiting = list(checks)
    while waiting:
        names = {check.id for check in waiting}
        ready = [check for check in waiting if not names & set(check.when)] or waiting
        ordered += ready
        waiting = [check for check in waiting if check not in ready]
    return tuple(ordered)
