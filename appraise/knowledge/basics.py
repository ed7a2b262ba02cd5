"""What all rows of the knowledge share: the words of the model, years, what a row rests on."""

from collections.abc import Iterable
from typing import Literal

from appraise.base.dataclass import dataclass

BELONGING = ("together", "married", "modern-case", "modern-image", "all-modern")
DISTURBED = ("undisturbed", "disturbed")
YES_NO = ("no", "yes")
FIRST_YEAR, LAST_YEAR = 1835, 1960
YEARS = tuple(range(FIRST_YEAR, LAST_YEAR + 1))
UNJUDGED = ("part", "album", "lot", "other")
"""Kinds of which there is no single reading: a part by itself, several pieces, no photograph."""
KINDS = (
    "cased", "loose-plate", "card", "lantern-slide", "cyanotype", "print", "postcard",
    "empty-case", *UNJUDGED,
)  # fmt: skip
REGIONS = ("us", "gb", "eu", "au")
CHANNELS = ("market", "fair", "shop", "online", "auction", "private")
KNOWN = ("in-hand", "photo", "seller")

Mark = Literal["source", "practice", "judgement", "memory"]


@dataclass(frozen=True, slots=True)
class Basis:
    """What a row rests on: published sources, or practice, judgement, memory.

    `mark` is the weakest thing that the row's figures rest on; `sources` may back its direction.
    """

    mark: Mark
    sources: tuple[str, ...] = ()
    note: str = ""
    ref: str = ""


@dataclass(frozen=True, slots=True)
class Source:
    """A published source: title, body that published it, year as printed, address.

    `formerly` holds keys of the past, by which rows of one's own may still cite it.
    """

    key: str
    title: str
    body: str
    year: str
    address: str
    formerly: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Years:
    """A trapezoid of years: possible from `first`, common `start`..`end`, plausible to `last`.

    `confidence` is 'high', 'medium', 'low' or 'weak' and sets the floor under the trapezoid.
    """

    first: int
    start: int
    end: int
    last: int
    confidence: str

    def weight(self, year: int) -> float:
        """Membership of a year, 0 to 1, with the flanks of the model: (y - E + 1) / (F - E + 1)."""
        return self.weights((year,))[0]

    def weights(self, years: Iterable[int]) -> list[float]:
        """The same of several years."""
        first, start, end, last = self.first, self.start, self.end, self.last
        rise, fall = start - first + 1, last - end + 1
        return [
            0.0
            if year < first or year > last
            else (year - first + 1) / rise
            if year < start
            else (last - year + 1) / fall
            if year > end
            else 1.0
            for year in years
        ]
