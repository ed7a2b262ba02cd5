"""Whether a limit may be given plainly, and on what it stands otherwise.

A limit stands plain where it is unlikely that the piece is worth much less than the limit assumes,
and where the piece is whole and its image was looked at. Otherwise the two worths are told with
their chances: what it is worth if the doubt is idle, and if it is not.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING

from appraise.knowledge.records import BELONGING, Weights
from appraise.reading.reading import MODERN, MODERN_FIRST, Reading

if TYPE_CHECKING:
    from appraise.base.money import Money
    from appraise.pricing.worth import Worth

NAMED = 0.05  # process families less likely than that are not told apart
MODERN_STATES = (*BELONGING[BELONGING.index(MODERN_FIRST) :], MODERN)
UNCHECKED = "the condition of the image was not checked"
INCOMPLETE = "a part is missing"


@dataclass(frozen=True, slots=True)
class Outcome:
    """One of two ways in which the doubt may end.

    Attributes:
        says: The condition in words: "if it is of its time".
        brief: The same in a word or two, for a narrow place: "of its time".
        chance: Its chance.
        worth: What the piece is worth then, base currency.
        limit: The most to pay then; None: nothing.
    """

    says: str
    brief: str
    chance: float
    worth: float
    limit: Money | None


@dataclass(frozen=True, slots=True)
class Gate:
    """Whether limit and offer stand plain.

    Attributes:
        plain: They do.
        missing: What has to be known first, in words; empty where nothing is.
        outcomes: Where the worth is in doubt: if the doubt is idle, and if it is not.
    """

    plain: bool
    missing: str
    outcomes: tuple[Outcome, ...] = ()


@dataclass(frozen=True, slots=True)
class _Way:
    """One process family and state of belonging: its chance and worth."""

    family: str
    state: str
    chance: float
    worth: float


def gate_of(
    reading: Reading,
    worth: Worth,
    medians: Mapping[str, float],
    weights: Weights,
    limit: Callable[[float], Money | None],
) -> Gate:
    """The gate before a limit.

    Args:
        reading: What the findings mean.
        worth: What the piece is worth over all that it may be.
        medians: By process family, the price of one whose parts belong together; families that the
            log cannot price are left out.
        weights: How much worse and how likely counts (`gate`).
        limit: The most to pay for a piece of a worth, by the buyer's own terms.
    """
    ways = _ways(reading, worth, medians)
    low = weights.gate.short * worth.median
    good = [way for way in ways if way.worth >= low]
    bad = [way for way in ways if way.worth < low]
    doubt = sum(way.chance for way in bad)
    missing = missing_of(reading)
    if doubt <= weights.gate.doubt or not good:
        return Gate(not missing and doubt <= weights.gate.doubt, missing)
    says, other = _says(good, bad, reading)
    outcomes = tuple(
        Outcome(*text, sum(way.chance for way in group), mean, limit(mean))
        for text, group, mean in ((says, good, _mean(good)), (other, bad, _mean(bad)))
    )
    return Gate(False, missing, outcomes)


def missing_of(reading: Reading) -> str:
    """What has to be known or be there before a limit stands plain."""
    sides = reading.condition.sides
    if not reading.joint.frame.processes[0].id:
        return ""
    if sides["image"].of and not sides["image"].done:
        return UNCHECKED
    if any(side.completeness == "incomplete" for side in sides.values()):
        return INCOMPLETE
    return ""


def _ways(reading: Reading, worth: Worth, medians: Mapping[str, float]) -> list[_Way]:
    """Every likely family and state with its chance and worth; together they are certain."""
    usual = worth.estimate.median or 0.0
    likely = {word: p for word, p in reading.families.items() if p >= NAMED}
    total = sum(likely.values()) or 1.0
    return [
        _Way(family, state, p / total * chance, medians.get(family, usual) * share)
        for (family, p), (state, chance, share) in product(likely.items(), worth.states)
    ]


def _mean(ways: Sequence[_Way]) -> float:
    return sum(way.chance * way.worth for way in ways) / sum(way.chance for way in ways)


def _says(
    good: Sequence[_Way], bad: Sequence[_Way], reading: Reading
) -> tuple[tuple[str, str], tuple[str, str]]:
    """What parts the two groups, in words and in brief: modern, marriage, or the process."""
    modern = sum(way.chance for way in bad if way.state in MODERN_STATES)
    married = sum(way.chance for way in bad if way.state == "married")
    rest = sum(way.chance for way in bad) - modern - married
    if modern >= max(married, rest):
        if reading.joint.frame.cased and _most(bad, "state") == "modern-case":
            says, other = "if the case is of its time", "if the case is modern"
        else:
            says, other = "if the image is of its time", "if it is modern"
        return (says, "of its time"), (other, "modern")
    if married >= rest:
        return ("if the parts belong together", "together"), ("if they do not", "not together")
    one, two = _most(good, "family"), _most(bad, "family")
    return (f"if it is {_article(one)}", one), (f"if {_article(two)}", two)


def _most(ways: Sequence[_Way], field: str) -> str:
    """The likeliest family or state of a group."""
    sums: dict[str, float] = {}
    for way in ways:
        word = str(getattr(way, field))
        sums[word] = sums.get(word, 0.0) + way.chance
    return max(sums, key=lambda word: sums[word])


def _article(word: str) -> str:
    return f"{'an' if word[:1] in 'aeio' else 'a'} {word}"
