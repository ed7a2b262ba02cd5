"""What the piece at hand is worth, once it is known how probably its parts belong together.

The sum, over the states of belonging, of probability times the share of the price that remains
times the median price of a piece that belongs together. For buying decisions only.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

from appraise.base.dataclass import dataclass
from appraise.base.percents import percent
from appraise.knowledge.statewords import STATES
from appraise.pricing.estimate import Estimate, plain
from appraise.pricing.shares import Shares, kept_of

TOLD = 0.005  # states less likely than that are not told


@dataclass(frozen=True, slots=True)
class Worth:
    """What the piece at hand is worth to a buyer, given how its parts may belong.

    Attributes:
        median: Sum over the states of probability times share times median.
        low: Lower end over states and sales together.
        high: Upper end.
        why: One plain sentence.
        states: (state, probability, share) behind it.
        estimate: The price of a piece that belongs together.
        shares: What remains of it in each state.
    """

    median: float
    low: float
    high: float
    why: str
    states: tuple[tuple[str, float, float], ...]
    estimate: Estimate
    shares: Shares

    def prob_at_least(self, cost: float) -> float:
        """The chance that the piece fetches `cost` or more, over states and sales."""
        if cost <= 0.0:
            return 1.0
        return math.fsum(
            p * (self.estimate.prob_at_least(cost / share) or 0.0)
            for _, p, share in self.states
            if share > 0.0
        )

    def quantile(self, q: float) -> float:
        """The price that a share q of outcomes stays below; 0 where the piece is worth nothing."""
        if 1.0 - self.prob_at_least(1e-9) >= q:
            return 0.0
        low, high = math.log(1e-9), math.log(self.estimate.quantile(1.0 - 1e-6) or 1.0)
        for _ in range(45):
            middle = (low + high) / 2.0
            reached = 1.0 - self.prob_at_least(math.exp(middle)) >= q
            low, high = (low, middle) if reached else (middle, high)
        return math.exp(high)


def worth(estimate: Estimate, belonging: Mapping[str, float], shares: Shares) -> Worth | None:
    """The worth of a piece, or None where the log bears no number.

    Args:
        estimate: The price of such a piece whose parts belong together, record `bought`.
        belonging: State to probability; scaled to sum to 1.
        shares: What remains of the price in each state.
    """
    if estimate.median is None:
        return None
    total = math.fsum(belonging.values()) or 1.0
    states = tuple((name, p / total, shares.of(name)) for name, p in belonging.items() if p > 0.0)
    states = states or (("together", 1.0, 1.0),)
    kept = kept_of({name: p for name, p, _ in states}, shares)
    draft = Worth(
        estimate.median * kept,
        0.0,
        0.0,
        _why(estimate, states, kept, shares),
        states,
        estimate,
        shares,
    )
    tail = (1.0 - estimate.level) / 2.0
    return replace(
        draft,
        low=min(draft.quantile(tail), draft.median),
        high=max(draft.quantile(1.0 - tail), draft.median),
    )


def _why(
    estimate: Estimate, states: Sequence[tuple[str, float, float]], kept: float, shares: Shares
) -> str:
    """Why the worth is what it is."""
    told = "; ".join(
        f"{STATES.get(name, name)} {percent(p)}, "
        + ("full value" if share == 1.0 else f"{percent(share)} of value")
        + (" by your log" if name in shares.learnt else "")
        for name, p, share in sorted(states, key=lambda state: -state[1])
        if p >= TOLD
    )
    median = estimate.median or 0.0
    return (
        f"If it is all of its time and its parts belong together: about {plain(median)}, from "
        f"about {estimate.like:.0f} similar entries. Allowing for the chances on this one ({told}):"
        f" about {plain(median * kept)}."
    )
