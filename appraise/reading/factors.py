"""What each piece of evidence multiplies into the joint table.

A finding enters as the mixture r P(a | s) + (1 - r) Pbar(a), with Pbar the table averaged over the
fixed reference prior. A check with several tables bears on all of their states together: its rows
are the product of the tables, brought back to sum to 1 over the answers.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import chain, product
from math import prod
from operator import mul

from appraise.knowledge.crossing import trapezoid
from appraise.knowledge.records import BELONGING, Check, Knowledge
from appraise.reading.evidence import Evidence
from appraise.reading.frame import SPAN, Frame, Vector

AXES = ("housing", "process", "belonging", "package", "copy", "altered")
LOOSE = ("pad", "clasp")
INDIFFERENT: Vector = (1.0,) * len(BELONGING)


@dataclass(frozen=True, slots=True)
class Factor:
    """P'(answer | states) over one or more axes, as a flat table in the order of `axes`."""

    axes: tuple[str, ...]
    shape: tuple[int, ...]
    values: Vector

    def stride(self, axis: str) -> int:
        """How far apart neighbouring states of an axis lie in the table; 0 where it has none."""
        if axis not in self.axes:
            return 0
        return prod(self.shape[self.axes.index(axis) + 1 :])

    def over(self, axis: str) -> Vector:
        """The table summed over all its other axes, by state of one of them."""
        step = self.stride(axis)
        sums = [0.0] * self.shape[self.axes.index(axis)]
        for place, value in enumerate(self.values):
            sums[place // step % len(sums)] += value
        return tuple(sums)

    def place(self, at: Mapping[str, int]) -> int:
        """Where the states lie in the table, for every axis that is named."""
        return sum(self.stride(axis) * at[axis] for axis in self.axes if axis in at)


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
        mount: What a card's size says of its years, if anything; it stands in `image`.
    """

    tables: dict[str, Factor] = field(default_factory=dict)
    image: tuple[Dated, ...] = ()
    package: dict[str, tuple[Dated, ...]] = field(default_factory=dict)
    body: tuple[Dated, ...] = ()
    loose: dict[str, tuple[Dated, ...]] = field(default_factory=dict)
    belonging: Vector = INDIFFERENT
    mount: Dated | None = None

    @property
    def dated(self) -> Iterator[Dated]:
        """Every dated finding."""
        parts = (*self.package.values(), *self.loose.values())
        return chain(self.image, self.body, *parts)

    @property
    def dates(self) -> tuple[tuple[str, int, float], ...]:
        """What tells one set of dated findings from another: check, answer and belief of each."""
        found = (one.evidence for one in self.dated)
        return tuple((one.id, one.answer, one.belief) for one in found)


def factors_of(
    evidence: Iterable[Evidence],
    frame: Frame,
    knowledge: Knowledge,
    belonging: Vector = INDIFFERENT,
    mount: Dated | None = None,
) -> Factors:
    """The evidence sorted into factors over states and over years.

    `mount` is a card's form as measured; it counts only where nobody answered the same question.
    """
    tables: dict[str, Factor] = {}
    image: list[Dated] = []
    body: list[Dated] = []
    package: dict[str, tuple[Dated, ...]] = {}
    loose: dict[str, tuple[Dated, ...]] = {}
    for one in evidence:
        if axes_of(one.check, frame):
            tables[one.id] = state_factor(one, frame)
        elif one.check.dates:
            dated = Dated(one, year_factor(one, frame))
            part = one.check.part
            side = side_of(one.check, knowledge)
            if side == "image":
                image.append(dated)
            elif side == "package":
                package[part] = (*package.get(part, ()), dated)
            elif side == "loose":
                loose[part] = (*loose.get(part, ()), dated)
            elif side == "housing":
                body.append(dated)
    if mount is not None and mount.evidence.id not in {one.evidence.id for one in image}:
        image.append(mount)
    return Factors(tables, tuple(image), package, tuple(body), loose, belonging, mount)


def side_of(check: Check, knowledge: Knowledge) -> str:
    """Where the dates of a check count: image, package, housing (the case body), loose, or none."""
    if check.part in LOOSE:
        return "loose"
    side = knowledge.parts[check.part].side
    return side if side in ("image", "package", "housing") else ""


def axes_of(check: Check, frame: Frame) -> tuple[str, ...]:
    """The axes of the joint table that a check bears on, for a kind of piece."""
    return _axes(frame, check.id)


@lru_cache(maxsize=2048)
def _axes(frame: Frame, check: str) -> tuple[str, ...]:
    found = frame.checks[check]
    return tuple(axis for axis in AXES if found.table(axis) and frame.states(axis))


def year_factor(one: Evidence, frame: Frame) -> Vector:
    """P'(answer | year): the answer's share times its floored trapezoid, or the rest."""
    return believed_line(frame, one.id, one.answer, one.belief)


@lru_cache(maxsize=2048)
def believed_line(frame: Frame, check: str, answer: int, belief: float) -> Vector:
    """P'(answer | year) over `YEARS` when a dated check is answered with that belief."""
    lines, means = answer_lines(frame, check)
    rest = (1 - belief) * means[answer]
    return tuple([belief * value + rest for value in lines[answer]])


@lru_cache(maxsize=2048)
def answer_lines(frame: Frame, check: str) -> tuple[tuple[Vector, ...], Vector]:
    """P(answer | year) of every answer of a dated check, and its mean under the fixed prior."""
    found = frame.checks[check]
    lines = tuple(
        answer_years(found, place, frame, frame.region) for place in range(len(found.answers))
    )
    return lines, tuple(sum(map(mul, frame.years, line)) for line in lines)


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


def reference(axis: str, frame: Frame) -> Vector:
    """The fixed prior of an axis over which unreliable eyes are averaged."""
    return frame.reference(axis)


def state_factor(one: Evidence, frame: Frame) -> Factor:
    """P'(answer | states) of one finding over the axes that its check bears on."""
    return believed_table(frame, one.id, one.answer, one.belief)


@lru_cache(maxsize=4096)
def believed_table(frame: Frame, check: str, answer: int, belief: float) -> Factor:
    """P'(answer | states) when a check over states is answered with that belief."""
    axes, shape, columns, means = answer_columns(frame, check)
    rest = (1 - belief) * means[answer]
    return Factor(axes, shape, tuple([belief * value + rest for value in columns[answer]]))


@lru_cache(maxsize=2048)
def answer_columns(
    frame: Frame, check: str
) -> tuple[tuple[str, ...], tuple[int, ...], tuple[Vector, ...], Vector]:
    """P(answer | states) of every answer of a check, with the mean under the reference prior.

    Returns:
        Axes, shape, the flat columns by answer, and their means.
    """
    found = frame.checks[check]
    axes = axes_of(found, frame)
    columns = tuple(tuple(column) for column in answer_rows(found, axes, frame))
    prior = [prod(values) for values in product(*(frame.reference(axis) for axis in axes))]
    means = tuple(sum(map(mul, prior, column)) for column in columns)
    return axes, tuple(len(frame.states(axis)) for axis in axes), columns, means


def answer_rows(check: Check, axes: Sequence[str], frame: Frame) -> list[list[float]]:
    """P(answer | states) as [answer][flat state], normalised over the answers."""
    per_axis = []
    for axis in axes:
        table = check.table(axis)
        assert table is not None
        per_axis.append([table.rows[state] for state in frame.states(axis)])
    if len(per_axis) == 1:
        return [list(column) for column in zip(*per_axis[0], strict=True)]
    rows = []
    for combination in product(*per_axis):
        weights = [prod(values) for values in zip(*combination, strict=True)]
        total = sum(weights)
        rows.append([weight / total for weight in weights])
    return [list(column) for column in zip(*rows, strict=True)]
