"""What a check is good for before anything is seen, for the seconds that it takes."""

import re
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from appraise.base.dataclass import dataclass
from appraise.inquiry.information import information as bits
from appraise.knowledge.records import Check
from appraise.reading.factors import answer_rows, answer_years, axes_of
from appraise.reading.frame import AXES, Array, Frame, base_cells

HANDLING = 10.0  # seconds that every check costs beside its own
READING = 2.0  # seconds that a line costs that is read and passed over
PLAIN = (1.0, 1.0)  # no channel and no subject that would make modern work likelier
SHOWING = 0.1  # of pieces on which something shows that is looked at only where it already shows
HIDDEN = re.compile(r"\bonly where\b|\balready (shows?|lies?|loose)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class CheckValue:
    """A check and what it is worth: bits a second, or for damage the share of price a second."""

    check: Check
    worth: float


def worth(check: Check, frame: Frame) -> float:
    """Bits a second that a check tells of what a piece is.

    A question that makes no sense for a piece costs only the reading of its line. What shows on few
    pieces is asked in vain on most of them.
    """
    told, asked = information(check, frame)
    return told * asked * shows(check) / (asked * (check.seconds + HANDLING) + READING)


def shows(check: Check) -> float:
    """How often there is something to see: seldom where its `how` opens with a part that is hidden.

    A further place to look at, "at the back only where it lies loose", hides nothing.
    """
    first = re.split(r"[.;]", check.how, maxsplit=1)[0]
    return SHOWING if HIDDEN.search(first) else 1.0


def loss(check: Check, frame: Frame) -> float:
    """The share of its price a second that a piece in use has lost to a damage on average."""
    if check.defect is None:
        return 0.0
    rates = check.defect.rates.get("any") or next(iter(check.defect.rates.values()))
    lost = sum(rate * (1 - left) for rate, left in zip(rates, check.defect.worth, strict=True))
    asked = float(_asked(check, frame).sum())
    return lost * asked / (asked * (check.seconds + HANDLING) + READING)


def information(check: Check, frame: Frame) -> tuple[float, float]:
    """Bits between a check's answer and what it bears on, and how often it makes sense to ask.

    The mutual information of Lindley, "On a Measure of the Information Provided by an Experiment",
    Annals of Mathematical Statistics 27, 1956, over the model's own prior for a piece of which
    nothing is known but that the question makes sense for it.
    """
    cells = _asked(check, frame)
    asked = float(cells.sum())
    if not asked:
        return 0.0, 0.0
    if check.dates:
        return bits(frame.years * answer_years(frame, check.id)), asked
    rows = _rows(check.id, frame)
    return (bits(rows * cells) if rows is not None else 0.0), asked


def spread(told: Sequence[CheckValue], rest: float) -> tuple[CheckValue, ...]:
    """The most worth first; of checks that see one fact all but the first count by `rest`."""
    seen: set[str] = set()
    found = []
    for one in sorted(told, key=lambda each: -each.worth):
        led = bool(one.check.group) and one.check.group in seen
        found.append(replace(one, worth=one.worth * rest) if led else one)
        seen.add(one.check.group)
    return tuple(sorted(found, key=lambda each: -each.worth))


def _asked(check: Check, frame: Frame) -> Array:
    """The prior over `AXES` where the question makes sense; it sums to how often it does."""
    cells = base_cells(frame, PLAIN) * _within(check, frame)
    for gate, answers in check.when.items():
        places = [frame.checks[gate].index(answer) for answer in answers]
        rows = _rows(gate, frame)
        cells = cells * (_dated(gate, places, frame) if rows is None else rows[places].sum(axis=0))
    return cells


def _within(check: Check, frame: Frame) -> Array:
    """1 for the processes and housings for which the check makes sense, else 0; over `AXES`."""
    found = np.ones((1,) * len(AXES))
    if not check.only:
        return found
    families = {process.id: process.family for process in frame.processes}
    for axis in ("housing", "process"):
        states = frame.states(axis)
        fits = [bool({state, families.get(state, "")} & {*check.only}) for state in states]
        if any(fits):
            along = [len(states) if one == axis else 1 for one in AXES]
            found = found * np.array(fits, dtype=float).reshape(along)
    return found


def _dated(gate: str, places: Sequence[int], frame: Frame) -> float:
    """How often one of some answers is given to a check that bears on years, or on nothing."""
    check = frame.checks[gate]
    if check.defect is not None:
        rates = check.defect.rates.get("any", (1.0, 0.0, 0.0, 0.0))
        return float(sum(rates[place] for place in places))
    return float((answer_years(frame, gate) @ frame.years)[list(places)].sum())


def _rows(check: str, frame: Frame) -> Array | None:
    """P(answer | states) as (answers, *AXES), or None where a check bears on no states."""
    axes = axes_of(frame.checks[check], frame)
    if not axes:
        return None
    rows = answer_rows(frame, check)
    sizes = [len(frame.states(axis)) if axis in axes else 1 for axis in AXES]
    return rows.reshape(len(rows), *sizes)
