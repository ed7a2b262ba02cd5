"""Air and light: what was measured against the published figures of `care:`, and light summed up.

A row of topic `light` holds for pieces on show; every other for the pieces at home. Sources
disagree, so each row is told with what it rests on, and the tool's own choice between them is
marked as that. More light is a harm and less is none, so `lux` counts as a most.
"""

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.collection.upkeep import fits, months_on, words_of
from appraise.knowledge.records import Care, Knowledge
from appraise.records.owned import AWAY, GONE, MISSING, OwnedPiece

ELSEWHERE = ("ordered", *AWAY, *GONE, *MISSING)
"""Statuses in which a piece does not stand in the owner's own air."""
YEAR = 12  # months
RANGES = {"temperature": (-40.0, 60.0), "humidity": (0.0, 100.0), "lux": (0.0, 100_000.0)}
UNITS = {"temperature": "C", "humidity": "%", "lux": "lux"}


def with_unit(value: float, measure: str) -> str:
    """A figure with its unit: '19 C', '40%'."""
    unit = UNITS[measure]
    return f"{value:g}{unit}" if unit == "%" else f"{value:g} {unit}"


@dataclass(frozen=True, slots=True)
class Air:
    """What was measured; None where it was not.

    Attributes:
        temperature: Degrees Celsius.
        humidity: Relative humidity in %.
        lux: Illuminance where pieces are on show.
    """

    temperature: float | None = None
    humidity: float | None = None
    lux: float | None = None

    def __post_init__(self) -> None:
        for name, value in self.told.items():
            low, high = RANGES[name]
            if not low <= value <= high:
                mend = f"Give {low:g} to {high:g}."
                raise InputError(f"{value:g} is not a {name} in {UNITS[name]}", f"--{name}", mend)

    @property
    def told(self) -> Mapping[str, float]:
        """What was measured, by name."""
        both = (("temperature", self.temperature), ("humidity", self.humidity), ("lux", self.lux))
        return {name: value for name, value in both if value is not None}


@dataclass(frozen=True, slots=True)
class Outside:
    """A measure outside the figures of a row, and the pieces that it is for.

    Attributes:
        measure: 'temperature', 'humidity' or 'lux'.
        side: 'below' or 'above'.
        alarm: Whether the row says to act from here on.
    """

    row: Care
    measure: str
    value: float
    side: str
    alarm: bool
    pieces: tuple[str, ...]

    @property
    def figures(self) -> str:
        """The row's own figures, as '30 to 40%'."""
        if self.alarm and self.row.alarm is not None:
            return with_unit(self.row.alarm, self.measure)
        low, high = getattr(self.row, self.measure)
        if high is None:
            return f"at least {with_unit(low, self.measure)}"
        if low is None:
            return f"at most {with_unit(high, self.measure)}"
        top = with_unit(high, self.measure)
        return top if low == high else f"{low:g} to {top}"


@dataclass(frozen=True, slots=True)
class Exposure:
    """The light that a piece was given, against a row that says how much it bears in a year.

    Attributes:
        row: The row of `care:`; None where none is for such a piece.
        year: Lux-hours of the showings begun within the last twelve months.
        ever: Lux-hours in all.
        rest_until: The day until which it rests in the dark; None when it need not.
    """

    row: Care | None
    year: int
    ever: int
    rest_until: dt.date | None

    @property
    def left(self) -> int | None:
        """Lux-hours that are left within the year; below 0 when it had too many."""
        if self.row is None or self.row.lux_hours is None:
            return None
        return int(self.row.lux_hours) - self.year


def outside(
    pieces: Sequence[tuple[str, OwnedPiece]], knowledge: Knowledge, air: Air
) -> tuple[Outside, ...]:
    """Where a measure is outside a row's figures for some piece; alarms first, then our choice.

    `pieces`: (id, piece) pairs; those that stand elsewhere are left out.
    """
    here = [(name, kept) for name, kept in pieces if kept.status not in ELSEWHERE]
    words = {name: words_of(kept, knowledge) for name, kept in here}
    out = []
    for row in knowledge.care.values():
        mine = tuple(name for name, kept in here if fits(row, words[name], kept.last_look))
        if mine and (row.topic != "light" or air.lux is not None):
            out += [Outside(row, *found, mine) for found in _beyond(row, air)]
    return tuple(sorted(out, key=lambda one: (not one.alarm, one.row.basis.mark != "judgement")))


def _beyond(row: Care, air: Air) -> Iterator[tuple[str, float, str, bool]]:
    for measure, value in air.told.items():
        low, high = getattr(row, measure) or (None, None)
        if measure == "humidity" and row.alarm is not None and value >= row.alarm:
            yield measure, value, "above", True
        elif high is not None and value > high:
            yield measure, value, "above", False
        elif low is not None and value < low and measure != "lux":
            yield measure, value, "below", False


def exposure(kept: OwnedPiece, knowledge: Knowledge, as_of: dt.date) -> Exposure:
    """Light times time, summed over a piece's showings up to a day.

    A showing counts with the day on which it began. The least that a row allows counts. Where the
    light of twelve months passed it, the row's rest runs from the showing that passed it.
    """
    words = words_of(kept, knowledge)
    rows = [
        row
        for row in knowledge.care.values()
        if row.lux_hours is not None and fits(row, words, kept.last_look)
    ]
    row = min(rows, key=lambda one: one.lux_hours or 0.0, default=None)
    past = [one for one in kept.showings if one.day <= as_of]
    year = sum(one.lux_hours for one in past if months_on(one.day, YEAR) > as_of)
    rest = _rest(kept, row, as_of) if row is not None else None
    return Exposure(row, year, sum(one.lux_hours for one in past), rest)


def _rest(kept: OwnedPiece, row: Care, as_of: dt.date) -> dt.date | None:
    """The end of the last rest that a showing called for, unless it is over."""
    ends = []
    for last in kept.showings:
        within = [one for one in kept.showings if one.day <= last.day < months_on(one.day, YEAR)]
        if last.day <= as_of and sum(one.lux_hours for one in within) >= (row.lux_hours or 0):
            ends.append(months_on(last.day, row.rest or 0))
    return max(ends) if ends and max(ends) > as_of else None


def hours_left(row: Care, lux: float) -> float | None:
    """Hours in which so much light uses up a year's lux-hours; None without light or a figure."""
    return row.lux_hours / lux if row.lux_hours is not None and lux > 0 else None
