"""What is true of a kind of piece before anything is seen: states, priors and year vectors."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from operator import mul

from appraise.knowledge.crossing import trapezoid
from appraise.knowledge.records import (
    BELONGING,
    DISTURBED,
    YEARS,
    YES_NO,
    Basis,
    Check,
    Housing,
    Knowledge,
    Process,
    Weights,
)
from appraise.piece.records import Piece

Vector = tuple[float, ...]
SPAN = len(YEARS)
FAMOUS = ("soldier",)
HOUSED = ("cased", "empty-case")
# A kind of piece without a housing is read as if it had one that tells nothing.
NAMELESS = Housing(
    id="",
    name="",
    share=1.0,
    years={},
    married={"any": 0.0},
    before=(0.0, 0.0),
    modern_case=0.0,
    image=1.0,
    case=0.0,
    bond=0.0,
    basis=Basis("judgement"),
)

# What holds no picture is read as if its picture were of a process that tells nothing.
IMAGELESS = Process(
    id="",
    name="",
    family="",
    shares={},
    years={},
    modern_image=0.0,
    basis=Basis("judgement"),
)


@dataclass(frozen=True, slots=True)
class Raised:
    """A line over the years that is `level` times a shared base, and more within a stretch.

    Attributes:
        level: Times the base, in every year: the floor.
        start, stop: The places in `YEARS` between which the line is higher.
        extra: What it has more there.
    """

    level: float
    start: int
    stop: int
    extra: Vector


@dataclass(frozen=True, slots=True, eq=False)
class Frame:
    """The states of one kind of piece in one region, with their priors.

    Compared by identity, so that what follows from it can be kept.

    Attributes:
        kind, region: As in the piece.
        processes: The processes in which the kind is met.
        process_share: Prior of each process, summing to 1.
        housings: Housing classes; one nameless class for kinds without a housing.
        housing_share: Prior of each class, summing to 1.
        years: The fixed prior over the picture's year, summing to 1.
        process_years: Prior over the year by process, each summing to 1.
        process_raised: The same lines, raised over `years`.
        housing_years: By class, weights whose mean under `years` is 1.
        housing_raised: The same lines, raised over 1.
        checks: The checks, by id.
        weights: The model's settings.
    """

    kind: str
    region: str
    processes: tuple[Process, ...]
    process_share: Vector
    housings: tuple[Housing, ...]
    housing_share: Vector
    years: Vector
    process_years: tuple[Vector, ...]
    process_raised: tuple[Raised, ...]
    housing_years: tuple[Vector, ...]
    housing_raised: tuple[Raised, ...]
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
            return tuple(process.id for process in self.processes)
        return {"belonging": BELONGING, "package": DISTURBED}.get(axis, YES_NO)

    def reference(self, axis: str) -> Vector:
        """The fixed prior of an axis over which unreliable eyes are averaged."""
        weights = self.weights
        if axis == "housing":
            return self.housing_share
        if axis == "process":
            return self.process_share
        if axis == "belonging":
            return tuple(weights.reference[state] for state in BELONGING)
        yes = {"package": weights.disturbed, "copy": weights.copy, "altered": weights.altered}[axis]
        return (1 - yes, yes)

    def modern(self, channel: str, subject: str) -> tuple[float, float]:
        """The factors on the odds of a modern housing and of a modern picture."""
        factor = self.weights.modern[channel]
        return factor, factor * (self.weights.famous if subject in FAMOUS else 1.0)


@lru_cache(maxsize=256)
def belonging_rates(frame: Frame, factors: tuple[float, float]) -> tuple[tuple[Vector, ...], ...]:
    """P(h | m, p, channel, subject) as [housing][process][state], states as in `BELONGING`.

    Args:
        frame: The kind of piece.
        factors: As from `Frame.modern`.
    """
    if not frame.cased:
        rates = (_period_or_modern(frame, one, factors[1]) for one in frame.processes)
        return (tuple(rates),)
    return tuple(
        tuple(_belonging(frame, housing, process, factors) for process in frame.processes)
        for housing in frame.housings
    )


def _belonging(
    frame: Frame, housing: Housing, process: Process, factors: tuple[float, float]
) -> Vector:
    case = _moved(housing.modern_case, factors[0])
    image = _moved(process.modern_image, factors[1])
    whole = max(case * image, frame.weights.all_modern * min(case, image))
    modern_case, modern_image = case - whole, image - whole
    period = 1 - modern_case - modern_image - whole
    rates = housing.married
    married = rates.get(process.id, rates.get(process.family, rates["any"]))
    married = married if process.id else 0.0
    return (period * (1 - married), period * married, modern_case, modern_image, whole)


def _period_or_modern(frame: Frame, process: Process, factor: float) -> Vector:
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
    years = prior_years(weights, kind)
    processes = tuple(p for p in knowledge.processes.values() if p.shares.get(kind))
    processes = processes or (IMAGELESS,)
    housings = tuple(knowledge.housings.values()) if kind in HOUSED else (NAMELESS,)
    shapes = [trapezoid(process.years, region, weights) for process in processes]
    classes = [trapezoid(housing.years, region, weights) for housing in housings]
    return Frame(
        kind=kind,
        region=region,
        processes=processes,
        process_share=normalised([process.shares.get(kind, 1.0) for process in processes]),
        housings=housings,
        housing_share=normalised([housing.share for housing in housings]),
        years=years,
        process_years=tuple(normalised(list(map(mul, years, shape))) for shape in shapes),
        process_raised=tuple(_raised(years, shape, years) for shape in shapes),
        housing_years=tuple(relative(years, shape) for shape in classes),
        housing_raised=tuple(_raised(years, shape, (1.0,) * SPAN) for shape in classes),
        checks=knowledge.checks,
        weights=weights,
    )


def frame_for(piece: Piece, knowledge: Knowledge) -> Frame:
    """The frame in which a piece is read."""
    return frame_of(knowledge, piece.kind, piece.region)


def prior_years(weights: Weights, kind: str) -> Vector:
    """The fixed prior over the picture's year: a trapezoid over a thin floor, summing to 1."""
    shape = weights.image_years.get(kind, weights.image_years["cased"])
    return normalised([shape.weight(year) + weights.image_floor for year in YEARS])


def normalised(values: Sequence[float]) -> Vector:
    """The values divided by their sum."""
    total = sum(values)
    return tuple(value / total for value in values)


def relative(prior: Sequence[float], values: Sequence[float]) -> Vector:
    """The values divided by their mean under a prior."""
    mean = sum(map(mul, prior, values))
    return tuple(value / mean for value in values)


def _raised(prior: Vector, shape: Vector, base: Vector) -> Raised:
    """Base times shape over the shape's mean under the prior, by level and stretch."""
    floor, mean = min(shape), sum(map(mul, prior, shape))
    above = [place for place, value in enumerate(shape) if value > floor]
    start, stop = (above[0], above[-1] + 1) if above else (0, 0)
    stretch = zip(base[start:stop], shape[start:stop], strict=True)
    return Raised(
        floor / mean, start, stop, tuple(one * (value - floor) / mean for one, value in stretch)
    )
