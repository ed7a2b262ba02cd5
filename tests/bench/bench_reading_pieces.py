"""Invented pieces drawn from the shipped knowledge's own model, with answers to their checks."""

from bisect import bisect_right
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import accumulate
from random import Random

from appraise.reading.completions import Answers, Draws, Truth

from appraise.knowledge.records import Check, Knowledge
from appraise.piece.records import Finding, Piece
from appraise.reading.evidence import leader_of
from appraise.reading.factors import answer_columns, answer_lines, axes_of
from appraise.reading.frame import Frame
from appraise.reading.reading import Reading, read
from appraise.reading.rest import parents_first

REGIONS = {"us": 0.62, "gb": 0.24, "eu": 0.10, "au": 0.04}
WAYS = {"in-hand": 0.5, "photo": 0.35, "seller": 0.15}


class World:
    """Pieces and the answers that they give.

    Attributes:
        knowledge: The shipped one.
        shared: How often a check takes its chance from the cause that it shares with others and
            not from its own draw, so that a part (or a piece) tends to be odd or ordinary in all
            its signs together, which the model does not know.
        cause: The checks of one word share a cause.
    """

    def __init__(
        self,
        knowledge: Knowledge,
        shared: float = 0.0,
        cause: Callable[[Check], str] | None = None,
    ) -> None:
        self.knowledge = knowledge
        self.shared = shared
        self.cause = cause or by_part
        self._parents = {name for check in knowledge.checks.values() for name in check.when}
        self._order = {name: place for place, name in enumerate(knowledge.checks)}

    @lru_cache(maxsize=16)  # noqa: B019
    def _empty(self, region: str) -> tuple[Reading, Draws, dict[str, Answers]]:
        reading = read(Piece(region=region), self.knowledge)
        draws = Draws(reading.joint, reading.factors, self.knowledge)
        answers = {
            way: Answers(self.knowledge, reading.joint, lambda _, way=way: way) for way in WAYS
        }
        return reading, draws, answers

    def checks(self, region: str) -> tuple[Check, ...]:
        """The checks that can be asked of a piece of which nothing is known, parents first."""
        everything = [
            check
            for check in self.knowledge.checks.values()
            if "cased" in check.kinds and check.risk != "conservator"
        ]
        return parents_first(tuple(everything))

    def truth(self, region: str, rng: Random) -> Truth:
        """What a piece truly is."""
        return self._empty(region)[1].truth(rng)

    def answer(
        self, check: Check, truth: Truth, piece: Piece, leads: bool, way: str, chance: float
    ) -> str:
        """The answer to a check, or an empty string where it has none to give.

        The lower the chance, the rarer the answer in general, so that checks with one chance give
        what is out of the ordinary together.
        """
        _, draws, answers = self._empty(piece.region)
        sums = answers[way].sums(check, truth, leads)
        if not sums:
            return ""
        row = [high - low for low, high in zip((0.0, *sums), sums, strict=False)]
        usual = self._usual(check, draws.joint.frame)
        ordered = sorted(range(len(row)), key=lambda place: usual[place])
        reached = list(accumulate(row[place] for place in ordered))
        return check.answers[ordered[min(bisect_right(reached, chance), len(row) - 1)]].id

    def _usual(self, check: Check, frame: Frame) -> Sequence[float]:
        """How common each answer is in general."""
        if axes_of(check, frame):
            return answer_columns(frame, check.id)[3]
        return answer_lines(frame, check.id)[1] if check.dates else check.defect.rates["any"]

    def chances(self, rng: Random) -> "Chances":
        """A number for every check."""
        return Chances(rng, self.shared, self.cause)

    def looked_at(self, region: str, rng: Random) -> tuple[Truth, Piece]:
        """A piece of which some checks were answered, in ways that a person might."""
        truth, piece = self.truth(region, rng), Piece(region=region)
        zeal = rng.uniform(0.03, 0.6)
        chosen = [check for check in self.checks(region) if rng.random() < zeal]
        ids = {check.id for check in chosen}
        # A check in the group of its own parent would change who leads it; one of them will do.
        chosen = [
            check
            for check in chosen
            if not any(
                name in ids and self.knowledge.checks[name].group == check.group != ""
                for name in check.when
            )
        ]
        chances = self.chances(rng)
        for first in (True, False):
            mine = [check for check in chosen if (check.id in self._parents) is first]
            if not first:
                mine = [check for check in mine if sensible(check, piece)]
            piece = self._answered(mine, chosen, truth, piece, chances, rng)
        return truth, piece

    def _answered(
        self,
        mine: Iterable[Check],
        chosen: Iterable[Check],
        truth: Truth,
        piece: Piece,
        chances: "Chances",
        rng: Random,
    ) -> Piece:
        """The piece with some of the chosen checks answered."""
        able = sorted(
            (check for check in chosen if sensible(check, piece)),
            key=lambda check: self._order[check.id],
        )
        leads = leading(able)
        for check in mine:
            if not sensible(check, piece):
                continue
            way = rng.choices(list(WAYS), list(WAYS.values()))[0]
            said = self.answer(check, truth, piece, leads[check.id], way, chances.of(check))
            if said:
                finding = Finding(check.id, said, way)
                piece = replace(piece, findings={**piece.findings, check.id: finding})
        return piece


def by_part(check: Check) -> str:
    """Checks of one part have a cause in common."""
    return check.part


def by_piece(check: Check) -> str:
    """All checks have, the cause of the piece as a whole."""
    return ""


def by_group(check: Check) -> str:
    """Checks of one evidence group have, and no others."""
    return check.group or check.id


class Chances:
    """A number from 0 up to 1 for every check, some of them the same for checks of one cause.

    Whatever is asked first, a check has its number.
    """

    def __init__(self, rng: Random, shared: float, cause: Callable[[Check], str] = by_part) -> None:
        self._seed = rng.random()
        self._shared, self._cause = shared, cause

    def of(self, check: Check) -> float:
        """The number of a check."""
        own = Random(f"{self._seed} {check.id}")
        chance = own.random()
        if own.random() < self._shared:
            return Random(f"{self._seed} cause {self._cause(check)}").random()
        return chance


def sensible(check: Check, piece: Piece) -> bool:
    """Whether the answers given leave a check its sense."""
    return all(piece.found(other) in ("", *wanted) for other, wanted in check.when.items())


def leading(checks: Iterable[Check]) -> Mapping[str, bool]:
    """By check, whether it leads its evidence group; the checks in the order of the files."""
    ordered = list(checks)
    found = {}
    for check in ordered:
        found[check.id] = not check.group or leader_of(check.group, ordered) is check
    return found
