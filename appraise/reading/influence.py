"""What each finding did: the belonging probabilities as they would be without it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from appraise.knowledge.records import BELONGING
from appraise.reading.evidence import Evidence
from appraise.reading.factors import Factor, Factors, year_factor
from appraise.reading.frame import Vector
from appraise.reading.joint import PAIRS, Joint, solve
from appraise.reading.lines import YearLines, ratio_of_means
from appraise.reading.unknowns import UNKNOWN
from appraise.reading.words import word_for
from appraise.reading.years import loose_rate, mean_of, own_ratio, times


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
    return _states([sum(line) for line in zip(*joint.by_process, strict=True)])


def _states(cell: Sequence[float]) -> Vector:
    """P(h) from weights [2 * belonging + package]."""
    total = sum(cell)
    return tuple((cell[2 * h] + cell[2 * h + 1]) / total for h in range(len(BELONGING)))


def influences(
    lines: YearLines, factors: Factors, evidence: Sequence[Evidence], channel: str, subject: str
) -> dict[str, Vector]:
    """P(h | everything but this finding) for every finding that bears on the table.

    The weights of its evidence group stay as they are.

    Args:
        lines: The table laid out by years.
        factors: The evidence as it went into the table.
        evidence: The findings that count.
        channel: As the table was solved with.
        subject: Likewise.
    """
    joint = lines.joint
    by_process = joint.by_process
    dated = {one.evidence.id for one in factors.dated}
    found = {}
    for one in evidence:
        factor = factors.tables.get(one.id)
        if factor is None:
            if one.check.dates and one.id in dated:
                found[one.id] = _undated(lines, factors, one)
        elif set(factor.axes) <= set(UNKNOWN):
            continue
        elif set(factor.axes) & set(UNKNOWN):
            found[one.id] = belonging_of(
                solve(joint.frame, without(factors, one.id), channel, subject, joint)
            )
        else:
            found[one.id] = _divided(joint, by_process, factor)
    return found


def _divided(joint: Joint, by_process: list[list[float]], factor: Factor) -> Vector:
    """P(h) once every cell is divided by a factor over states."""
    m_step, p_step = factor.stride("housing"), factor.stride("process")
    h_step, u_step = factor.stride("belonging"), factor.stride("package")
    offsets = [h * h_step + u * u_step for h, u in PAIRS]
    rows = joint.cells if m_step else [by_process]
    sums = [0.0] * len(PAIRS)
    for m, row in enumerate(rows):
        for p, cell in enumerate(row):
            place = m * m_step + p * p_step
            sums = [
                total + weight / factor.values[place + offset]
                for total, weight, offset in zip(sums, cell, offsets, strict=True)
            ]
    return _states(sums)


def _undated(lines: YearLines, factors: Factors, one: Evidence) -> Vector:
    """P(h) without a dated finding."""
    frame, part, rest = lines.joint.frame, one.check.part, without(factors, one.id)
    if part in factors.loose:
        was, now = times(factors.loose[part]), times(rest.loose.get(part, ()))
        found = lines.with_housing(own_ratio(frame, was, now, loose_rate(frame, part)))
    elif part in factors.package:
        was, now = times(factors.package[part]), times(rest.package.get(part, ()))
        ratios = [own_ratio(frame, was, now, rho) for rho in frame.weights.exchange]
        found = lines.with_picture(ratios, mean_of(frame, now) / mean_of(frame, was))
    else:
        ratio = tuple([1 / value for value in year_factor(one, frame)])
        if any(dated.evidence.id == one.id for dated in factors.body):
            found = lines.with_housing(ratio)
        else:
            constant = ratio_of_means(frame, times(factors.image), ratio)
            found = lines.with_picture((ratio, ratio), constant)
    total = sum(found)
    return tuple(value / total for value in found)


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


def of_its_period(reason: Reason) -> Reason:
    """A reason in the words of a piece without a housing, which is of its period or modern."""
    return replace(reason, towards="period") if reason.towards == "together" else reason


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
