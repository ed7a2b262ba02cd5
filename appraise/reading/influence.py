"""What each finding did: the belonging probabilities as they would be without it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from appraise.knowledge.records import BELONGING, Knowledge
from appraise.reading.evidence import Evidence
from appraise.reading.factors import Dated, Factors
from appraise.reading.frame import Vector
from appraise.reading.views import Views, chances
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


def influences(
    views: Views, evidence: Sequence[Evidence], knowledge: Knowledge
) -> dict[str, Vector]:
    """P(h | everything but this finding) for every finding that bears on the table.

    The weights of its evidence group stay as they are.

    Args:
        views: The table, with the evidence in it.
        evidence: The findings that count.
        knowledge: For the sides of the parts.
    """
    dated = {one.id: one.values for one in views.factors.dated}
    found = {}
    for one in evidence:
        factor = views.factors.tables.get(one.id)
        if factor is not None:
            found[one.id] = chances(views.without(factor))
        elif one.id in dated:
            line = dated[one.id]
            found[one.id] = chances(views.without_line(line, one.check, knowledge))
    return found


def families_without(
    views: Views, evidence: Sequence[Evidence], knowledge: Knowledge
) -> dict[str, dict[str, float]]:
    """P(family | everything but this finding) for every finding that bears on the table.

    Args:
        views: The table, with the evidence in it.
        evidence: The findings that count.
        knowledge: For the sides of the parts.
    """
    dated = {one.id: one.values for one in views.factors.dated}
    processes = views.joint.frame.processes
    found = {}
    for one in evidence:
        factor = views.factors.tables.get(one.id)
        if factor is not None:
            weights = views.by_process_without(factor)
        elif one.id in dated:
            weights = views.with_lines(one.check, (1 / dated[one.id])[None], knowledge)[0]
        else:
            continue
        shares = (weights.sum(axis=1) / weights.sum()).tolist()
        chances = dict.fromkeys((process.family for process in processes), 0.0)
        for process, share in zip(processes, shares, strict=True):
            chances[process.family] += share
        found[one.id] = chances
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


def of_its_period(reason: Reason) -> Reason:
    """A reason in the words of a piece without a housing, which is of its period or modern."""
    return replace(reason, towards="period") if reason.towards == "together" else reason


def without(factors: Factors, name: str) -> Factors:
    """The evidence less one finding."""
    return replace(
        factors,
        tables={key: one for key, one in factors.tables.items() if key != name},
        image=_less(factors.image, name),
        dress=_less(factors.dress, name),
        body=_less(factors.body, name),
        package={k: kept for k, one in factors.package.items() if (kept := _less(one, name))},
        loose={k: kept for k, one in factors.loose.items() if (kept := _less(one, name))},
    )


def _less(found: tuple[Dated, ...], name: str) -> tuple[Dated, ...]:
    return tuple(one for one in found if one.id != name)


def _odds(line: Vector, towards: Sequence[str], against: Sequence[str]) -> float:
    def chance(states: Sequence[str]) -> float:
        return sum(line[BELONGING.index(state)] for state in states)

    return max(1e-15, chance(towards)) / max(1e-15, chance(against))
