"""The findings behind a verdict, each with its weight: for its main doubt, and which moved it most.

Of a finding the weightier of two effects is told: on whether the parts belong or are modern, and on
the process that the piece is called by. Both are the odds with the finding over those without it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from appraise.reading.influence import Reason, families_without, influences, of_its_period, reasons
from appraise.reading.named import family_name
from appraise.reading.words import NONE, word_for
from appraise.verdict.behind import odds
from appraise.verdict.doubts import MODERN

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.reading.reading import Reading
    from appraise.verdict.judge import Verdict

MOST = 3
ANOTHER = "another process"


def explain(reading: Reading, knowledge: Knowledge) -> tuple[Reason, ...]:
    """Each finding's weight for the leading doubt (married or modern) against the other side."""
    towards = ("married",) if reading.married > reading.modern else MODERN
    found = reasons(reading, influences(reading, knowledge), towards)
    return found if reading.joint.frame.cased else tuple(map(of_its_period, found))


def moved_most(verdict: Verdict, knowledge: Knowledge, most: int = MOST) -> tuple[Reason, ...]:
    """The findings that moved a verdict most, the weightiest first; those of no weight left out."""
    found = [*explain(verdict.reading, knowledge), *_on_process(verdict.reading, knowledge)]
    heaviest: dict[str, Reason] = {}
    for one in sorted(found, key=lambda one: -one.ratio):
        if one.word != NONE:
            heaviest.setdefault(one.check, one)
    return tuple(heaviest.values())[:most]


def _on_process(reading: Reading, knowledge: Knowledge) -> list[Reason]:
    """What each finding says of the process that leads."""
    best = reading.named[0]
    name = family_name(best, knowledge)
    before = families_without(reading, knowledge)
    out = []
    for one in reading.evidence:
        if one.id in before:
            ratio = odds(reading.families[best]) / odds(before[one.id][best])
            weight = max(ratio, 1 / ratio)
            towards = name if ratio >= 1 else ANOTHER
            known, answer = one.finding.known, one.finding.answer
            told = (one.says, known, weight, towards, word_for(weight))
            out.append(Reason(one.id, answer, *told))
    return out
