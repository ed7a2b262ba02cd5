"""What is true of a kind of piece before anything is seen: states, priors and lines over years."""

from collections.abc import Mapping, Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from appraise.base.dataclass import dataclass
from appraise.knowledge.crossing import trapezoid
from appraise.knowledge.records import (
    BELONGING,
    DISTURBED,
    IMAGELESS,
    NAMELESS,
    YEARS,
    YES_NO,
    Check,
    Housing,
    Knowledge,
    Process,
    Weights,
)
from appraise.records.piece import Piece

Array = NDArray[np.float64]
Places = NDArray[np.intp]
Vector = tuple[float, ...]
SPAN = len(YEARS)
HOUSED = ("cased", "empty-case")
AXES = ("altered", "copy", "package", "housing", "process", "belonging")  # short axes first: faster


@dataclass(frozen=True, slots=True, eq=False)
class Frame:
    """The states of one kind of piece in one region, with their priors.

    Compared by identity, so that what follows from it can be kept.

    Attributes:
        kind, region: As in the piece.
        processes: The processes in which the kind is met.
        housings: Housing classes; one nameless class for kinds without a housing.
        process_share, housing_share: Priors, summing to 1.
        years: (Y,) the fixed prior over the picture's year, summing to 1.
        process_years: (processes, Y) prior over the year by process, each summing to 1.
        housing_years: (housings, Y) weights whose mean under `years` is 1.
        kernels: (Y, 2, Y) P(the housing is of a year | tie, the picture's year), where they belong
            together and where they are married.
        checks: The checks, by id, with the tables that hold for the kind.
        weights: The model's settings.
    """

    kind: str
    region: str
    processes: tuple[Process, ...]
    housings: tuple[Housing, ...]
    process_share: Array
    housing_share: Array
    years: Array
    process_years: Array
    housing_years: Array
    kernels: Array
    checks: Mapping[str, Check]
    weights: Weights

    @property
    def cased(self) -> bool:
        """Whether the kind has a housing, so that picture and housing may be strangers."""
        return self.kind in HOUSED

    def states(self, axis: str) -> tuple[str, ...]:
        """The states of an axis in the order of the joint table; none where it has no such axis."""
        if axis == "housing":
            return tuple(housing.id for housing in self.housings) if self.cased else ()
        if axis == "process":
            return tuple(process.id for process in self.processes if process.id)
        return {"belonging": BELONGING, "package": DISTURBED}.get(axis, YES_NO)

    def reference(self, axis: str) -> Array:
        """The fixed prior of an axis over which unreliable eyes are averaged."""
        weights = self.weights
        if axis == "housing":
            return self.housing_share
        if axis == "process":
            return self.process_share
        if axis == "belonging":
            return np.array([weights.reference[state] for state in BELONGING])
        yes = {"package": weights.disturbed, "copy": weights.copy, "altered": weights.altered}[axis]
        return np.array([1 - yes, yes])

    def modern(self, channel: str, subjects: Sequence[str]) -> tuple[float, float]:
        """The factors on the odds of a modern housing and of a modern picture.

        Of several subjects the one counts that is copied most.
        """
        factor = self.weights.modern[channel]
        famous = max((self.weights.famous.get(one, 1.0) for one in subjects), default=1.0)
        return factor, factor * famous


@lru_cache(maxsize=256)
def belonging_rates(frame: Frame, factors: tuple[float, float]) -> Array:
    """P(h | m, p, channel, subject) as (housing, process, state), states as in `BELONGING`.

    Args:
        frame: The kind of piece.
        factors: As from `Frame.modern`.
    """
    if not frame.cased:
        return np.array([[_loose(frame, one, factors[1]) for one in frame.processes]])
    return np.array(
        [[_housed(frame, m, p, factors) for p in frame.processes] for m in frame.housings]
    )


@lru_cache(maxsize=256)
def base_cells(frame: Frame, factors: tuple[float, float]) -> Array:
    """P(m) P(p) P(h | m, p) P(u) P(copy) P(altered) over `AXES`."""
    return np.multiply.outer(frame.reference(AXES[0]), unaltered_cells(frame, factors))


@lru_cache(maxsize=256)
def unaltered_cells(frame: Frame, factors: tuple[float, float]) -> Array:
    """The same over all of them but the first."""
    shares = frame.housing_share[:, None, None] * frame.process_share[None, :, None]
    cells = shares * belonging_rates(frame, factors)
    for axis in ("package", "copy"):
        cells = np.multiply.outer(frame.reference(axis), cells)
    return cells


def _housed(
    frame: Frame, housing: Housing, process: Process, factors: tuple[float, float]
) -> Vector:
    """Period pieces are together or married; modern parts come in any of three ways."""
    case = _moved(housing.modern_case, factors[0])
    image = _moved(process.modern_image, factors[1])
    whole = max(case * image, frame.weights.all_modern * min(case, image))
    modern_case, modern_image = case - whole, image - whole
    period = 1 - modern_case - modern_image - whole
    rates = housing.married
    married = rates.get(process.id, rates.get(process.family, rates["any"])) if process.id else 0.0
    return (period * (1 - married), period * married, modern_case, modern_image, whole)


def _loose(frame: Frame, process: Process, factor: float) -> Vector:
    """The same for a piece without a housing, which is of its period or modern."""
    modern = _moved(process.modern_image, factor)
    whole = frame.weights.all_modern * modern
    return (1 - modern, 0.0, 0.0, modern - whole, whole)


def _moved(chance: float, factor: float) -> float:
    """A chance of being modern whose odds are multiplied by a factor."""
    odds = factor * chance / (1 - chance)
    return odds / (1 + odds)


@lru_cache(maxsize=64)
def frame_of(knowledge: Knowledge, kind: str, region: str) -> Frame:
    """The frame of a kind of piece in a region; kept, since it never changes."""
    weights = knowledge.weights
    years = prior_years(weights, kind, region)
    processes = tuple(p for p in knowledge.processes.values() if p.shares.get(kind))
    processes = processes or (IMAGELESS,)
    housings = tuple(knowledge.housings.values()) if kind in HOUSED else (NAMELESS,)
    shapes = [process_line(process, region, weights) for process in processes]
    lines = [
        shape if one.apart else years * shape for one, shape in zip(processes, shapes, strict=True)
    ]
    classes = np.array([trapezoid(housing.years, region, weights) for housing in housings])
    return Frame(
        kind=kind,
        region=region,
        processes=processes,
        housings=housings,
        process_share=normalised([_share_of(one, kind, region) for one in processes]),
        housing_share=normalised([housing.share for housing in housings]),
        years=years,
        process_years=np.array([normalised(line) for line in lines]),
        housing_years=classes / (classes @ years)[:, None],
        kernels=_kernels(weights, years),
        checks={name: check.for_kind(kind) for name, check in knowledge.checks.items()},
        weights=weights,
    )


def _share_of(process: Process, kind: str, region: str) -> float:
    """The share of a process in a kind and region; what holds no picture has one state alone."""
    return process.share_in(kind, region) if process.id else 1.0


def process_line(process: Process, region: str, weights: Weights) -> Array:
    """(Y,) how common a process was by year.

    Before it was invented anywhere nothing but a slip of the sources speaks for it.
    """
    line = np.array(trapezoid(process.years, region, weights))
    if process.years:
        invented = min(one.first for one in process.years.values())
        line[np.array(YEARS) < invented] *= weights.uninvented
    return line


def frame_for(piece: Piece, knowledge: Knowledge) -> Frame:
    """The frame in which a piece is read."""
    return frame_of(knowledge, piece.kind, piece.region)


def prior_years(weights: Weights, kind: str, region: str) -> Array:
    """The fixed prior over the picture's year: a trapezoid over a thin floor, summing to 1."""
    rows = weights.image_years
    shape = rows.get(f"{kind} {region}") or rows.get(kind, rows["cased"])
    return normalised([weight + weights.image_floor for weight in shape.weights(YEARS)])


def mean_of(frame: Frame, line: Array) -> float:
    """The mean of a line (Y,) under the fixed prior over years."""
    return float(line @ frame.years)


def normalised(values: Sequence[float] | Array) -> Array:
    """The values divided by their sum."""
    line = np.asarray(values, dtype=float)
    return line / line.sum()


def _kernels(weights: Weights, years: Array) -> Array:
    """(Y, 2, Y) P(the housing is of a year | tie, the picture's year).

    Together: older by a lag of stock; before the first year the first stands. Married: in part made
    to look right, within a window, and the rest of any year.
    """
    lag, window = np.zeros((SPAN, SPAN)), np.zeros((SPAN, SPAN))
    for year in range(SPAN):
        for older, chance in enumerate(weights.lags):
            lag[max(0, year - older), year] += chance
        near = slice(max(0, year - weights.kappa_window), year + weights.kappa_window + 1)
        window[near, year] = 1.0
    window /= window.sum(axis=0)
    married = weights.kappa * window + (1 - weights.kappa) * years[:, None]
    return np.stack([lag, married], axis=1)
