"""Everything still open on a piece answered at once, as the joint table has it."""

from collections.abc import Callable, Iterator, Mapping

import numpy as np
from numpy.random import Generator
from numpy.typing import NDArray

from appraise.inquiry.batch import Batch
from appraise.inquiry.next_check import Order
from appraise.inquiry.simulation import (
    NO_ANSWER,
    Truths,
    answer_chances,
    draw_truths,
    parents_first,
    pick,
)
from appraise.knowledge.records import Check
from appraise.reading.evidence import leader_of
from appraise.reading.factors import axes_of, dated_rows, factors_of, side_of, state_rows
from appraise.reading.frame import Array, Frame, Places, Vector
from appraise.reading.joint import solve


class Rest:
    """The open checks of a piece.

    Attributes:
        now: P(h) before them, under the group weights that will hold after them.
    """

    def __init__(self, order: Order) -> None:
        """Prepare for the open checks of an examination."""
        forecast = order.forecast
        self._forecast, self._frame = forecast, forecast.frame
        self._knowledge = forecast.knowledge
        self._open = parents_first(order.open)
        self._leads = _leaders(order)
        reading = forecast.reading
        evidence = [one._replace(leads=self._leads[one.id]) for one in reading.evidence]
        self._factors = factors_of(
            evidence, forecast.frame, forecast.knowledge, reading.factors.belonging, reading.told
        )
        piece = reading.piece
        self._joint = solve(forecast.frame, self._factors, piece.channel, piece.subjects)
        self.now: Vector = tuple(self._joint.states.tolist())
        self._alone = {
            check.id: forecast.beliefs(check) for check in self._open if check.defect is not None
        }

    def complete(self, count: int, rng: Generator) -> Iterator[tuple[Vector, float]]:
        """Pieces with every open check answered: P(h), and what is left beside usual damage."""
        answers = self.drawn(count, rng)
        undated = self._undated(answers)
        batch = Batch(self._joint, self._factors, count)
        for check in self._open:
            if check.id not in answers:
                continue
            places, axes = answers[check.id], axes_of(check, self._frame)
            if axes:
                batch.add_table(axes, self._rows(check, state_rows), places)
            elif check.dates:
                side = side_of(check.part, self._knowledge)
                seen = np.where(undated.get(check.part, False), NO_ANSWER, places)
                batch.add_line(side, check.part, self._rows(check, dated_rows), seen)
        left = np.broadcast_to(self._left(answers), (count,))
        for line, kept in zip(batch.states(), left, strict=True):
            yield tuple(line.tolist()), float(kept)

    def _undated(self, answers: Mapping[str, Places]) -> dict[str, NDArray[np.bool_]]:
        """By part, of which pieces (N,) an answer takes its years away."""
        found: dict[str, NDArray[np.bool_]] = {}
        for check in self._open:
            gone = [place for place, answer in enumerate(check.answers) if answer.undates]
            if gone and check.id in answers:
                here = np.isin(answers[check.id], gone)
                found[check.part] = found.get(check.part, False) | here
        return found

    def _rows(self, check: Check, rows: Callable[[Frame, str, str, bool, bool], Array]) -> Array:
        known, leads = self._forecast.known(check), self._leads[check.id]
        return rows(self._frame, check.id, known, False, leads)

    def drawn(self, count: int, rng: Generator) -> dict[str, Places]:
        """(N,) answers to each open check, as far as those before leave it its sense."""
        truths = draw_truths(self._joint, self._factors, self._knowledge, count, rng)
        checks = {check.id: check for check in self._open}
        found: dict[str, Places] = {}
        for check in self._open:
            chance = self._chances(check, truths, count)
            if chance is None:
                continue
            places = pick(chance, rng)
            for other, wanted in check.when.items():
                if other in found:
                    right = [checks[other].index(answer) for answer in wanted]
                    sense = np.isin(found[other], [*right, NO_ANSWER])
                    places = np.where(sense, places, NO_ANSWER)
            found[check.id] = places
        return found

    def _chances(self, check: Check, truths: Truths, count: int) -> Array | None:
        forecast, frame = self._forecast, self._frame
        if check.defect is not None and not axes_of(check, frame):
            line = forecast.usual.answers(check, forecast.beliefs(check))
            return np.broadcast_to(np.array(line), (count, len(line)))
        known, leads = forecast.known(check), self._leads[check.id]
        return answer_chances(check, truths, frame, self._knowledge, known, leads)

    def _left(self, answers: Mapping[str, Places]) -> Array:
        """(N,) what the damage seen and drawn leaves, beside the usual."""
        return self._forecast.usual.after_many(
            {name: (answers[name], beliefs) for name, beliefs in self._alone.items()}
        )


def _leaders(order: Order) -> dict[str, bool]:
    """By check, whether it leads its evidence group once all open ones are answered.

    As if each of those answers will name something.
    """
    forecast = order.forecast
    names = {one.id for one in forecast.reading.evidence} | {one.id for one in order.open}
    silent = {one.id for one in forecast.reading.evidence if one.check.answers[one.answer].unnamed}
    ordered = [check for name, check in forecast.knowledge.checks.items() if name in names]
    telling = [check for check in ordered if check.id not in silent]
    chosen = {
        group: leader_of(group, telling) or leader_of(group, ordered)
        for group in {check.group for check in ordered}
    }
    return {check.id: not check.group or chosen[check.group] is check for check in ordered}
