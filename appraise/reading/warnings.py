"""Warnings: what was found, towards what, how strongly, the innocent reading, where to look next.

A warning is strong from a likelihood ratio of 30 or a probability of .70 (judgements, in data/).
None of them says "fake" or "authentic": they name evidence and its strength.
"""

from collections.abc import Iterator, Mapping, Sequence
from functools import partial

import numpy as np

from appraise.base.percents import percent
from appraise.knowledge.records import BELONGING, Knowledge
from appraise.reading.asking import offered
from appraise.reading.frame import Vector, belonging_rates, normalised
from appraise.reading.influence import Reason, reasons
from appraise.reading.misfits import misfits
from appraise.reading.named import BOTH, CASE, EITHER, IMAGE, modern_part
from appraise.reading.plain_warnings import (
    Warning,
    active,
    claims,
    late_materials,
    opened,
    repairs,
    sizes,
    unused,
)
from appraise.reading.reading import Reading
from appraise.reading.words import word_for
from appraise.reading.written import written_date
from appraise.records.piece import IN_HAND

MODERN = BELONGING[2:]
SHOWN = 3
RECASED = "re-cased by an early owner"
MAY_BE = {
    CASE: "the case may be a modern reproduction",
    IMAGE: "the image may be modern",
    BOTH: "image and case may both be modern",
    EITHER: "a part may be modern, image or case",
}
OLD_STOCK = "an old case from the photographer's stock"
INNOCENT = {
    "married": (RECASED, OLD_STOCK),
    "modern": ("a later repair or a replaced part", "a conservator's new glass or tape"),
    "exchange": ("a refit in its own time", "a part renewed when the first one broke"),
}
ONE_CAUSE = "several of these signs may have a single cause"
STOCK = "old stock"


def warnings_of(
    reading: Reading, knowledge: Knowledge, before: Mapping[str, Vector]
) -> tuple[Warning, ...]:
    """Every warning of a reading, the strong ones first.

    Args:
        reading: The reading.
        knowledge: For names and thresholds.
        before: The belonging probabilities without each finding, as from `influences`.
    """
    found = [
        *_belonging(reading, knowledge, before),
        *_exchange(reading, knowledge),
        *claims(reading, knowledge),
        *_second_thoughts(reading, knowledge),
        *sizes(reading, knowledge),
        *misfits(reading, knowledge),
        *written_date(reading, knowledge),
        *opened(reading, knowledge),
        *late_materials(reading, knowledge),
        *repairs(reading),
        *active(reading),
        *unused(reading, knowledge),
    ]
    return tuple(sorted(found, key=lambda one: (not one.strong, -one.ratio)))


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
    sums = np.einsum("m,p,mph->h", frame.housing_share * looks, frame.process_share, rates)
    return tuple(normalised(sums).tolist())


def _belonging(
    reading: Reading, knowledge: Knowledge, before: Mapping[str, Vector]
) -> Iterator[Warning]:
    prior = prior_belonging(reading)
    now = reading.states
    why = partial(reasons, now, before, reading.evidence)
    for name, towards in (("married", ("married",)), ("modern", MODERN)):
        if name == "married" and not reading.joint.frame.cased:
            continue
        places = [BELONGING.index(state) for state in towards]
        chance = sum(now[place] for place in places)
        start = sum(prior[place] for place in places)
        ratio = _odds(chance, 1 - chance) / _odds(start, 1 - start)
        certain = name == "modern" and (
            chance >= knowledge.weights.raise_chance or decisive_sign(reading, knowledge)
        )
        if not certain and not _raised(chance, ratio, knowledge):
            continue
        telling = [
            one for one in why(towards) if one.towards in (name, *towards) and one.ratio > 1.5
        ]
        if name == "married" and telling and all(_nameless(one, knowledge) for one in telling):
            continue
        yield Warning(
            id="married" if name == "married" else "reproduction",
            says=_sentence(name, chance, reading),
            towards=name,
            ratio=ratio,
            word=word_for(ratio),
            strong=_strong(chance, ratio, knowledge),
            because=_because(telling, knowledge),
            innocent=_innocent(name, telling, knowledge),
            look_next=_look_next(reading, towards),
        )


def decisive_sign(reading: Reading, knowledge: Knowledge) -> bool:
    """Whether a decisive sign of modern work was seen in hand, whatever else speaks against it."""
    for one in reading.evidence:
        table = one.check.table("belonging")
        if table is None or not one.check.decisive or one.finding.known != IN_HAND:
            continue
        modern = max(table.rows[state][one.answer] for state in MODERN)
        if modern >= knowledge.weights.strong_ratio * table.rows["together"][one.answer]:
            return True
    return False


def _nameless(one: Reason, knowledge: Knowledge) -> bool:
    """Whether a finding names no style, and so condemns nothing by itself."""
    check = knowledge.checks[one.check]
    return check.answers[check.index(one.answer)].unnamed


def _innocent(name: str, telling: Sequence[Reason], knowledge: Knowledge) -> tuple[str, ...]:
    """Explanations that accuse nobody, each told once."""
    own = _own_innocent(telling, knowledge)
    usual = [
        one for one in INNOCENT[name] if one != OLD_STOCK or not any(STOCK in text for text in own)
    ]
    return tuple(dict.fromkeys((*own, *usual, *_at_once(telling))))


def _at_once(telling: Sequence[Reason]) -> tuple[str, ...]:
    """What several signs have in common as an explanation."""
    return (ONE_CAUSE,) if len(telling) > 1 else ()


def _sentence(name: str, chance: float, reading: Reading) -> str:
    share = percent(chance)
    if name == "married":
        return f"image and case may not have started out together ({share})"
    return f"{MAY_BE[modern_part(reading)]} ({share})"


def _raised(chance: float, ratio: float, knowledge: Knowledge) -> bool:
    weights = knowledge.weights
    return (ratio >= weights.raise_ratio and chance >= weights.raise_chance) or _strong(
        chance, ratio, knowledge
    )


def _strong(chance: float, ratio: float, knowledge: Knowledge) -> bool:
    weights = knowledge.weights
    return ratio >= weights.strong_ratio or chance >= weights.strong_chance


def _odds(chance: float, against: float) -> float:
    return max(1e-15, chance) / max(1e-15, against)


def _because(telling: Sequence[Reason], knowledge: Knowledge) -> tuple[str, ...]:
    return tuple(
        f"{knowledge.parts[knowledge.checks[one.check].part].name}: {one.says}"
        for one in telling[:SHOWN]
    )


def _own_innocent(telling: Sequence[Reason], knowledge: Knowledge) -> tuple[str, ...]:
    return tuple(
        text for one in telling[:SHOWN] for text in knowledge.checks[one.check].innocent[:1]
    )


def _look_next(reading: Reading, towards: Sequence[str]) -> tuple[str, ...]:
    """Unanswered checks whose tables tell most about the states in question."""
    found = []
    chances = {**reading.housings, **reading.processes, **reading.families}
    for check in reading.checks:
        table = check.table("belonging")
        if table is None or check.part == "claim" or check.id in reading.piece.findings:
            continue
        if not offered(check, reading.piece, chances):
            continue
        width = max(
            table.rows[state][a] / table.rows["together"][a]
            for state in towards
            for a in range(len(check.answers))
        )
        found.append((-width, check.id))
    return tuple(name for _, name in sorted(found)[:SHOWN])


def _exchange(reading: Reading, knowledge: Knowledge) -> Iterator[Warning]:
    odd = reading.odd_one_out
    if odd is None:
        return
    part = knowledge.parts[odd.part].name
    seen = tuple(f"{part}: {one.answer}" for one in reading.timeline if one.part == odd.part)
    yield Warning(
        id="odd-one-out",
        says=f"the {part} does not go with the rest (exchanged: {percent(odd.probability)})",
        towards="exchange",
        ratio=odd.ratio,
        word=word_for(odd.ratio),
        strong=_strong(odd.probability, odd.ratio, knowledge),
        because=seen,
        innocent=INNOCENT["exchange"],
    )


def _second_thoughts(reading: Reading, knowledge: Knowledge) -> Iterator[Warning]:
    joint, weights = reading.joint, knowledge.weights
    for name, chance, prior, says in (
        ("copy", joint.copy, weights.copy, "perhaps a period copy of an older image"),
        (
            "altered",
            joint.altered,
            weights.altered,
            "something may have been added or altered later",
        ),
    ):
        ratio = _odds(chance, 1 - chance) / _odds(prior, 1 - prior)
        if _raised(chance, ratio, knowledge):
            yield Warning(
                id=name,
                says=f"{says} ({percent(chance)})",
                towards=name,
                ratio=ratio,
                word=word_for(ratio),
                strong=_strong(chance, ratio, knowledge),
                because=_table_because(reading, name),
            )


def _table_because(reading: Reading, axis: str) -> tuple[str, ...]:
    """The findings that speak for an unknown, the weightiest first."""
    found = []
    for one in reading.evidence:
        factor = reading.factors.tables.get(one.id)
        if factor is not None and axis in factor.axes:
            others = tuple(n for n, one_axis in enumerate(factor.axes) if one_axis != axis)
            no, yes = factor.values.sum(axis=others)
            if yes > no:
                found.append((no / yes, one.says))
    return tuple(says for _, says in sorted(found)[:SHOWN])
