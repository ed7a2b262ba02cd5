"""What each finding did: the belonging probabilities as they would be without it."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from appraise.base.dataclass import dataclass
from appraise.knowledge.records import BELONGING, Knowledge
from appraise.reading.evidence import Evidence
from appraise.reading.frame import Array, Vector, belonging_rates, normalised
from appraise.reading.reading import Reading
from appraise.reading.words import word_for

LEAST = 1e-15  # chances that count as none


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


def influences(reading: Reading, knowledge: Knowledge) -> dict[str, Vector]:
    """P(h | everything but this finding) for every finding that bears on the table.

    The weights of its evidence group stay as they are.
    """
    weights = _without_each(reading, knowledge, apart=False)
    lines = np.array(list(weights.values())).reshape(-1, len(BELONGING))
    chances = (lines / lines.sum(axis=1, keepdims=True)).tolist()
    found = dict(zip(weights, map(tuple, chances), strict=True))
    return {one.id: found[one.id] for one in reading.evidence if one.id in found}


def families_without(reading: Reading, knowledge: Knowledge) -> dict[str, dict[str, float]]:
    """P(family | everything but this finding) for every finding that bears on the table."""
    processes = reading.joint.frame.processes
    found = {}
    for name, weights in _without_each(reading, knowledge, apart=True).items():
        shares = (weights.sum(axis=1) / weights.sum()).tolist()
        chances = dict.fromkeys((process.family for process in processes), 0.0)
        for process, share in zip(processes, shares, strict=True):
            chances[process.family] += share
        found[name] = chances
    return found


def _without_each(reading: Reading, knowledge: Knowledge, apart: bool) -> dict[str, Array]:
    """(P, 5) weights with one finding taken away, by finding; P is 1 where not told apart.

    Findings that bear on the same axes, or date the same part, are taken away in one sum each.
    """
    views, tables = reading.views, dict[tuple[str, ...], list[str]]()
    for name, factor in views.factors.tables.items():
        tables.setdefault(factor.axes, []).append(name)
    found: dict[str, Array] = {}
    for axes, names in tables.items():
        factors = [views.factors.tables[name] for name in names]
        rows = 1 / np.array([factor.values for factor in factors])
        odd = 1 / np.array([factor.odd for factor in factors])
        found.update(zip(names, views.with_rows(axes, rows, odd, apart), strict=True))
    values = {one.id: one.values for one in views.factors.dated if one.id}
    parts: dict[str, list[Evidence]] = {}
    for one in reading.evidence:
        if one.id in values and one.id not in found:
            parts.setdefault(one.check.part, []).append(one)
    for mates in parts.values():
        lines = 1 / np.array([values[one.id] for one in mates])
        taken = views.with_lines(mates[0].check, lines, knowledge, apart)
        weights = taken if apart else taken.sum(axis=1, keepdims=True)
        found.update(zip((one.id for one in mates), weights, strict=True))
    return found


def prior_belonging(reading: Reading) -> Vector:
    """P(h) as the housing's first look would give it, with the processes at their prior.

    So evidence that works through the process (a printed picture, aluminium for iron) counts as
    evidence. The housing class enters as it was called, so that evidence for a class that is often
    modern (a cast resin case taken for thermoplastic) counts as evidence.
    """
    frame, piece = reading.joint.frame, reading.piece
    called = reading.factors.tables.get("case.material")
    looks = called.values if called is not None else np.ones(len(frame.housings))
    rates = belonging_rates(frame, frame.modern(piece.channel, piece.subjects))
    by_process = (frame.housing_share * looks) @ rates.reshape(len(looks), -1)
    sums = frame.process_share @ by_process.reshape(-1, len(BELONGING))
    return tuple(normalised(sums).tolist())


def reasons(
    reading: Reading,
    before: Mapping[str, Vector],
    towards: Sequence[str],
    against: Sequence[str] = ("together",),
    least: float = 0.0,
) -> tuple[Reason, ...]:
    """The findings by weight for one side over another; each side is a set of states.

    Args:
        reading: The piece as read.
        before: As from `influences`.
        towards: One side.
        against: The other.
        least: Only findings whose ratio for the first side is above it; 0 for all.
    """
    telling = [one for one in reading.evidence if one.id in before]
    lines = np.array([reading.states, *(before[one.id] for one in telling)])
    mine, other = (
        np.maximum(LEAST, lines[:, [BELONGING.index(state) for state in side]].sum(axis=1))
        for side in (towards, against)
    )
    odds = mine / other
    found = [
        _reason(one, ratio, towards if ratio >= 1 else against)
        for one, ratio in zip(telling, (odds[0] / odds[1:]).tolist(), strict=True)
        if ratio > least
    ]
    return tuple(sorted(found, key=lambda reason: -reason.ratio))


def _reason(one: Evidence, ratio: float, side: Sequence[str]) -> Reason:
    state = side[0] if len(side) == 1 else "modern"
    ratio = max(ratio, 1 / ratio)
    answer, known = one.finding.answer, one.finding.known
    return Reason(one.id, answer, one.says, known, ratio, state, word_for(ratio))


def of_its_period(reason: Reason) -> Reason:
    """A reason in the words of a piece without a housing, which is of its period or modern."""
    return replace(reason, towards="period") if reason.towards == "together" else reason
