"""What a piece can be, as frozen records: photographic processes and classes of housing."""

from collections.abc import Mapping
from dataclasses import field

from appraise.base.dataclass import dataclass
from appraise.knowledge.basics import Basis, Years


@dataclass(frozen=True, slots=True)
class Process:
    """A photographic process: its family, its share of pieces, and its years by region.

    `shares` holds its share among pieces of each kind, `regional` the same by (kind, region) where
    a region differs. `apart` says that its years stand by themselves: it was made where the usual
    years of the kind do not hold.
    """

    id: str
    name: str
    family: str
    shares: Mapping[str, float]
    years: Mapping[str, Years]
    modern_image: float
    basis: Basis
    regional: Mapping[tuple[str, str], float] = field(default_factory=dict)
    apart: bool = False

    def share_in(self, kind: str, region: str) -> float:
        """Its share among pieces of a kind in a region, 0 where the kind is not met in it."""
        return self.regional.get((kind, region), self.shares.get(kind, 0.0))


@dataclass(frozen=True, slots=True)
class Housing:
    """A class of housing: its share, its years, and how often its picture is not its first.

    `married` holds P(married | period) by process or family word, with 'any'; `before` is the
    range in which practitioners put it before looking, for the screen.
    `image`, `case` and `bond` are shares of value, summing to 1.
    """

    id: str
    name: str
    share: float
    years: Mapping[str, Years]
    married: Mapping[str, float]
    before: tuple[float, float]
    modern_case: float
    image: float
    case: float
    bond: float
    basis: Basis


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
"""The housing of a kind of piece that has none: it tells nothing."""
IMAGELESS = Process(
    id="",
    name="",
    family="",
    shares={},
    years={},
    modern_image=0.0,
    basis=Basis("judgement"),
)
"""The process of what holds no picture: it tells nothing."""
