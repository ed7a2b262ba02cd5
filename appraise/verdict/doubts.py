"""Doubts that are weighed: married, modern, a part exchanged, a copy, something added.

A doubt is strong from a likelihood ratio of 30 or a probability of .70 (judgements, in data/).
"""

from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache
from itertools import islice

from appraise.base.percents import percent
from appraise.inquiry.offering import offered
from appraise.knowledge.records import BELONGING, Check, Knowledge
from appraise.reading.frame import Vector
from appraise.reading.influence import Reason, influences, prior_belonging, reasons
from appraise.reading.named import BOTH, CASE, EITHER, IMAGE, modern_part
from appraise.reading.reading import Reading
from appraise.records.piece import IN_HAND
from appraise.verdict.warning import Warning

MODERN = BELONGING[2:]
SHOWN = 3
TELLING = 1.5  # a finding whose ratio is above it is told as a reason
RECASED = "re-cased by an early owner"
MAY_BE = {
    CASE: "the case may be a modern reproduction",
    IMAGE: "the image may be modern",
    BOTH: "image and case may both be modern",
    EITHER: "a part may be modern, image or case",
}
ALONE = {CASE: ("modern-case",), IMAGE: ("modern-image",)}
"""The one state towards which to look where that part alone is doubted."""
OLD_STOCK = "an old case from the photographer's stock"
INNOCENT = {
    "married": (RECASED, OLD_STOCK),
    "modern": ("a later repair or a replaced part", "a conservator's new glass or tape"),
    "exchange": ("a refit in its own time", "a part renewed when the first one broke"),
}
ONE_CAUSE = "several of these signs may have a single cause"
STOCK = "old stock"


def belonging(reading: Reading, knowledge: Knowledge) -> Iterator[Warning]:
    """That image and case are strangers, or that a part is modern."""
    prior = prior_belonging(reading)
    now = reading.states
    before: Mapping[str, Vector] = {}
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
        before = before or influences(reading, knowledge)
        telling = [
            one
            for one in reasons(reading, before, towards, least=TELLING)
            if one.towards in (name, *towards)
        ]
        if name == "married" and telling and all(_nameless(one, knowledge) for one in telling):
            continue
        yield Warning(
            id="married" if name == "married" else "reproduction",
            says=_sentence(name, chance, reading),
            towards=name,
            ratio=ratio,
            strong=_strong(chance, ratio, knowledge),
            because=_because(telling, knowledge),
            innocent=_innocent(name, telling, knowledge),
            look_next=_look_next(
                reading,
                knowledge,
                ALONE.get(modern_part(reading), towards) if name == "modern" else towards,
            ),
        )


def decisive_sign(reading: Reading, knowledge: Knowledge) -> bool:
    """Whether a decisive sign of modern work was seen in hand, whatever else speaks against it."""
    for one in reading.evidence:
        if not one.check.decisive or one.finding.known != IN_HAND:
            continue
        table = one.check.table("belonging")
        if table is None:
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


def _look_next(reading: Reading, knowledge: Knowledge, towards: Sequence[str]) -> tuple[str, ...]:
    """Unanswered checks whose tables tell most about the states in question."""
    chances = {**reading.housings, **reading.processes, **reading.families}
    open_ = {check.id for check in reading.checks} - reading.piece.findings.keys()
    telling = (one for one in _most_telling(knowledge, tuple(towards)) if one.id in open_)
    found = (one.id for one in telling if offered(one, reading.piece, chances))
    return tuple(islice(found, SHOWN))


@lru_cache(maxsize=16)
def _most_telling(knowledge: Knowledge, towards: tuple[str, ...]) -> tuple[Check, ...]:
    """The checks that bear on belonging, those first whose tables tell most about some states."""
    found = []
    for check in knowledge.checks.values():
        table = check.table("belonging")
        if table is not None and check.part != "claim":
            rows, together = [table.rows[state] for state in towards], table.rows["together"]
            width = max(row[a] / of for row in rows for a, of in enumerate(together))
            found.append((-width, check.id, check))
    return tuple(check for _, _, check in sorted(found, key=lambda one: one[:2]))


def exchange(reading: Reading, knowledge: Knowledge) -> Iterator[Warning]:
    """That one part of the package, the pad or the clasp was exchanged."""
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
        strong=_strong(odd.probability, odd.ratio, knowledge),
        because=seen,
        innocent=INNOCENT["exchange"],
    )


def second_thoughts(reading: Reading, knowledge: Knowledge) -> Iterator[Warning]:
    """That the image is a period copy of an older one, or that something was added later."""
    joint, weights = reading.joint, knowledge.weights
    altered = "something may have been added or altered later"
    for name, chance, prior, says in (
        ("copy", joint.copy, weights.copy, "perhaps a period copy of an older image"),
        ("altered", joint.altered, weights.altered, altered),
    ):
        ratio = _odds(chance, 1 - chance) / _odds(prior, 1 - prior)
        if _raised(chance, ratio, knowledge):
            yield Warning(
                id=name,
                says=f"{says} ({percent(chance)})",
                towards=name,
                ratio=ratio,
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
