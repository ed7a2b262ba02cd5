"""When enough has been seen: what looking at all the rest would still be worth.

The rest of the checks is played through on pieces drawn from the joint table. Each is read with
everything answered, and what that would have saved is set beside the cost. The draws are the same
every time.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt
from random import Random

from appraise.knowledge.records import Knowledge
from appraise.reading.forecast import Forecast
from appraise.reading.next_check import Price, Proposal, modern_seen, ready, tells_modern
from appraise.reading.reading import Reading, belonging_by_word
from appraise.reading.rest import Rest

FEWEST, MOST = 60, 200
SEED = 20_240_601


@dataclass(frozen=True, slots=True)
class Enough:
    """Whether enough has been seen.

    Attributes:
        enough: Whether to stop.
        not_looked: Ids of the safe checks that make sense and were not made.
        gain: What all of them together would gain on average, as a part of the cost; with no
            price, the bits that the best of them promises.
    """

    enough: bool
    not_looked: tuple[str, ...]
    gain: float


def enough(
    reading: Reading,
    knowledge: Knowledge,
    proposals: Sequence[Proposal],
    price: Price | None = None,
) -> Enough:
    """Whether enough has been seen; never before the safety floor has been looked at.

    Args:
        reading: The piece as read.
        knowledge: The trade's knowledge.
        proposals: As from `ranked`, with the same price.
        price: What is asked and what it would be worth; None goes by information alone.
    """
    forecast = Forecast(reading, knowledge)
    not_looked = tuple(check.id for check in forecast.open)
    if price is None:
        told = max((one.gain for one in proposals), default=0.0)
    else:
        told = rest_gain(forecast, price) if not_looked else 0.0
    asking = knowledge.weights.asking
    stop = told < (asking.faint if price is None else asking.rest)
    return Enough(stop and not floor_open(forecast), not_looked, told)


def floor_open(forecast: Forecast) -> bool:
    """Whether something of the safety floor has not been looked at."""
    able = [check for check in forecast.open if ready(check, forecast)]
    if any(check.safety for check in able):
        return True
    return not modern_seen(forecast) and any(tells_modern(c, forecast.knowledge) for c in able)


def rest_gain(forecast: Forecast, price: Price) -> float:
    """The expected gain, as a part of the cost, of making every open check before deciding.

    The mean over pieces drawn from the table: 60 of them, and up to 200 while it is within two
    standard errors of the share that counts.
    """
    rest, rng = Rest(forecast), Random(SEED)
    bar = forecast.knowledge.weights.asking.rest
    cased = forecast.frame.cased
    shown = price.worth(belonging_by_word(rest.now, cased), forecast.usual.now)
    sums = squares = 0.0
    for count in range(1, MOST + 1):
        states, left = rest.complete(rng)
        over = price.worth(belonging_by_word(states, cased), left) - price.cost
        saved = max(0.0, -over if shown > price.cost else over) / price.cost
        sums, squares = sums + saved, squares + saved * saved
        error = sqrt(max(0.0, squares / count - (sums / count) ** 2) / count)
        if count >= FEWEST and abs(sums / count - bar) > 2 * error:
            break
    return sums / count
