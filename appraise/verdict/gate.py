"""Whether a limit may be given plainly, and on what it stands otherwise.

A limit stands plain where it is unlikely that the piece is worth much less than the limit assumes,
and where the piece is whole and its image was looked at. Otherwise the two worths are told with
their chances: what it is worth if the doubt is idle, and if it is not. The doubt is put as one
question (is a part modern, do the parts belong together, which process), and the chances told are
those that the reading gives to its answers.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import product
from typing import TYPE_CHECKING

from appraise.base.dataclass import dataclass
from appraise.knowledge.records import BELONGING, Knowledge
from appraise.knowledge.settings import Limits
from appraise.reading.named import BOTH, CASE, EITHER, SECOND, family_name, modern_part
from appraise.reading.reading import MODERN, MODERN_FIRST, Reading
from appraise.verdict.naming import LIKELY, listed, with_article

if TYPE_CHECKING:
    from appraise.base.money import Money
    from appraise.pricing.worth import Worth

MODERN_STATES = (*BELONGING[BELONGING.index(MODERN_FIRST) :], MODERN)
IS_MODERN, IS_MARRIED, IS_PROCESS = "modern", "married", "process"
UNCHECKED = "the condition of the image is not checked"
INCOMPLETE = "a part is missing"
OPEN = "what it is stands in doubt"


@dataclass(frozen=True, slots=True)
class GateOutcome:
    """One of two ways in which the doubt may end.

    Attributes:
        says: The condition in words: "if it is of its time".
        brief: The same in a word or two, for a narrow place: "of its time".
        chance: Its chance, as everywhere else.
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
        bar: By how much less a piece may be worth, and how likely, before a limit is not plain.
    """

    plain: bool
    missing: str
    outcomes: tuple[GateOutcome, ...]
    bar: Limits


@dataclass(frozen=True, slots=True)
class _Way:
    """One process family and state of belonging: its chance and worth."""

    family: str
    state: str
    chance: float
    worth: float


@dataclass(frozen=True, slots=True)
class _Side:
    """One answer to the question in which the doubt lies."""

    says: str
    brief: str
    chance: float
    ways: tuple[_Way, ...]

    @property
    def worth(self) -> float:
        """The mean worth of its ways."""
        return sum(w.chance * w.worth for w in self.ways) / sum(w.chance for w in self.ways)


def gate_of(
    reading: Reading,
    worth: Worth,
    medians: Mapping[str, float],
    knowledge: Knowledge,
    limit: Callable[[float], Money | None],
) -> Gate:
    """The gate before a limit.

    Args:
        reading: What the findings mean.
        worth: What the piece is worth over all that it may be.
        medians: By process family, the price of one whose parts belong together; families that the
            log cannot price are left out.
        knowledge: How much worse and how likely counts (`gate`), and what processes are called.
        limit: The most to pay for a piece of a worth, by the buyer's own terms.
    """
    bar = knowledge.weights.gate
    ways, least = _ways(reading, worth, medians), bar.short * worth.median
    bad = [way for way in ways if way.worth < least]
    missing = missing_of(reading)
    doubt = sum(way.chance for way in bad)
    if doubt <= bar.doubt and reading.modern < LIKELY:
        return Gate(not missing, missing, (), bar)
    for question in _questions(bad, reading):
        pair = _sides(question, ways, reading, knowledge)
        if pair is not None:
            outcomes = tuple(
                GateOutcome(one.says, one.brief, one.chance, one.worth, limit(one.worth))
                for one in pair
            )
            return Gate(False, missing, outcomes, bar)
    return Gate(False, missing or OPEN, (), bar)


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
    likely = {word: p for word, p in reading.families.items() if p >= SECOND}
    total = sum(likely.values()) or 1.0
    return [
        _Way(family, state, p / total * chance, medians.get(family, usual) * share)
        for (family, p), (state, chance, share) in product(likely.items(), worth.states)
    ]


def _questions(bad: Sequence[_Way], reading: Reading) -> list[str]:
    """The questions in which the doubt may lie, the one with the most of it first."""
    if reading.modern >= LIKELY:
        return [IS_MODERN]
    modern = sum(way.chance for way in bad if way.state in MODERN_STATES)
    married = sum(way.chance for way in bad if way.state == "married")
    rest = sum(way.chance for way in bad) - modern - married
    shares = {IS_MODERN: modern, IS_MARRIED: married, IS_PROCESS: rest}
    return sorted(shares, key=lambda question: -shares[question])


def _sides(
    question: str, ways: Sequence[_Way], reading: Reading, knowledge: Knowledge
) -> tuple[_Side, _Side] | None:
    """Both answers to a question, the better one first; None where they do not part the worth."""
    if question == IS_PROCESS:
        pair = _by_process(ways, reading, knowledge)
    elif question == IS_MARRIED:
        pair = (
            _Side("if the parts belong together", "together", reading.states[0],
                  tuple(way for way in ways if way.state == BELONGING[0])),
            _Side("if they do not", "not together", reading.married,
                  tuple(way for way in ways if way.state == "married")),
        )  # fmt: skip
    else:
        good, other = _modern_words(reading)
        pair = (
            _Side(good, "of its time", 1 - reading.modern,
                  tuple(way for way in ways if way.state not in MODERN_STATES)),
            _Side(other, "modern", reading.modern,
                  tuple(way for way in ways if way.state in MODERN_STATES)),
        )  # fmt: skip
    if pair is None or not all(one.ways for one in pair) or pair[0].worth <= pair[1].worth:
        return None
    return pair


def _by_process(
    ways: Sequence[_Way], reading: Reading, knowledge: Knowledge
) -> tuple[_Side, _Side] | None:
    """The processes that are worth more against those that are worth less."""
    alone = {family: _Side("", "", 1.0, own) for family, own in _grouped(ways)}
    if len(alone) < 2:
        return None
    low, high = (of(one.worth for one in alone.values()) for of in (min, max))
    better = {family for family, one in alone.items() if one.worth - low >= high - one.worth}
    return (
        _of_families(alone, better, "if it is", reading, knowledge),
        _of_families(alone, set(alone) - better, "if", reading, knowledge),
    )


def _grouped(ways: Sequence[_Way]) -> Iterator[tuple[str, tuple[_Way, ...]]]:
    for family in dict.fromkeys(way.family for way in ways):
        yield family, tuple(way for way in ways if way.family == family)


def _of_families(
    alone: Mapping[str, _Side], chosen: set[str], lead: str, reading: Reading, knowledge: Knowledge
) -> _Side:
    """Some of the families as one answer."""
    ordered = sorted(chosen, key=lambda family: -reading.families[family])
    names = [family_name(family, knowledge) for family in ordered]
    told = listed([with_article(name) for name in names])
    ways = tuple(way for family in ordered for way in alone[family].ways)
    chance = sum(reading.families[family] for family in ordered)
    return _Side(f"{lead} {told}", listed(names), chance, ways)


def _modern_words(reading: Reading) -> tuple[str, str]:
    """The conditions in words, by the part that may be modern."""
    part = modern_part(reading)
    if part == BOTH:
        return "if it is of its time", "if image and case are modern"
    if part == EITHER:
        return "if all of it is of its time", "if a part is modern"
    if not reading.joint.frame.cased:
        return "if it is of its time", "if it is modern"
    what = "case" if part == CASE else "image"
    return f"if the {what} is of its time", f"if the {what} is modern"
