"""The checks on damage of a kind of piece as arrays: how common each step is, and what it leaves.

Of each part the worst fault counts in full and the others by their square root (`condition`). With
F(t) the mean of the product of square roots where no worth is below t, the mean of that product
times the square root of the least worth is SUM over the worths t of a part, from the greatest down,
of sqrt(t) times what F gains there; which is SUM of F(t) times how far sqrt(t) is above the next.
"""

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from appraise.base.dataclass import dataclass
from appraise.knowledge.records import Check, Defect
from appraise.reading.frame import Array, Frame

ANY = "any"
STEPS = 4
NEVER = 2.0  # a worth that nothing leaves, where a part has fewer than others


class Moving(NamedTuple):
    """Checks on damage that is not alike everywhere: (V,) places, (states, V * STEPS) P(step)."""

    places: NDArray[np.intp]
    rates: Array


@dataclass(frozen=True, slots=True, eq=False)
class DamageTables:
    """D checks on damage in the order of their parts; X processes, then housings; W worths.

    Attributes:
        places: The place of each check.
        starts: Where the checks of each part begin.
        alike: (D, STEPS) P(step) of the checks for which it is the same everywhere.
        moving: The others: by process where the check's rates know one, then by housing.
        words: (D,) the place in `only` of the words by which a check is limited.
        only: (2, X, words) 1 for the processes, and for the housings, in which it makes sense.
        left: (D, W, STEPS) the square root of what a step leaves where that is W or more, else 0.
        above: (parts, W) how far the root of each worth of a part is above that of the next.
    """

    places: Mapping[str, int]
    starts: NDArray[np.intp]
    alike: Array
    moving: tuple[Moving, Moving]
    words: NDArray[np.intp]
    only: Array
    left: Array
    above: Array

    def chances(self, states: Array) -> Array:
        """(D, STEPS) P(step) before looking, by the chances (X,) of processes and housings.

        Processes and housings for which a check makes no sense have no such damage.
        """
        found = self.alike.copy()
        count = len(self.moving[0].rates)
        for moving, mine in zip(self.moving, (states[:count], states[count:]), strict=True):
            found[moving.places] = (mine @ moving.rates).reshape(-1, STEPS)
        applies = np.minimum(1.0, (states @ self.only).max(axis=0))[self.words]
        found *= applies[:, None]
        found[:, 0] += 1 - applies
        return found

    def lines(self, chances: Array) -> Array:
        """(D, W) the mean root of what each check leaves, where that is W or more."""
        return np.matmul(self.left, chances[..., None])[..., 0]

    def kept(self, lines: Array) -> Array:
        """(parts,) the mean share of value that the damage of each part leaves."""
        found: Array = (np.multiply.reduceat(lines, self.starts, axis=0) * self.above).sum(axis=1)
        return found

    def part_of(self, place: int) -> int:
        """The place of the part of a check."""
        return int(np.searchsorted(self.starts, place, side="right")) - 1


@lru_cache(maxsize=64)
def damage_of(frame: Frame) -> DamageTables:
    """The damage of a kind of piece; kept, since it never changes."""
    by_part: dict[str, list[tuple[Check, Defect]]] = {}
    for check in frame.checks.values():
        if check.defect is not None and frame.kind in check.kinds:
            by_part.setdefault(check.part, []).append((check, check.defect))
    ordered = [pair for pairs in by_part.values() for pair in pairs]
    worths = [
        sorted({worth for _, defect in pairs for worth in defect.worth}, reverse=True)
        for pairs in by_part.values()
    ]
    most = max(map(len, worths), default=1)
    least = np.array([[*line, *[NEVER] * (most - len(line))] for line in worths])
    roots = np.sqrt(np.where(least == NEVER, 0.0, least)).reshape(-1, most)
    counts = np.array([len(pairs) for pairs in by_part.values()], dtype=np.intp)
    left = np.array([defect.worth for _, defect in ordered]).reshape(-1, 1, STEPS)
    reaching = left >= np.repeat(least.reshape(-1, most), counts, axis=0)[:, :, None]
    rates = [_rates(defect, frame) for _, defect in ordered]
    words = list(dict.fromkeys([(), *(check.only for check, _ in ordered)]))
    only = np.array([_only(one, frame) for one in words])
    return DamageTables(
        places={check.id: place for place, (check, _) in enumerate(ordered)},
        starts=np.cumsum(counts) - counts,
        alike=np.array([rows[0] for _, rows in rates], dtype=float).reshape(-1, STEPS),
        moving=(
            _moving(rates, len(frame.processes), True),
            _moving(rates, len(frame.housings), False),
        ),
        words=np.array([words.index(check.only) for check, _ in ordered], dtype=np.intp),
        only=only.transpose(1, 2, 0).copy(),
        left=np.where(reaching, np.sqrt(left), 0.0),
        above=roots - np.hstack([roots[:, 1:], np.zeros((len(roots), 1))]),
    )


def _moving(rates: Sequence[tuple[bool, Array]], states: int, by_process: bool) -> Moving:
    """The checks of which P(step) is not the same in all of so many processes, or housings."""
    mine = [n for n, (of, rows) in enumerate(rates) if of is by_process and np.ptp(rows, 0).any()]
    rows = np.array([rates[n][1] for n in mine]).reshape(-1, states, STEPS)
    return Moving(np.array(mine, dtype=np.intp), rows.swapaxes(0, 1).reshape(states, -1))


def _rates(defect: Defect, frame: Frame) -> tuple[bool, Array]:
    """(processes, STEPS) P(step) where the rates know one of them, or else by housing."""
    rates = defect.rates
    words = [one.id if one.id in rates else one.family for one in frame.processes]
    by_process = not frame.cased or any(word in rates for word in words)
    named = words if by_process else [one.id for one in frame.housings]
    return by_process, np.array([rates.get(word, rates[ANY]) for word in named])


def _only(named: Sequence[str], frame: Frame) -> Array:
    """(2, X) 1 for the processes, and for the housings, in which a check makes sense.

    Args:
        named: The words by which it is limited.
        frame: The kind of piece.
    """
    words, count = set(named), len(frame.processes)
    found = np.zeros((2, count + len(frame.housings)))
    if not words:
        found[0, :count] = 1.0
        return found
    found[0, :count] = [bool(words & {one.id, one.family}) for one in frame.processes]
    found[1, count:] = [one.id in words for one in frame.housings]
    return found
