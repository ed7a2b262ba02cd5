"""Which findings speak against a piece, and which parts they are of, warned of or not.

A warning is raised where a doubt as a whole is large; a part is in order only where none of its own
findings speaks against it.
"""

from appraise.knowledge.records import Knowledge
from appraise.reading.influence import Reason, influences, reasons
from appraise.reading.reading import Reading
from appraise.verdict.doubts import MODERN
from appraise.verdict.warning import Warning

PERIOD = ("together", "married")
OUT_OF_TIME = "out-of-time"
DISAGREE = (OUT_OF_TIME, "findings-exclude")
"""Warnings of findings that do not go together; their checks are to be looked at again."""


def against(reading: Reading, knowledge: Knowledge) -> tuple[Reason, ...]:
    """The findings that speak for a married piece or a modern part, the weightiest first.

    From the ratio on at which a warning may be raised. Each in its weightier direction. How often
    cases of a material hold another image is where one starts from: that it is of it says nothing
    against the piece, unless it is a modern one.
    """
    before, least = influences(reading, knowledge), knowledge.weights.raise_ratio
    strong = knowledge.weights.strong_ratio
    found = [*reasons(reading, before, MODERN, PERIOD, least=least)]
    if reading.joint.frame.cased:
        found += reasons(reading, before, ("married",), least=least)
    heaviest: dict[str, Reason] = {}
    for one in sorted(found, key=lambda one: -one.ratio):
        if one.ratio >= strong or not _of_material(one.check, knowledge):
            heaviest.setdefault(one.check, one)
    return tuple(heaviest.values())


def _of_material(check: str, knowledge: Knowledge) -> bool:
    """Whether a check tells the material of the case and nothing of belonging by itself."""
    asked = knowledge.checks[check]
    return asked.table("housing") is not None and asked.table("belonging") is None


def doubted_parts(
    reading: Reading, warnings: tuple[Warning, ...], knowledge: Knowledge
) -> frozenset[str]:
    """The parts of which a finding speaks against the piece, or disagrees with another."""
    checks = [one.check for one in against(reading, knowledge)]
    checks += [name for one in warnings if one.id in DISAGREE for name in one.look_next]
    return frozenset(knowledge.checks[name].part for name in checks)
