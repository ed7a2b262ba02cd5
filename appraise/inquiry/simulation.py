"""Whole pieces drawn from the joint table, and what the checks would say of them.

A cell of the table is drawn, then the picture's year, the housing's, which parts are exchanges and
from when, and then an answer to every check. The draws follow the model exactly, so the same code
makes the pieces on which its calibration is tried. Everything is drawn for many pieces at once.
"""

from collections.abc import Mapping

import numpy as np
from numpy.random import Generator
from numpy.typing import NDArray

from appraise.base.dataclass import dataclass
from appraise.knowledge.records import Check, Defect, Knowledge
from appraise.reading.factors import Factors, axes_of, dated_rows, side_of, state_rows
from appraise.reading.frame import AXES, Array, Frame, Places
from appraise.reading.joint import Joint
from appraise.reading.years import MARRIED, MODERN_CASE, MODERN_IMAGE, loose_rate, times

NO_ANSWER = -1  # so that a row put last stands for it


@dataclass(frozen=True, slots=True, eq=False)
class Truths:
    """Pieces as they might be, N of them.

    Attributes:
        states: By axis, (N,) the place of each piece's state.
        years: By part, (N,) the place in `YEARS` from which its style is; 'image', 'sitter' and
            'housing' stand for the parts that are as old as those.
    """

    states: Mapping[str, Places]
    years: Mapping[str, Places]

    def year(self, check: Check, knowledge: Knowledge) -> Places:
        """The year from which the part of a dated check is."""
        side = side_of(check.part, knowledge)
        own = {"image": "image", "dress": "sitter", "housing": "housing"}
        return self.years[own.get(side, check.part)]


def draw_truths(
    joint: Joint, factors: Factors, knowledge: Knowledge, count: int, rng: Generator
) -> Truths:
    """Pieces drawn from a joint table.

    Args:
        joint: The table.
        factors: The evidence in it.
        knowledge: For the sides of the parts.
        count: How many.
        rng: Where chance comes from.
    """
    reached = np.cumsum(joint.cells)
    place = np.searchsorted(reached, rng.random(count) * reached[-1], side="right")
    place = np.minimum(place, joint.cells.size - 1)
    states = dict(zip(AXES, np.unravel_index(place, joint.cells.shape), strict=True))
    years = {"image": _image_years(joint, factors, states, rng)}
    years["sitter"] = _sitter_years(joint.frame, factors, states, years["image"], rng)
    years["housing"] = _housing_years(joint, states, years["image"], rng)
    free = states["belonging"] >= MODERN_IMAGE
    rho = np.array(joint.frame.weights.exchange)[states["package"]]
    for part, row in knowledge.parts.items():
        if row.side == "package":
            line = times(factors.package.get(part, ()))
            years[part] = _part_years(joint.frame, line, years["image"], free, rho, rng)
    for part in ("pad", "clasp"):
        line = times(factors.loose.get(part, ()))
        rate = np.full(count, loose_rate(joint.frame.weights, part))
        years[part] = _part_years(joint.frame, line, years["housing"], ~(rate >= 0), rate, rng)
    return Truths(states, years)


def _image_years(
    joint: Joint, factors: Factors, states: Mapping[str, Places], rng: Generator
) -> Places:
    frame, terms = joint.frame, joint.terms
    c, u, m, p, h = (states[axis] for axis in AXES[1:])
    copied = np.minimum(c, len(terms.picture) - 1)
    lines = terms.seen[p, copied, u] * terms.near[m, np.minimum(h, MODERN_CASE)]
    worn = np.where((c == 1)[:, None], 1.0, times(factors.dress))
    modern = frame.years * times(factors.image) * worn
    return pick(np.where((h >= MODERN_IMAGE)[:, None], modern, lines), rng)


def _sitter_years(
    frame: Frame, factors: Factors, states: Mapping[str, Places], image: Places, rng: Generator
) -> Places:
    """The year of the dress: the picture's own, or of a copy that of the original."""
    line = frame.years * times(factors.dress)
    free = pick(np.broadcast_to(line, (len(image), len(line))), rng)
    return np.where(states["copy"] == 1, free, image)


def _housing_years(
    joint: Joint, states: Mapping[str, Places], image: Places, rng: Generator
) -> Places:
    frame, terms = joint.frame, joint.terms
    h = states["belonging"]
    tied = frame.kernels[:, np.minimum(h, MARRIED), image].T
    kernel = np.where((h <= MARRIED)[:, None], tied, frame.years)
    return pick(kernel * terms.own[states["housing"]], rng)


def _part_years(
    frame: Frame, line: Array, base: Places, free: NDArray[np.bool_], rho: Array, rng: Generator
) -> Places:
    """The year of a part that goes with a year unless it was exchanged, or with none."""
    gone = rho * (line @ frame.years)
    stays = rng.random(len(base)) * (gone + (1 - rho) * line[base]) >= gone
    other = pick(np.broadcast_to(frame.years * line, (len(base), len(line))), rng)
    return np.where(stays & ~free, base, other)


def answer_chances(
    check: Check, truths: Truths, frame: Frame, knowledge: Knowledge, known: str, leads: bool
) -> Array | None:
    """(N, answers) P(answer) for each piece; None for a check that bears on nothing.

    Args:
        check: The check.
        truths: The pieces it is asked of.
        frame: States and priors.
        knowledge: For the sides of the parts.
        known: How the answer is known.
        leads: Whether it leads its evidence group.
    """
    axes = axes_of(check, frame)
    if axes:
        rows = state_rows(frame, check.id, known, False, leads)
        return np.moveaxis(rows, 0, -1)[tuple(truths.states[axis] for axis in axes)]
    if check.dates:
        lines = dated_rows(frame, check.id, known, False, leads)
        return lines.T[truths.year(check, knowledge)]
    if check.defect is not None:
        return _rates(check.defect, truths, frame)
    return None


def _rates(defect: Defect, truths: Truths, frame: Frame) -> Array:
    """The base rates of the steps of damage for each piece."""

    def rates(process: str, family: str, housing: str) -> tuple[float, ...]:
        words = (process, family, housing, "any")
        return next(defect.rates[word] for word in words if word in defect.rates)

    table = np.array(
        [[rates(p.id, p.family, m.id) for p in frame.processes] for m in frame.housings]
    )
    found: Array = table[truths.states["housing"], truths.states["process"]]
    return found


def pick(weights: Array, rng: Generator) -> Places:
    """(N,) a place for each row of weights (N, K), drawn in proportion."""
    reached = np.cumsum(weights, axis=1)
    wanted = rng.random(len(weights)) * reached[:, -1]
    places = (reached <= wanted[:, None]).sum(axis=1)
    found: Places = np.minimum(places, weights.shape[1] - 1)
    return found


def parents_first(checks: tuple[Check, ...]) -> tuple[Check, ...]:
    """The checks in their order, save that those which may lose their sense come later."""
    ordered: list[Check] = []
    waiting = list(checks)
    while waiting:
        names = {check.id for check in waiting}
        ready = [check for check in waiting if not names & set(check.when)] or waiting
        ordered += ready
        taken = {check.id for check in ready}
        waiting = [check for check in waiting if check.id not in taken]
    return tuple(ordered)
