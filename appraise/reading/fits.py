"""How well a measure fits a format, whatever of the piece was measured.

A measured face lies around a format's nominal sizes plus the offset of what was measured,
whichever way up, as a normal density in mm. Where sources give several nominal sizes each is as
likely. Under the name of one thing another is sometimes measured (the whole plate for the opening),
so the density is a mixture over what may have been measured, in the shares that the data give.
"""

from collections.abc import Iterator
from functools import lru_cache
from math import exp, hypot, pi

from appraise.base.dataclass import dataclass
from appraise.base.measures import Measure
from appraise.knowledge.records import Format, Knowledge, Offset
from appraise.records.piece import Piece

FAR = 11.8  # squared standard deviations that one measure of two sides in 370 passes by chance
FLOOR = 1e-9  # per mm^2: keeps a slip of the ruler from ruling everything out
ROUGH = (0.0, 0.0, 2.0)  # what measuring adds where no row says it


@dataclass(frozen=True, slots=True)
class Meant:
    """One thing that a measure may be of: which, how likely, and what measuring it adds."""

    what: str
    share: float
    offset: Offset | None


def meant(form: Format, what: str, piece: Piece, knowledge: Knowledge) -> Iterator[Meant]:
    """What may have been measured under a name, with shares that sum to 1.

    A mat opening is only there to be taken for the plate in a cased piece, and something else than
    was said is thought of only for formats that are usual enough.
    """
    material = piece.found("case.material")
    offset = offset_of(knowledge, what, material)
    others: dict[str, float] = {}
    if offset and form.share_in(piece.region) >= offset.usual:
        others = {
            other: share
            for other, share in offset.instead.items()
            if other != "opening" or piece.kind == "cased"
        }
    yield Meant(what, 1 - sum(others.values()), offset)
    for other, share in others.items():
        yield Meant(other, share, offset_of(knowledge, other, material))


def offset_of(knowledge: Knowledge, what: str, material: str) -> Offset | None:
    """The offset of what was measured, in the material if there is one for it."""
    rows = [one for one in knowledge.offsets.values() if one.what == what]
    exact = [one for one in rows if one.material == material]
    plain = [one for one in rows if not one.material]
    chosen = exact or plain or rows
    return chosen[0] if chosen else None


def density(form: Format, measure: Measure, offset: Offset | None) -> float:
    """Density per mm^2 of a measured face around a format's sizes plus the offset, over a floor."""
    return normal(form, measure, offset) + FLOOR


def chance_of(form: Format, what: str, piece: Piece, knowledge: Knowledge) -> float:
    """Density per mm^2 of a piece's measure, over all that may have been measured by its name."""
    measure = piece.measured[what]
    told = meant(form, what, piece, knowledge)
    return sum(one.share * normal(form, measure, one.offset) for one in told) + FLOOR


def normal(form: Format, measure: Measure, offset: Offset | None) -> float:
    """Density per mm^2 of a measured face around a format's sizes plus the offset, no floor."""
    variance = _variance(form, offset)
    total = sum(exp(-(gap**2) / (2 * variance)) for gap in gaps(form, measure, offset))
    return total / len(form.sizes) / (2 * pi * variance)


def _variance(form: Format, offset: Offset | None) -> float:
    spread = offset.of(form.id)[2] if offset else ROUGH[2]
    return form.tolerance**2 + spread**2


def gaps(form: Format, measure: Measure, offset: Offset | None) -> Iterator[float]:
    """How far a measured face lies from each of a format's sizes plus the offset, in mm."""
    sides = _sides(measure)
    wide, high, _ = offset.of(form.id) if offset else ROUGH
    for width, height in form.sizes:
        wanted = (width + wide, height + high)
        yield hypot(*(side - nominal for side, nominal in zip(sides, wanted, strict=False)))


@lru_cache(maxsize=64)
def _sides(measure: Measure) -> tuple[float, ...]:
    """The sides of a face in mm; kept, since fractions are slow."""
    return tuple(float(side) for side in measure.sides)


def far(form: Format, what: str, piece: Piece, knowledge: Knowledge) -> bool:
    """Whether a measure lies far from a format, whatever of it was measured."""
    measure = piece.measured[what]
    return all(
        min(gaps(form, measure, one.offset)) ** 2 > FAR * _variance(form, one.offset)
        for one in meant(form, what, piece, knowledge)
    )


def gap(form: Format, what: str, piece: Piece, knowledge: Knowledge) -> float:
    """How far a measure lies from a format, taken as what it is said to be, in mm."""
    offset = offset_of(knowledge, what, piece.found("case.material"))
    return min(gaps(form, piece.measured[what], offset))
