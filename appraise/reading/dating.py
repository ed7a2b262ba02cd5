"""What the answers of a dated check would multiply into the joint table."""

from collections.abc import Sequence
from dataclasses import dataclass
from operator import mul

from appraise.knowledge.records import Check, Knowledge
from appraise.reading.factors import believed_line, side_of
from appraise.reading.frame import Vector
from appraise.reading.ground import Ground
from appraise.reading.lines import YearLines, ratio_of_means
from appraise.reading.years import loose_rate, mean_of, own_ratio, times

Rows = list[list[float]]


def dated_rows(
    ground: Ground, check: Check, beliefs: Sequence[float], knowledge: Knowledge, whole: bool
) -> tuple[Rows, Rows]:
    """Weights by answer and state of belonging; and by answer, common process and state.

    Args:
        ground: The table to weigh the answers in.
        check: A dated one, not yet answered.
        beliefs: How far each answer would be believed.
        knowledge: For the side on which the part counts.
        whole: Whether to tell the processes apart; the second is empty if not.
    """
    rows: Rows = []
    full: Rows = []
    for place, answer in enumerate(check.answers):
        line = believed_line(ground.joint.frame, check.id, place, beliefs[place])
        if answer.undates or not side_of(check, knowledge):
            change = Change(constant=mean_of(ground.joint.frame, line))
        else:
            change = change_of(ground, check, line, knowledge)
        row = change.applied(ground.lines)
        rows.append(row)
        if whole:
            parts = [change.applied(one) for one in ground.shared]
            others = [max(0.0, total - sum(own)) for total, *own in zip(row, *parts, strict=True)]
            full.append([value for part in (*parts, others) for value in part])
    return rows, full


@dataclass(frozen=True, slots=True)
class Change:
    """How one more line changes the weights: the picture's line, the housing's, or all alike.

    Attributes:
        constant: What it comes to for a modern picture; for all where no line changes.
        picture: By package state, the factor on the picture's line, by year.
        housing: The factor on the housing's line, by year.
    """

    constant: float = 1.0
    picture: Sequence[Vector] = ()
    housing: Vector = ()

    def applied(self, lines: YearLines) -> list[float]:
        """Weights by state of belonging after it."""
        if self.picture:
            return list(lines.with_picture(self.picture, self.constant))
        if self.housing:
            return list(lines.with_housing(self.housing))
        return [self.constant * value for value in lines.states]


def change_of(ground: Ground, check: Check, line: Vector, knowledge: Knowledge) -> Change:
    """What one more line of a part does to the weights."""
    frame, factors = ground.joint.frame, ground.factors
    side, part = side_of(check, knowledge), check.part
    if side == "image":
        constant = ratio_of_means(frame, times(factors.image), line)
        return Change(constant, (line, line))
    if side == "housing":
        return Change(housing=line)
    parts = factors.package if side == "package" else factors.loose
    was = times(parts.get(part, ()))
    now = tuple(map(mul, was, line))
    if side == "loose":
        return Change(housing=own_ratio(frame, was, now, loose_rate(frame, part)))
    ratios = [own_ratio(frame, was, now, rho) for rho in frame.weights.exchange]
    return Change(mean_of(frame, now) / mean_of(frame, was), ratios)
