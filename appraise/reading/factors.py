"""What each piece of evidence multiplies into the joint table.

A finding enters as the mixture r P(a | s) + (1 - r) Pbar(a), with Pbar the table averaged over the
fixed reference prior. A check with several tables bears on all of their states together: its rows
are the product of the tables, brought back to sum to 1 over the answers.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import product
from operator import mul

from appraise.knowledge.crossing import trapezoid
from appraise.knowledge.records import (
    BELONGING,
    DISTURBED,
    YES_NO,
    Check,
    Knowledge,
)
from appraise.reading.evidence import Evidence
from appraise.reading.frame import SPAN, Frame, Vector

AXES = ("housing", "process", "belonging", "package", "copy", "altered")


@dataclass(frozen=True, slots=True)
class Factor:
    """P'(answer | states) over one or more axes, as a flat table in the order of `axes`."""

    axes: tuple[str, ...]
    shape: tuple[int, ...]
    values: Vector


@dataclass(frozen=True, slots=True)
class Dated:
    """P'(answer | year) of one dated finding."""

    evidence: Evidence
    values: Vector


@dataclass(frozen=True, slots=True)
class Factors:
    """All the evidence on a piece, in the form in which the joint table takes it.

    Attributes:
        tables: Factors over states, by check.
        image: Dated findings on the picture.
        package: Dated findings by part of the package.
        body: Dated findings on the case body.
        loose: Dated findings on pad and clasp, by part.
        belonging: A further likelihood by belonging state (from formats), all 1 if none.
    """

    tables: dict[str, Factor] = field(default_factory=dict)
    image: tuple[Dated, ...] = ()
    package: dict[str, tuple[Dated, ...]] = field(default_factory=dict)
    body: tuple[Dated, ...] = ()
    loose: dict[str, tuple[Dated, ...]] = field(default_factory=dict)
    belonging: Vector = (1.0,) * len(BELONGING)


def factors_of(
    evidence: Iterable[Evidence], frame: Frame, knowledge: Knowledge, region: str
) -> Factors:
    """The evidence sorted into factors over states and over years."""
    tables: dict[str, Factor] = {}
    image: list[Dated] = []
    body: list[Dated] = []
    package: dict[str, tuple[Dated, ...]] = {}
    loose: dict[str, tuple[Dated, ...]] = {}
    for one in evidence:
        if one.check.tables:
            tables[one.id] = state_factor(one, frame)
        elif one.check.dates:
            dated = Dated(one, year_factor(one, frame, region))
            _file(dated, knowledge, image, package, body, loose)
    return Factors(tables, tuple(image), package, tuple(body), loose)


def _file(
    dated: Dated,
    knowledge: Knowledge,
    image: list[Dated],
    package: dict[str, tuple[Dated, ...]],
    body: list[Dated],
    loose: dict[str, tuple[Dated, ...]],
) -> None:
    part = dated.evidence.check.part
    side = knowledge.parts[part].side
    if side == "image":
        image.append(dated)
    elif side == "package":
        package[part] = (*package.get(part, ()), dated)
    elif part in ("pad", "clasp"):
        loose[part] = (*loose.get(part, ()), dated)
    elif side == "housing":
        body.append(dated)


def year_factor(one: Evidence, frame: Frame, region: str) -> Vector:
    """P'(answer | year): the answer's share times its floored trapezoid, or the rest."""
    line = answer_years(one.check, one.answer, frame, region)
    mean = sum(map(mul, frame.years, line))
    r = one.belief
    return tuple(r * value + (1 - r) * mean for value in line)


def answer_years(check: Check, answer: int, frame: Frame, region: str) -> Vector:
    """P(answer | year) over `YEARS`.

    Answers with a share say it times their trapezoid. Those without take what is left, in equal
    parts.
    """
    chosen = check.answers[answer]
    if chosen.share:
        line = trapezoid(chosen.years, region, frame.weights)
        return tuple(chosen.share * value for value in line)
    taken = [0.0] * SPAN
    for one in check.answers:
        if one.share:
            line = trapezoid(one.years, region, frame.weights)
            taken = [total + one.share * value for total, value in zip(taken, line, strict=True)]
    sharing = sum(1 for one in check.answers if not one.share)
    return tuple((1 - total) / sharing for total in taken)


def axis_states(axis: str, frame: Frame) -> tuple[str, ...]:
    """The states of an axis in the order of the joint table."""
    if axis == "housing":
        return tuple(housing.id for housing in frame.housings)
    if axis == "process":
        return tuple(process.id for process in frame.processes)
    return {"belonging": BELONGING, "package": DISTURBED}.get(axis, YES_NO)


def reference(axis: str, frame: Frame) -> Vector:
    """The fixed prior of an axis over which unreliable eyes are averaged."""
    weights = frame.weights
    if axis == "housing":
        return frame.housing_share
    if axis == "process":
        return frame.process_share
    if axis == "belonging":
        return tuple(weights.reference[state] for state in BELONGING)
    yes = {"package": weights.disturbed, "copy": weights.copy, "altered": weights.altered}[axis]
    return (1 - yes, yes)


def state_factor(one: Evidence, frame: Frame) -> Factor:
    """P'(answer | states) of one finding over the axes that its check bears on."""
    axes = tuple(axis for axis in AXES if one.check.table(axis))
    lines = answer_rows(one.check, axes, frame)
    mean = tuple(lines[one.answer])
    prior = _outer([reference(axis, frame) for axis in axes])
    average = sum(map(mul, prior, mean))
    r = one.belief
    shape = tuple(len(axis_states(axis, frame)) for axis in axes)
    return Factor(axes, shape, tuple(r * value + (1 - r) * average for value in mean))


def answer_rows(check: Check, axes: Sequence[str], frame: Frame) -> list[list[float]]:
    """P(answer | states) as [answer][flat state], normalised over the answers."""
    per_axis = []
    for axis in axes:
        table = check.table(axis)
        assert table is not None
        per_axis.append([table.rows[state] for state in axis_states(axis, frame)])
    if len(per_axis) == 1:
        return [list(column) for column in zip(*per_axis[0], strict=True)]
    rows = []
    for combination in product(*per_axis):
        weights = [_product(values) for values in zip(*combination, strict=True)]
        total = sum(weights)
        rows.append([weight / total for weight in weights])
    return [list(column) for column in zip(*rows, strict=True)]


def _outer(vectors: Sequence[Vector]) -> list[float]:
    return [_product(values) for values in product(*vectors)]


def _product(values: Iterable[float]) -> float:
    total = 1.0
    for value in values:
        total *= value
    return total
