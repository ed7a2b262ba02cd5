"""What image, housing and their belonging together make of a price: judged, then learnt.

The judged shares stand in the knowledge. A log entry whose belonging was noted has what its state
took off put on again before the log is learnt, so that the curve is that of pieces whose parts
belong together; what entries in a state then still fetch above or below it corrects the share.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import field

from appraise.base.dataclass import dataclass
from appraise.pricing.weighted import smooth_quantile

ENOUGH = 10.0
"""Logged entries in a state of belonging from which the log itself says what they fetch."""
TAKEN_OFF = "belonging"
"""The name of a known ratio for what an entry's state of belonging took off its price."""
LEAST = 0.25
"""No entry's price is put up more than fourfold: one that is mostly modern teaches little of
period pieces, and weighing tells the rest (a judgement)."""
TOGETHER = ("together", "period")
"""States that take nothing off a price."""


@dataclass(frozen=True, slots=True)
class Shares:
    """What image, housing and their belonging together make of a piece's price (judgements).

    Attributes:
        image: Share of the image; image, housing and bond sum to 1.
        housing: Share of the case or frame.
        bond: Share that only parts which belong together bring.
        modern: What a wholly modern piece fetches as a share of a period one.
        learnt: Corrections by the log, state to natural log, as `corrections` gives them.
    """

    image: float
    housing: float
    bond: float
    modern: float = 0.0
    learnt: Mapping[str, float] = field(default_factory=dict, hash=False)

    def of(self, state: str) -> float:
        """The share of the price that remains in a state of belonging; 1 for an unknown state."""
        judged = {
            "married": self.image + self.housing,
            "modern-case": self.image,
            "modern-image": self.housing,
            "all-modern": self.modern,
            "modern": self.modern,
        }.get(state, 1.0)
        return min(judged * math.exp(self.learnt.get(state, 0.0)), 1.0)


def kept_of(belonging: Mapping[str, float], shares: Shares) -> float:
    """The share of the price that remains on average over the states; 1 where none is given."""
    total = math.fsum(belonging.values())
    if total <= 0.0:
        return 1.0
    return math.fsum(p * shares.of(name) for name, p in belonging.items()) / total


def taken_off(belonging: Mapping[str, float], shares: Shares) -> tuple[tuple[str, float], ...]:
    """What an entry's belonging took off its price, as a named log; nothing where none is known.

    Args:
        belonging: State to probability as the tool saw them at logging.
        shares: The judged shares of its housing.
    """
    kept = max(kept_of(belonging, shares), LEAST)
    return ((TAKEN_OFF, math.log(kept)),) if kept < 1.0 else ()


def corrections(
    belonging: Sequence[Mapping[str, float]], left_out: Sequence[float]
) -> dict[str, float]:
    """By how much entries in each state fetch more or less than their judged share says.

    The weighted median of what the others leave of them, drawn towards the judgement as if that
    were `ENOUGH` entries more. States with less than `ENOUGH` entries are left out, as are
    entries in which the state is less likely than not.

    Args:
        belonging: For each entry, state to probability; empty where it was not noted.
        left_out: Each log price less what the other entries say of it.

    Returns:
        State to a natural log that is added to that of its share.
    """
    told: dict[str, list[tuple[float, float]]] = {}
    for states, left in zip(belonging, left_out, strict=True):
        for state, chance in states.items():
            if chance >= 0.5 and state not in TOGETHER:
                told.setdefault(state, []).append((left, chance))
    found = {}
    for state, pairs in told.items():
        weight = math.fsum(chance for _, chance in pairs)
        if weight >= ENOUGH:
            middle = smooth_quantile([left for left, _ in pairs], [p for _, p in pairs], 0.5)
            found[state] = weight * middle / (weight + ENOUGH)
    return found
