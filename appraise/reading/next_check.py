"""Which check to make next, and when enough has been seen.

First what guards people and the piece, and one sign of modern work; then by what the answer is
worth before deciding, for the seconds it takes (Lindley 1956 for the information; the expected
value of sample information for the money). Where no single answer would change the decision many
small ones together may, and what they can do together grows with the sum of the variances of worth
that each brings; so that counts as well. Only checks that are safe for an owner are proposed.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from appraise.knowledge.records import BELONGING, Check, Knowledge
from appraise.reading.forecast import Forecast, Prospect
from appraise.reading.frame import Vector
from appraise.reading.information import gain, information, variance
from appraise.reading.reading import MODERN_FIRST, Reading, belonging_by_word
from appraise.reading.why import why

Worth = Callable[[Mapping[str, float], float], float]
"""What the piece is worth: from belonging by word and what its damage leaves beside the usual.

In the currency of the cost."""

MODERN_AT = BELONGING.index(MODERN_FIRST)


@dataclass(frozen=True, slots=True)
class Proposal:
    """A check worth making.

    Attributes:
        check: Its id.
        why: What it is for, in a plain phrase.
        gain: Expected gain over the cost, and beside it the bits about belonging and the variance
            of worth over the cost as the settings weigh them (`asking`); with no price, bits about
            belonging and process.
        seconds: How long it takes.
    """

    check: str
    why: str
    gain: float
    seconds: float


@dataclass(frozen=True, slots=True)
class Price:
    """What is asked, and what the piece would be worth.

    Attributes:
        worth: From belonging, and what the damage leaves beside the usual.
        cost: All in, above 0.
    """

    worth: Worth
    cost: float


def ranked(
    reading: Reading, knowledge: Knowledge, price: Price | None = None
) -> tuple[Proposal, ...]:
    """The open checks in the order in which to make them.

    A check that another open one may make senseless waits for it.

    Args:
        reading: The piece as read.
        knowledge: The trade's knowledge.
        price: What is asked and what it would be worth; None goes by information alone.
    """
    forecast = Forecast(reading, knowledge)
    prospects = {check.id: forecast.prospect(check, whole=price is None) for check in forecast.open}
    values = {name: value_of(one, forecast, price) for name, one in prospects.items()}
    floor = safety_floor(forecast, prospects)
    waiting = {check.id for check in forecast.open if not ready(check, forecast)}
    rest = sorted(
        (check for check in forecast.open if check.id not in floor),
        key=lambda check: (check.id in waiting, -values[check.id] / check.seconds),
    )
    checks = [*(knowledge.checks[name] for name in floor), *rest]
    return tuple(
        Proposal(one.id, why(prospects[one.id], forecast), values[one.id], one.seconds)
        for one in checks
    )


def ready(check: Check, forecast: Forecast) -> bool:
    """Whether no open check could still take the sense of this one away."""
    return forecast.open_names.isdisjoint(check.when)


def value_of(prospect: Prospect, forecast: Forecast, price: Price | None) -> float:
    """What an answer is worth before the decision, in parts of the cost, or in bits."""
    if price is None:
        return prospect.whole
    cased = forecast.frame.cased

    def worth(states: Vector, kept: float) -> float:
        return price.worth(belonging_by_word(states, cased), kept)

    pairs = zip(prospect.states, prospect.conditions, strict=True)
    after = [worth(*pair) / price.cost for pair in pairs]
    now = worth(prospect.now, forecast.usual.now) / price.cost
    saved = gain(prospect.chances, after, now, 1.0)
    asking = forecast.knowledge.weights.asking
    spread = variance(prospect.chances, after)
    return saved + asking.bit * prospect.bits + asking.spread * spread


def safety_floor(forecast: Forecast, prospects: Mapping[str, Prospect]) -> tuple[str, ...]:
    """What comes first: open checks marked `safety`, and one modern cue unless one was seen."""
    able = [check for check in forecast.open if ready(check, forecast)]
    floor = [check.id for check in able if check.safety]
    cues = [check for check in able if tells_modern(check, forecast.knowledge)]
    if cues and not modern_seen(forecast):
        best = max(cues, key=lambda one: modern_bits(prospects[one.id]) / one.seconds)
        floor.append(best.id)
    return tuple(floor)


def modern_seen(forecast: Forecast) -> bool:
    """Whether a sign of modern work has been looked for."""
    return any(tells_modern(one.check, forecast.knowledge) for one in forecast.reading.evidence)


def tells_modern(check: Check, knowledge: Knowledge) -> bool:
    """Whether an answer speaks for a modern part, by a ratio at which a warning is raised."""
    table = check.table("belonging")
    if table is None:
        return False
    ratios = (
        seen / together
        for state in BELONGING[MODERN_AT:]
        for seen, together in zip(table.rows[state], table.rows["together"], strict=True)
    )
    return max(ratios) >= knowledge.weights.raise_ratio


def modern_bits(prospect: Prospect) -> float:
    """Expected information about whether a part is modern."""
    rows = []
    for chance, states in zip(prospect.chances, prospect.states, strict=True):
        modern = sum(states[MODERN_AT:])
        rows.append([chance * (1 - modern), chance * modern])
    return information(rows)
