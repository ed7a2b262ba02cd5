"""What is true of a kind of piece before anything is seen: states, priors and year vectors."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from operator import mul

from appraise.knowledge.crossing import trapezoid
from appraise.knowledge.records import (
    YEARS,
    Housing,
    Knowledge,
    Process,
    Weights,
)
from appraise.piece.records import Piece

Vector = tuple[float, ...]
SPAN = len(YEARS)
FAMOUS = ("soldier",)


@dataclass(frozen=True, slots=True)
class Frame:
    """The states of one kind of piece in one region, with their priors.

    Attributes:
        processes: The processes in which the kind is met.
        process_share: Prior of each process, summing to 1.
        housings: Housing classes; one nameless class for kinds without a housing.
        housing_share: Prior of each class, summing to 1.
        years: The fixed prior over the picture's year, summing to 1.
        process_years: Prior over the year by process, each summing to 1.
        housing_years: By class, weights whose mean under `years` is 1.
        weights: The model's settings.
    """

    processes: tuple[Process, ...]
    process_share: Vector
    housings: tuple[Housing, ...]
    housing_share: Vector
    years: Vector
    process_years: tuple[Vector, ...]
    housing_years: tuple[Vector, ...]
    weights: Weights

    def belonging(self, channel: str, subject: str) -> list[list[Vector]]:
        """P(h | m, p, channel, subject) as [housing][process][state], states as in `BELONGING`."""
        factor = self.weights.modern[channel]
        famous = self.weights.famous if subject in FAMOUS else 1.0
        return [
            [self._belonging(housing, process, factor, famous) for process in self.processes]
            for housing in self.housings
        ]

    def _belonging(
        self, housing: Housing, process: Process, factor: float, famous: float
    ) -> Vector:
        case = _modern(housing.modern_case, factor)
        image = _modern(process.modern_image, factor * famous)
        whole = max(case * image, self.weights.all_modern * min(case, image))
        modern_case, modern_image = case - whole, image - whole
        period = 1 - modern_case - modern_image - whole
        rates = housing.married
        married = rates.get(process.id, rates.get(process.family, rates["any"]))
        return (period * (1 - married), period * married, modern_case, modern_image, whole)


def _modern(chance: float, factor: float) -> float:
    """A chance of being modern whose odds are multiplied by a factor."""
    odds = factor * chance / (1 - chance)
    return odds / (1 + odds)


@lru_cache(maxsize=64)
def frame_of(knowledge: Knowledge, kind: str, region: str) -> Frame:
    """The frame of a kind of piece in a region; kept, since it never changes."""
    weights = knowledge.weights
    years = prior_years(weights, kind)
    processes = tuple(p for p in knowledge.processes.values() if p.shares.get(kind))
    housings = tuple(knowledge.housings.values())
    return Frame(
        processes=processes,
        process_share=normalised([process.shares[kind] for process in processes]),
        housings=housings,
        housing_share=normalised([housing.share for housing in housings]),
        years=years,
        process_years=tuple(
            normalised(list(map(mul, years, trapezoid(p.years, region, weights))))
            for p in processes
        ),
        housing_years=tuple(relative(years, trapezoid(h.years, region, weights)) for h in housings),
        weights=weights,
    )


def frame_for(piece: Piece, knowledge: Knowledge) -> Frame:
    """The frame in which a piece is read."""
    return frame_of(knowledge, piece.kind, piece.region)


def prior_years(weights: Weights, kind: str) -> Vector:
    """The fixed prior over the picture's year: a trapezoid over a thin floor, summing to 1."""
    shape = weights.image_years[kind]
    return normalised([shape.weight(year) + weights.image_floor for year in YEARS])


def normalised(values: Sequence[float]) -> Vector:
    """The values divided by their sum."""
    total = sum(values)
    return tuple(value / total for value in values)


def relative(prior: Sequence[float], values: Sequence[float]) -> Vector:
    """The values divided by their mean under a prior."""
    mean = sum(map(mul, prior, values))
    return tuple(value / mean for value in values)
