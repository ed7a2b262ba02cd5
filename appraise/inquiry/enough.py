"""When enough has been seen: what looking at all the rest would still be worth.

The rest of the checks is played through on pieces drawn from the joint table. Each is read with
everything answered, and what that would have saved is set beside the cost. The draws are the same
every time.
"""

from math import sqrt

import numpy as np

from appraise.base.dataclass import dataclass
from appraise.inquiry.next_check import Order, Price
from appraise.inquiry.rest import Rest
from appraise.reading.reading import belonging_by_word

BATCHES = (48, 80)  # pieces drawn first, and more of them where that left it open
SEED = 20_240_601


@dataclass(frozen=True, slots=True)
class Enough:
    """Whether enough has been seen.

    Attributes:
        enough: Whether to stop.
        not_looked: Ids of the safe checks that make sense and were not made.
        gain: What all of them together would gain on average, as a part of the cost; with no
            price, the bits that the best of them promises.
        still: Ids of the checks of which some must be made although the rest promises too little.
    """

    enough: bool
    not_looked: tuple[str, ...]
    gain: float
    still: tuple[str, ...] = ()


def enough(order: Order) -> Enough:
    """Whether enough has been seen.

    Never before the process stands or its quick tests are done, the picture's own condition, one
    sign of modern work and, in a case, mat, preserver and pad were looked at, if they can be. The
    more has been looked at, the more the rest has to promise. Of what is surely modern nothing but
    its process need be known, where it has no price.

    Args:
        order: The open checks, valued.
    """
    asking, price = order.knowledge.weights.asking, order.price
    not_looked = tuple(check.id for check in order.forecast.open)
    if price is None:
        told = max((one.whole for one in order.prospects.values()), default=0.0)
        stop = told < asking.known or order.surely_modern
    else:
        told = rest_gain(order, price) if order.open else 0.0
        stop = told < asking.rest * max(
            1.0, len(order.forecast.reading.piece.findings) / asking.patience
        )
    still = order.required if stop else ()
    return Enough(stop and not still, not_looked, told, still)


def rest_gain(order: Order, price: Price) -> float:
    """The expected gain, as a part of the cost, of making every open check before deciding.

    The mean over pieces drawn from the table: 48 of them, and 80 more where the share that counts
    lies within two standard errors.
    """
    rest, rng = Rest(order), np.random.default_rng(SEED)
    bar = order.knowledge.weights.asking.rest
    cased = order.forecast.frame.cased
    usual = order.forecast.usual
    shown = price.worth(belonging_by_word(rest.now, cased), usual.now)
    saved: list[float] = []
    for count in BATCHES:
        for states, left in rest.complete(count, rng):
            over = price.worth(belonging_by_word(states, cased), left) - price.cost
            saved.append(max(0.0, -over if shown > price.cost else over) / price.cost)
        error = sqrt(float(np.var(saved)) / len(saved))
        if abs(float(np.mean(saved)) - bar) > 2 * error:
            break
    return float(np.mean(saved))
