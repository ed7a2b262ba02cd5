"""What a picture shows: spans and points on one axis, of years or of amounts of money.

Nothing here is drawn; places on the axis are shares of its length, 0 to 1.
"""

import math
from itertools import count
from typing import Literal

from appraise.base.dataclass import dataclass

Scale = Literal["years", "amounts"]
DECADE = 10
STEPS = (1.0, 2.0, 5.0)
NARROW = 5.0  # amounts that lie no further apart get even steps
ROOM = 1.08  # of amounts: how far the axis reaches beyond the outermost


@dataclass(frozen=True, slots=True)
class Bar:
    """One row: a span with its inner part, a point, or both.

    Attributes:
        note: More of that, where there is room; empty: nothing more.
        outer: First and last value, or None.
        inner: The part in which the span is at its fullest, or None.
        point: A value that is marked, or None.
        strong: Whether it is what the others add up to.
        open: Whether it is in doubt, drawn in outline.
    """

    label: str
    note: str = ""
    outer: tuple[float, float] | None = None
    inner: tuple[float, float] | None = None
    point: float | None = None
    strong: bool = False
    open: bool = False


@dataclass(frozen=True, slots=True)
class Chart:
    """A picture.

    Attributes:
        says: The same facts in a sentence or two.
        scale: Years, whole and spaced evenly, or amounts, spaced by their ratios.
        line: A value at which a line stands across, and what that is; None: no line.
    """

    title: str
    says: str
    scale: Scale
    bars: tuple[Bar, ...]
    line: tuple[float, str] | None = None

    @property
    def values(self) -> tuple[float, ...]:
        """Every value in it."""
        found = [v for bar in self.bars for v in (*(bar.outer or ()), *(bar.inner or ()))]
        points = [bar.point for bar in self.bars if bar.point is not None]
        return (*found, *points, *((self.line[0],) if self.line else ()))

    @property
    def ends(self) -> tuple[float, float]:
        """Where its axis begins and ends: decades of years, or a little beyond the amounts."""
        low, high = min(self.values), max(self.values)
        if self.scale == "years":
            first, last = math.floor(low / DECADE), math.ceil((high + 1) / DECADE)
            return float(first * DECADE), float(last * DECADE)
        return low / ROOM, high * ROOM

    def place(self, value: float) -> float:
        """Where a value stands on the axis, 0 to 1; a year where it begins."""
        first, last = self.ends
        if self.scale == "years":
            return (value - first) / (last - first)
        return math.log(value / first) / math.log(last / first)

    def stretch(self, span: tuple[float, float]) -> tuple[float, float]:
        """From where to where a span reaches; a span of years to the end of its last year."""
        return self.place(span[0]), self.place(span[1] + (self.scale == "years"))

    @property
    def ticks(self) -> tuple[float, ...]:
        """The values that are written under the axis, two to seven."""
        first, last = self.ends
        if self.scale == "years":
            every = next(s for s in count(DECADE, DECADE) if (last - first) / s <= 6)
            return tuple(float(y) for y in range(int(first), int(last) + 1, every))
        if last / first < NARROW:
            step = next(s for s in _round_steps((last - first) / 6) if (last - first) / s <= 6)
            return tuple(n * step for n in range(math.ceil(first / step), int(last / step) + 1))
        found = tuple(one for one in _round_steps(first) if first <= one <= last)
        return found[:: math.ceil(len(found) / 7)]


def _round_steps(least: float) -> tuple[float, ...]:
    """Ones, twos and fives from an amount on, over eight powers of ten."""
    power = math.floor(math.log10(least))
    return tuple(step * 10.0**p for p in range(power, power + 8) for step in STEPS)
