"""Simulated decisions: how many questions, and how many seconds, until enough has been seen.

Every piece is asked about in the order proposed and in the order of the parts, and a third of them
in a random one too, with one stop rule and at three prices. Checks that see one fact err together,
whichever of them is made, so a piece answers the same in every order. A decision agrees when it is
that of someone who made every check.
"""

import time
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from random import Random

import numpy as np
from appraise.reading.completions import Truth
from bench_reading_pieces import Chances, World, by_group, sensible
from bench_reading_speed import worth

from appraise.knowledge import load
from appraise.knowledge.records import Check, Knowledge
from appraise.piece.records import Finding, Piece
from appraise.reading.enough import rest_gain
from appraise.reading.forecast import Forecast
from appraise.reading.next_check import Price, ranked
from appraise.reading.reading import Reading, read
from appraise.reading.usual import beside_usual

SEED = 5
PRICES = (70.0, 95.0, 125.0)  # of a whole piece with the usual damage worth 100
ORDERS = ("proposed", "parts", "random")
HALF = 0.5  # of the questions that the order of the parts asks
THIRD = 3 * len(PRICES)  # of every nine pieces, three are asked about in random order too
EVERY = 4  # questions between two looks at the stop rule, in all orders
FIRST = ("case.material", "claim.process")  # what is seen at a first glance


@dataclass(frozen=True, slots=True)
class Run:
    """One decision: how much was asked, what was decided, and what it cost."""

    questions: int
    seconds: float
    agrees: bool
    regret: float


class Asked:
    """A piece that answers when it is asked."""

    def __init__(self, world: World, truth: Truth, chances: Chances) -> None:
        self.world, self.truth, self.chances = world, truth, chances
        self.piece = Piece(region="us")

    def ask(self, check: Check) -> None:
        """Make a check."""
        known = "seller" if check.part == "claim" else "in-hand"
        chance = self.chances.of(check)
        said = self.world.answer(check, self.truth, self.piece, True, known, chance)
        finding = Finding(check.id, said or "cannot-tell", known)
        self.piece = replace(self.piece, findings={**self.piece.findings, check.id: finding})


def decided(reading: Reading, knowledge: Knowledge) -> float:
    """What a reading says that the piece is worth."""
    return worth(dict(reading.belonging), beside_usual(reading, knowledge))


def everything(asked: Asked) -> Reading:
    """The reading once every check was made."""
    for check in asked.world.checks("us"):
        if sensible(check, asked.piece):
            asked.ask(check)
    return read(asked.piece, asked.world.knowledge)


def next_one(order: str, forecast: Forecast, price: Price, rng: Random) -> Check:
    """The next check in an order."""
    if order == "proposed":
        name = ranked(forecast.reading, forecast.knowledge, price)[0].check
        return forecast.knowledge.checks[name]
    parts = list(forecast.knowledge.parts)
    if order == "parts":
        return min(forecast.open, key=lambda check: parts.index(check.part))
    return rng.choice(forecast.open)


def run(asked: Asked, order: str, price: Price, full: float, rng: Random) -> Run:
    """Ask in an order until enough has been seen."""
    knowledge = asked.world.knowledge
    for name in FIRST:
        asked.ask(knowledge.checks[name])
    questions, seconds = 0, 0.0
    while True:
        reading = read(asked.piece, knowledge)
        forecast = Forecast(reading, knowledge)
        if not forecast.open:
            break
        if (
            questions % EVERY == 0
            and rest_gain(forecast, price) < forecast.knowledge.weights.asking.rest
        ):
            break
        check = next_one(order, forecast, price, rng)
        asked.ask(check)
        questions, seconds = questions + 1, seconds + check.seconds
    buys, should = decided(reading, knowledge) > price.cost, full > price.cost
    regret = 0.0 if buys == should else abs(full - price.cost) / price.cost
    return Run(questions, seconds, buys == should, regret)


_WORLD: list[World] = []  # the world of a process of its own


def _start() -> None:
    _WORLD.append(World(load()))


def decide(number: int) -> dict[str, Run]:
    """One piece asked about in every order."""
    world, cost = _WORLD[0], PRICES[number % len(PRICES)]
    rng = Random(SEED * 1_000_000 + number)
    truth, seed = world.truth("us", rng), rng.random()
    whole = everything(Asked(world, truth, Chances(Random(seed), 1.0, by_group)))
    full = decided(whole, world.knowledge)
    runs = {}
    for order in ORDERS if number % THIRD < len(PRICES) else ORDERS[:2]:
        asked = Asked(world, truth, Chances(Random(seed), 1.0, by_group))
        runs[order] = run(asked, order, Price(worth, cost), full, Random(seed + 1))
    return runs


def check_decisions(count: int) -> bool:
    """Print the figures; True for at most half the questions of the parts, at no lower agreement.

    Two orders agree alike when they differ by less than two standard errors of pairs.
    """
    start = time.perf_counter()
    with ProcessPoolExecutor(initializer=_start) as pool:
        found = list(pool.map(decide, range(count)))
    print(f"{count} decisions, {time.perf_counter() - start:.0f} s")
    for number, cost in enumerate(PRICES):
        for order in ORDERS:
            runs = [one[order] for one in found[number :: len(PRICES)] if order in one]
            print(f"  price {cost:.0f} {order:9} {told(runs)}")
    for order in ORDERS:
        print(f"  all      {order:9} {told([one[order] for one in found if order in one])}")
    asked = {order: sum(one[order].questions for one in found) for order in ORDERS[:2]}
    gaps = np.array([one["parts"].agrees - one["proposed"].agrees for one in found], float)
    error = gaps.std() / len(gaps) ** 0.5
    print(
        f"  questions {asked['proposed'] / asked['parts']:.2f} of those of the parts; "
        f"agreement lower by {gaps.mean():.3f}, standard error {error:.3f}"
    )
    return bool(asked["proposed"] <= HALF * asked["parts"] and gaps.mean() <= 2 * error)


def told(runs: list[Run]) -> str:
    """One line of figures."""
    questions = [one.questions for one in runs]
    return (
        f"questions {np.mean(questions):5.1f} (median {np.median(questions):.0f})  "
        f"seconds {np.mean([one.seconds for one in runs]):4.0f}  "
        f"agrees {np.mean([one.agrees for one in runs]):.3f}  "
        f"regret {np.mean([one.regret for one in runs]):.4f} of the cost"
    )
