"""Whether a part goes together with a plate by size.

Every measure is turned into the plate that it speaks of: what was measured less the offset that the
knowledge gives for it, with that offset's spread. Part and plate then differ by so many millimetres
on either side, give or take both spreads; a part of a sort bears a difference between two limits.
"""

from collections.abc import Sequence
from statistics import NormalDist

from appraise.base.dataclass import dataclass
from appraise.base.measures import Measure
from appraise.knowledge.records import Knowledge
from appraise.reading.fits import offset_of
from appraise.records.part import Part
from appraise.records.piece import Piece

WORDS = ("too small", "tight", "fits", "loose", "too large")
UNKNOWN = "size not known"
MOST_DIRECT = ("recess", "outside", "opening")
DIRECT, INDIRECT = ("plate", "package", "mount"), ("recess", "case", "opening")
HARDLY = 1e-9
_NORMAL = NormalDist()


@dataclass(frozen=True, slots=True)
class Nominal:
    """A plate as some measure tells it.

    Attributes:
        sides: Shorter and longer side in mm.
        spread: Standard deviation of either in mm.
        by: What it goes by: 'plate', 'recess', 'format' ...
    """

    sides: tuple[float, float]
    spread: float
    by: str


@dataclass(frozen=True, slots=True)
class Sizing:
    """How a part and a plate go together by size.

    Attributes:
        word: One of `WORDS`, or `UNKNOWN`.
        chance: The chance that it goes in and is not slack, 0 to 1; 0 where a size is not known.
        room: By how many mm the plate that the part was made for is larger than this one, on the
            shorter and the longer side; below 0: smaller. None where a size is not known.
        spread: Standard deviation of either in mm.
        by: What was compared: of the part, and of the plate.
    """

    word: str
    chance: float
    room: tuple[float, float] | None
    spread: float
    by: tuple[str, str]


def plates_of(piece: Piece, knowledge: Knowledge) -> tuple[Nominal, ...]:
    """The plate of a piece as it was measured, as its format names it, or as its case tells it.

    None where nothing tells it.
    """
    return (
        _measured(piece, DIRECT, knowledge)
        or _from_format(piece.named_format, knowledge)
        or _measured(piece, INDIRECT, knowledge)
    )


def _measured(piece: Piece, whats: Sequence[str], knowledge: Knowledge) -> tuple[Nominal, ...]:
    material = piece.found("case.material")
    for what in whats:
        measure = piece.measured.get(what)
        if measure is not None:
            found = _from_measure(measure, what, what, material, knowledge)
            if found:
                return found
    return ()


def own_plates(part: Part, knowledge: Knowledge) -> tuple[Nominal, ...]:
    """The plate that a part was made for: by its most direct measure, else by its format."""
    spare = knowledge.spares.get(part.part)
    for what in MOST_DIRECT:
        measure = part.measure(what)
        if measure is None or (what == "outside" and spare is None):
            continue
        offset = spare.outside if spare and what == "outside" else what
        found = _from_measure(measure, offset, what, part.material, knowledge)
        if found:
            return found
    return _from_format(part.format, knowledge)


def size_up(part: Part, plates: Sequence[Nominal], knowledge: Knowledge) -> Sizing:
    """Whether a part goes together with a plate.

    `plates`: what the plate may be, each as likely; from `plates_of`.
    """
    own = own_plates(part, knowledge)
    spare = knowledge.spares.get(part.part)
    if not own or not plates or spare is None:
        return Sizing(UNKNOWN, 0.0, None, 0.0, ("", ""))
    pairs = [(one, other) for one in own for other in plates]
    least, most = spare.room
    spread = _spread(*pairs[0])  # alike for all of one measure, or of one format
    reach = knowledge.fitting.reach * spread
    enters = max(min(_gaps(*pair)) - least for pair in pairs)
    holds = max(most - max(_gaps(*pair)) for pair in pairs)
    nearest = min(pairs, key=lambda pair: sum(gap * gap for gap in _gaps(*pair)))
    return Sizing(
        _word(enters, holds, reach),
        sum(_within(*pair, least, most) for pair in pairs) / len(pairs),
        _gaps(*nearest),
        spread,
        (nearest[0].by, nearest[1].by),
    )


def _word(enters: float, holds: float, reach: float) -> str:
    """In a word; a larger part never goes back from a later word to an earlier one.

    Args:
        enters: By how many mm the narrower side passes the least room.
        holds: By how many mm the wider side stays below the most.
        reach: How many mm short of either it may still go.
    """
    if enters < 0:
        return "too small" if enters < -reach else "tight"
    if holds < 0:
        return "too large" if holds < -reach else "loose"
    return "fits"


def _gaps(own: Nominal, plate: Nominal) -> tuple[float, float]:
    return own.sides[0] - plate.sides[0], own.sides[1] - plate.sides[1]


def _spread(own: Nominal, plate: Nominal) -> float:
    return float((own.spread**2 + plate.spread**2) ** 0.5)


def _within(own: Nominal, plate: Nominal, least: float, most: float) -> float:
    """The chance that the room lies between two limits on both sides."""
    spread = max(HARDLY, _spread(own, plate))
    one, other = (
        _NORMAL.cdf((gap - least) / spread) - _NORMAL.cdf((gap - most) / spread)
        for gap in _gaps(own, plate)
    )
    return one * other


def _from_measure(
    measure: Measure, offset: str, by: str, material: str, knowledge: Knowledge
) -> tuple[Nominal, ...]:
    """The plate that a measure speaks of; none for a single length."""
    sides = sorted(float(side) for side in measure.sides)
    if len(sides) != 2:
        return ()
    row = offset_of(knowledge, offset, material)
    add, spread = (row.add, row.spread) if row else ((0.0, 0.0), 2.0)
    return (Nominal((sides[0] - add[0], sides[1] - add[1]), spread, by),)


def _from_format(word: str, knowledge: Knowledge) -> tuple[Nominal, ...]:
    form = knowledge.formats.get(word)
    if form is None:
        return ()
    sides = ((min(size), max(size)) for size in form.sizes)
    return tuple(Nominal(both, form.tolerance, "format") for both in sides)
