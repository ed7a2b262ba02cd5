"""What each finding did: the belonging probabilities as they would be without it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from appraise.knowledge.records import BELONGING
from appraise.reading.evidence import Evidence
from appraise.reading.factors import Factor, Factors
from appraise.reading.frame import Vector
from appraise.reading.joint import Joint, solve
from appraise.reading.words import word_for


@dataclass(frozen=True, slots=True)
class Reason:
    """One finding and what it says about one side against another.

    Attributes:
        check: The check's id.
        says: The answer's words.
        known: How it is known.
        ratio: Likelihood ratio for `towards` over its opposite, at least 1.
        towards: The state that it speaks for.
        word: The verbal band of the ratio.
    """

    check: str
    answer: str
    says: str
    known: str
    ratio: float
    towards: str
    word: str


def belonging_of(joint: Joint) -> Vector:
    """P(h) over `BELONGING`."""
    sums = [0.0] * len(BELONGING)
    for rows in joint.cells:
        for states in rows:
            for h, pair in enumerate(states):
                sums[h] += pair[0] + pair[1]
    return tuple(value / joint.total for value in sums)


def influences(
    joint: Joint, factors: Factors, evidence: Sequence[Evidence], channel: str, subject: str
) -> dict[str, Vector]:
    """P(h | everything but this finding) for every finding that bears on the table.

    The weights of its evidence group stay as they are.
    """
    margins = {
        axis: _margin(joint, axis) for axis in ("housing", "process", "belonging", "package")
    }
    found = {}
    for one in evidence:
        factor = factors.tables.get(one.id)
        if factor is not None and len(factor.axes) == 1 and factor.axes[0] in margins:
            found[one.id] = _divided(margins[factor.axes[0]], factor)
        elif factor is not None and set(factor.axes) <= {"copy", "altered"}:
            continue
        elif factor is not None or one.check.dates:
            bare = solve(joint.frame, without(factors, one.id), channel, subject)
            found[one.id] = belonging_of(bare)
    return found


def reasons(
    now: Vector,
    before: Mapping[str, Vector],
    evidence: Sequence[Evidence],
    towards: Sequence[str],
    against: Sequence[str] = ("together",),
) -> tuple[Reason, ...]:
    """The findings by weight for one side over another; each side is a set of states."""
    found = []
    for one in evidence:
        if one.id not in before:
            continue
        ratio = _odds(now, towards, against) / _odds(before[one.id], towards, against)
        side = towards if ratio >= 1 else against
        ratio = max(ratio, 1 / ratio)
        found.append(
            Reason(
                one.id,
                one.finding.answer,
                one.says,
                one.finding.known,
                ratio,
                side[0] if len(side) == 1 else "modern",
                word_for(ratio),
            )
        )
    return tuple(sorted(found, key=lambda reason: -reason.ratio))


def without(factors: Factors, name: str) -> Factors:
    """The evidence less one finding."""
    return replace(
        factors,
        tables={key: one for key, one in factors.tables.items() if key != name},
        image=tuple(one for one in factors.image if one.evidence.id != name),
        body=tuple(one for one in factors.body if one.evidence.id != name),
        package={
            part: kept
            for part, found in factors.package.items()
            if (kept := tuple(one for one in found if one.evidence.id != name))
        },
        loose={
            part: kept
            for part, found in factors.loose.items()
            if (kept := tuple(one for one in found if one.evidence.id != name))
        },
    )


def _odds(line: Vector, towards: Sequence[str], against: Sequence[str]) -> float:
    def chance(states: Sequence[str]) -> float:
        return sum(line[BELONGING.index(state)] for state in states)

    return max(1e-15, chance(towards)) / max(1e-15, chance(against))


def _margin(joint: Joint, axis: str) -> list[list[float]]:
    """Weights by [state of the axis][belonging]."""
    size = {
        "housing": len(joint.frame.housings),
        "process": len(joint.frame.processes),
        "belonging": len(BELONGING),
        "package": 2,
    }[axis]
    sums = [[0.0] * len(BELONGING) for _ in range(size)]
    for m, rows in enumerate(joint.cells):
        for p, states in enumerate(rows):
            for h, pair in enumerate(states):
                for u, weight in enumerate(pair):
                    place = {"housing": m, "process": p, "belonging": h, "package": u}[axis]
                    sums[place][h] += weight
    return sums


def _divided(margin: list[list[float]], factor: Factor) -> Vector:
    sums = [0.0] * len(BELONGING)
    for row, value in zip(margin, factor.values, strict=True):
        for h, weight in enumerate(row):
            sums[h] += weight / value
    total = sum(sums)
    return tuple(value / total for value in sums)
