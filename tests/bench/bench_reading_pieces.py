"""Invented pieces drawn from the knowledge's own model, many at once, with answers to checks.

Half of them are drawn modern and weighted back, so that what is rare is met often enough to be
judged.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from numpy.random import Generator

from appraise.inquiry.simulation import (
    NO_ANSWER,
    Truths,
    answer_chances,
    draw_truths,
)
from appraise.knowledge.records import Check, Knowledge
from appraise.reading.evidence import leader_of
from appraise.reading.factors import axes_of
from appraise.reading.frame import Array, Places
from appraise.reading.joint import PERIOD, Joint
from appraise.reading.reading import Reading, read
from appraise.records.piece import Finding, Piece

REGIONS = {"us": 0.62, "gb": 0.24, "eu": 0.10, "au": 0.04}
WAYS = {"in-hand": 0.5, "photo": 0.35, "seller": 0.15}
ZEAL = (0.03, 0.6)  # the part of the checks that a person makes
MODERN = PERIOD - 1  # from here on the states of belonging have a modern part
HALF = 0.5
Cause = Callable[[Check], str]


@dataclass(frozen=True, eq=False)
class Drawn:
    """Pieces of one region, N of them.

    Attributes:
        truths: What they are.
        weights: (N,) by how much each stands for more or fewer pieces than one.
        answers: By check, (N,) the answer of each piece, or NO_ANSWER.
        ways: By check, (N,) how each answer is known, as a place in `WAYS`.
    """

    truths: Truths
    weights: Array
    answers: Mapping[str, Places]
    ways: Mapping[str, Places]

    def pieces(self, region: str, knowledge: Knowledge) -> Iterator[Piece]:
        """The pieces as a person would note them."""
        ways = list(WAYS)
        for n in range(len(self.weights)):
            found = {
                name: Finding(
                    name, knowledge.checks[name].answers[places[n]].id, ways[self.ways[name][n]]
                )
                for name, places in self.answers.items()
                if places[n] != NO_ANSWER
            }
            yield Piece(region=region, findings=found)


class World:
    """Pieces of a knowledge, and the answers that they give.

    Attributes:
        knowledge: The pieces' own.
        shared: How often a check takes its chance from the cause that it shares with others and
            not from its own draw, so that a part (or a piece) tends to be odd or ordinary in all
            its signs together, which the model does not know.
        cause: The checks of one word share a cause.
    """

    def __init__(
        self, knowledge: Knowledge, shared: float = 0.0, cause: Cause | None = None
    ) -> None:
        self.knowledge, self.shared, self.cause = knowledge, shared, cause or by_part
        self.checks = by_depth(knowledge)

    @lru_cache(maxsize=16)  # noqa: B019
    def _empty(self, region: str) -> Reading:
        return read(Piece(region=region), self.knowledge)

    def draw(self, region: str, count: int, rng: Generator, modern: float | None = HALF) -> Drawn:
        """So many pieces of a region, and what a person found out about each.

        Args:
            region: The region.
            count: N.
            rng: Where chance comes from.
            modern: The part of them drawn modern and weighted back; None draws as the model has it.
        """
        reading = self._empty(region)
        joint, scale = tilted(reading.joint, modern)
        truths = draw_truths(joint, reading.factors, self.knowledge, count, rng)
        weights = scale[truths.states["belonging"]]
        asked = self._asked(count, rng)
        chances = self._uniform(count, rng)
        answers: dict[str, Places] = {}
        ways: dict[str, Places] = {}
        for level in self.checks:
            for check in level:
                asked[check.id] &= sensible(check, answers, self.knowledge)
            leads = leading(level, asked)
            for check in level:
                ways[check.id] = rng.choice(len(WAYS), count, p=list(WAYS.values()))
                found = self._answers(reading, check, truths, leads[check.id], ways[check.id],
                                      chances(check), weights)  # fmt: skip
                if found is not None:
                    answers[check.id] = np.where(asked[check.id], found, NO_ANSWER)
        return Drawn(truths, weights, answers, ways)

    def _asked(self, count: int, rng: Generator) -> dict[str, np.ndarray]:
        """By check, (N,) whether it is made, leaving out what would change who leads a group.

        That is a check that hangs on another where one of its group hangs on none, and, of a group
        with an answer that undates its part, all but one.
        """
        zeal = rng.uniform(*ZEAL, count)
        asked: dict[str, np.ndarray] = {}
        taken: dict[str, np.ndarray] = {}
        fickle = {c.group for level in self.checks for c in level
                  if any(answer.undates for answer in c.answers)}  # fmt: skip
        for level in self.checks:
            fresh: dict[str, np.ndarray] = {}
            for check in level:
                mine = rng.random(count) < zeal
                if check.group:
                    mine &= ~taken.get(check.group, np.zeros(count, bool))
                    before = fresh.get(check.group, np.zeros(count, bool))
                    if check.group in fickle:
                        mine &= ~before
                    fresh[check.group] = before | mine
                asked[check.id] = mine
            for group, mine in fresh.items():
                taken[group] = taken.get(group, np.zeros(count, bool)) | mine
        return asked

    def _uniform(self, count: int, rng: Generator) -> Callable[[Check], Array]:
        """By check, (N,) numbers from 0 up to 1, some of them the same for checks of one cause."""
        causes: dict[str, Array] = {}

        def chances(check: Check) -> Array:
            own = rng.random(count)
            if not self.shared:
                return own
            word = self.cause(check)
            if word not in causes:
                causes[word] = rng.random(count)
            return np.where(rng.random(count) < self.shared, causes[word], own)

        return chances

    def _answers(
        self,
        reading: Reading,
        check: Check,
        truths: Truths,
        leads: np.ndarray,
        ways: Places,
        chances: Array,
        weights: Array,
    ) -> Places | None:
        """(N,) the answers; None for a check that bears on nothing in the table.

        The lower the chance, the rarer the answer in general, so that checks with one chance give
        what is out of the ordinary together.
        """
        frame = reading.joint.frame
        if not axes_of(check, frame) and not check.dates:
            return None
        found = np.zeros((len(ways), len(check.answers)))
        for place, known in enumerate(WAYS):
            for lead in (True, False):
                mine = (ways == place) & (leads == lead)
                if mine.any():
                    some = Truths({k: v[mine] for k, v in truths.states.items()},
                                  {k: v[mine] for k, v in truths.years.items()})  # fmt: skip
                    rows = answer_chances(check, some, frame, self.knowledge, known, lead)
                    found[mine] = rows
        rarest = np.argsort(weights @ found)
        reached = np.cumsum(found[:, rarest], axis=1)
        places = (reached <= chances[:, None] * reached[:, -1:]).sum(axis=1)
        return rarest[np.minimum(places, len(rarest) - 1)]


def tilted(joint: Joint, modern: float | None) -> tuple[Joint, Array]:
    """The table with so much of it modern, and (5,) the weights that undo that by state."""
    if modern is None:
        return joint, np.ones(5)
    share = float(joint.states[MODERN:].sum())
    scale = np.where(np.arange(5) >= MODERN, share / modern, (1 - share) / (1 - modern))
    return replace(joint, prior=joint.prior / scale, weights=joint.weights / scale), scale


def by_depth(knowledge: Knowledge) -> tuple[tuple[Check, ...], ...]:
    """The checks that an owner can make of a cased piece, those that hang on others after them."""
    able = {
        check.id: check
        for check in knowledge.checks.values()
        if "cased" in check.kinds and check.risk != "conservator"
    }
    levels: list[tuple[Check, ...]] = []
    waiting = dict(able)
    while waiting:
        ready = tuple(c for c in waiting.values() if not parents(c) & set(waiting))
        levels.append(ready or tuple(waiting.values()))
        waiting = {name: c for name, c in waiting.items() if c not in levels[-1]}
    return tuple(levels)


def implied(check: Check) -> frozenset[str]:
    """The checks of which an answer follows from one of this."""
    return frozenset(name for answer in check.answers for name in answer.implies)


def parents(check: Check) -> frozenset[str]:
    """The checks on which this hangs."""
    return frozenset(check.when) | implied(check)


def sensible(check: Check, answers: Mapping[str, Places], knowledge: Knowledge) -> np.ndarray:
    """(N,) whether the answers given leave a check its sense.

    One from which another answer follows is asked after that other alone, since what follows is
    no draw of its own.
    """
    found = np.array(True)
    for name in parents(check):
        told = answers.get(name)
        if told is None:
            found = found & (name not in implied(check))
            continue
        open_counts = [] if implied(check) else [NO_ANSWER]
        other = knowledge.checks[name]
        wanted = check.when.get(name, tuple(answer.id for answer in other.answers))
        found = found & np.isin(told, [*(other.index(word) for word in wanted), *open_counts])
    return found


def leading(level: tuple[Check, ...], asked: Mapping[str, np.ndarray]) -> Mapping[str, np.ndarray]:
    """By check, (N,) whether it leads its evidence group among those asked."""
    count = len(next(iter(asked.values())))
    found = {check.id: np.ones(count, bool) for check in level}
    for group in {check.group for check in level if check.group}:
        mates = [check for check in level if check.group == group]
        mates.sort(key=lambda check: check is not leader_of(group, mates))
        ranked = []
        while mates:
            best = leader_of(group, mates)
            ranked.append(best)
            mates = [check for check in mates if check is not best]
        taken = np.zeros(count, bool)
        for check in ranked:
            found[check.id] = ~taken
            taken = taken | asked[check.id]
    return found


def jittered(knowledge: Knowledge, spread: float, rng: Generator) -> Knowledge:
    """The same with the log-odds of every table moved by a normal of that spread."""

    def moved(row: tuple[float, ...]) -> tuple[float, ...]:
        values = np.array(row) * np.exp(rng.normal(0, spread, len(row)))
        return tuple((values / values.sum()).tolist())

    checks = {
        name: replace(check, tables=tuple(
            replace(table, rows={state: moved(row) for state, row in table.rows.items()})
            for table in check.tables
        ))
        for name, check in knowledge.checks.items()
    }  # fmt: skip
    return replace(knowledge, checks=checks)


def by_part(check: Check) -> str:
    """Checks of one part have a cause in common."""
    return check.part


def by_piece(check: Check) -> str:
    """All checks have, the cause of the piece as a whole."""
    return ""
