"""What in stock would go with a loose plate, and the other way round: by size, then by years.

Going together is no belonging: whatever fits, a plate in another's case is a married piece. What
has to be said with every answer stands in the knowledge, under `care` and `cautions`.
"""

from collections.abc import Iterable, Sequence

from appraise.base.dataclass import dataclass
from appraise.collection.sameyears import Dates, YearMatch, compare, dates_of
from appraise.collection.sizing import UNKNOWN, Nominal, Sizing, plates_of, size_up
from appraise.knowledge.records import Knowledge
from appraise.reading.reading import Reading, read
from appraise.records.part import Part
from appraise.records.piece import Piece

MARRYING, SEALED = ("marrying", "keep-package"), "sealed-package"  # care, and a caution
PLATE = "plate"


@dataclass(frozen=True, slots=True)
class Loose:
    """A plate for which a part is sought, read once.

    Attributes:
        id: The id of its record in the log; '' for a piece file.
        plates: What its plate may measure.
    """

    id: str
    title: str
    plates: tuple[Nominal, ...]
    reading: Reading


@dataclass(frozen=True, slots=True)
class Fit:
    """How one part goes with one plate."""

    part_id: str
    plate_id: str
    part: Part
    plate: str
    size: Sizing
    years: YearMatch

    @property
    def score(self) -> float:
        """By which it is put in order, 0 to 1: the chance by size times the odds by years."""
        return self.size.chance * self.years.ratio / (1 + self.years.ratio)


def loose(piece: Piece, knowledge: Knowledge, record: str = "") -> Loose:
    """A plate to find parts for; reading it takes some milliseconds."""
    title = piece.title or "untitled piece"
    return Loose(record, title, plates_of(piece, knowledge), read(piece, knowledge))


def parts_for(
    plate: Loose, parts: Iterable[tuple[str, Part]], knowledge: Knowledge
) -> tuple[Fit, ...]:
    """Parts in stock beside a plate, what goes best first; without plates and what is used up."""
    stock = [(name, one) for name, one in parts if one.count and one.part != PLATE]
    found = [_fit(name, one, plate, dates_of(one, knowledge), knowledge) for name, one in stock]
    return _ordered(found)


def plates_for(
    part: Part, record: str, plates: Sequence[Loose], knowledge: Knowledge
) -> tuple[Fit, ...]:
    """Every loose plate beside a part in stock, what goes best first."""
    dates = dates_of(part, knowledge)
    return _ordered([_fit(record, part, one, dates, knowledge) for one in plates])


def conduct(knowledge: Knowledge) -> tuple[str, ...]:
    """What has to be said with every fit: that it marries, how to mark it, who opens a package."""
    told = [knowledge.care[name].text for name in MARRYING if name in knowledge.care]
    told += [one.text for one in knowledge.cautions.values() if one.id == SEALED]
    return tuple(told)


def _fit(record: str, part: Part, plate: Loose, dates: Dates, knowledge: Knowledge) -> Fit:
    size = size_up(part, plate.plates, knowledge)
    return Fit(
        record, plate.id, part, plate.title, size, compare(dates, part, plate.reading, knowledge)
    )


def _ordered(found: Iterable[Fit]) -> tuple[Fit, ...]:
    """The best first; what has no size at the end, by its years."""
    return tuple(
        sorted(
            found,
            key=lambda one: (one.size.word == UNKNOWN, -one.score, -one.years.ratio, one.part_id),
        )
    )
