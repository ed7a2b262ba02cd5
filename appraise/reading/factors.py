"""What each piece of evidence multiplies into the joint table.

A finding enters as the mixture r P(a | s) + (1 - r) Pbar(a), with Pbar the table averaged over the
fixed reference prior. A check with several tables bears on all of their states together: its rows
are the product of the tables, brought back to sum to 1 over the answers. In hand two sorts of check
escape the mixture: where a report of the impossible is rarer than slips in general (`slip`), the
impossible stays as rare as the table has it, and a decisive mark counts as its table says.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import field
from functools import lru_cache

import numpy as np

from appraise.base.dataclass import dataclass
from appraise.knowledge.crossing import trapezoid
from appraise.knowledge.records import BELONGING, Check, Knowledge
from appraise.reading.evidence import Evidence, belief
from appraise.reading.frame import AXES, SPAN, Array, Frame, Vector
from appraise.records.piece import IN_HAND, Finding

LOOSE = ("pad", "clasp")
DRESS = "sitter"
INDIFFERENT: Vector = (1.0,) * len(BELONGING)
TOGETHER = frozenset(("belonging", "package"))  # what signs that may be odd together bear on
TINY = 1e-12
LEAST = 1e-6  # belief below which an answer counts as not believed at all
NEAR = 1 + 1e-9


@dataclass(frozen=True, slots=True, eq=False)
class Factor:
    """P'(answer | states) over one or more axes, in the order of `AXES`.

    Attributes:
        axes: Those that it bears on.
        values: Of an ordinary piece.
        odd: Of a piece whose signs are odd together; the same array where that is all one.
        most: The greatest log of how much likelier the answer is of such a piece.
    """

    axes: tuple[str, ...]
    values: Array
    odd: Array
    most: float = 0.0


@dataclass(frozen=True, slots=True, eq=False)
class Dated:
    """(Y,) P'(answer | year) of what dates a part, and the finding behind it.

    A measured mount and a written date have no finding among the checks.
    """

    evidence: Evidence | None
    values: Array

    @property
    def id(self) -> str:
        """The check behind it, or an empty string."""
        return self.evidence.id if self.evidence is not None else ""


@dataclass(frozen=True, slots=True)
class Factors:
    """All the evidence on a piece, in the form in which the joint table takes it.

    Attributes:
        tables: Factors over states, by check.
        image: What dates the picture.
        dress: What dates its sitter: of a copy, the original's and not its own.
        package: What dates the package, by part.
        body: What dates the case body or the mount.
        loose: What dates pad and clasp, by part.
        belonging: A further likelihood by belonging state (from formats), all 1 if none.
    """

    tables: Mapping[str, Factor] = field(default_factory=dict)
    image: tuple[Dated, ...] = ()
    dress: tuple[Dated, ...] = ()
    package: Mapping[str, tuple[Dated, ...]] = field(default_factory=dict)
    body: tuple[Dated, ...] = ()
    loose: Mapping[str, tuple[Dated, ...]] = field(default_factory=dict)
    belonging: Vector = INDIFFERENT

    @property
    def dated(self) -> Iterator[Dated]:
        """Everything that dates."""
        parts = (*self.package.values(), *self.loose.values())
        for group in (self.image, self.dress, self.body, *parts):
            yield from group


def factors_of(
    evidence: Iterable[Evidence],
    frame: Frame,
    knowledge: Knowledge,
    belonging: Vector = INDIFFERENT,
    told: Mapping[str, tuple[Array, ...]] | None = None,
) -> Factors:
    """The evidence sorted into factors over states and over years.

    Args:
        evidence: The findings that count.
        frame: States and priors.
        knowledge: For the sides of the parts.
        belonging: From the sizes.
        told: By part, lines over years from what is no answer to a check.
    """
    tables: dict[str, Factor] = {}
    dated: dict[str, list[Dated]] = {
        part: [Dated(None, line) for line in lines] for part, lines in (told or {}).items()
    }
    for one in evidence:
        if one.silent:
            continue
        if axes_of(one.check, frame):
            tables[one.id] = state_factor(one, frame)
        elif one.check.dates:
            dated.setdefault(one.check.part, []).append(Dated(one, year_factor(one, frame)))
    image: list[Dated] = []
    dress: list[Dated] = []
    body: list[Dated] = []
    package: dict[str, tuple[Dated, ...]] = {}
    loose: dict[str, tuple[Dated, ...]] = {}
    for part, found in dated.items():
        side = side_of(part, knowledge)
        if side in ("package", "loose"):
            (package if side == "package" else loose)[part] = tuple(found)
        else:
            {"image": image, "dress": dress, "housing": body}[side].extend(found)
    return Factors(tables, tuple(image), tuple(dress), package, tuple(body), loose, belonging)


def changed(
    factors: Factors,
    gone: Collection[str],
    now: Iterable[Evidence],
    frame: Frame,
    knowledge: Knowledge,
) -> Factors:
    """The evidence less some findings, by id, and with others that bear on states or years."""
    more = factors_of(now, frame, knowledge)

    def rest(found: Iterable[Dated]) -> tuple[Dated, ...]:
        return tuple(one for one in found if not one.id or one.id not in gone)

    def parts(
        had: Mapping[str, tuple[Dated, ...]], new: Mapping[str, tuple[Dated, ...]]
    ) -> dict[str, tuple[Dated, ...]]:
        found = {part: (*rest(had.get(part, ())), *new.get(part, ())) for part in {**had, **new}}
        return {part: dated for part, dated in found.items() if dated}

    tables = {name: one for name, one in factors.tables.items() if name not in gone}
    return Factors(
        tables={**tables, **more.tables},
        image=(*rest(factors.image), *more.image),
        dress=(*rest(factors.dress), *more.dress),
        package=parts(factors.package, more.package),
        body=(*rest(factors.body), *more.body),
        loose=parts(factors.loose, more.loose),
        belonging=factors.belonging,
    )


def side_of(part: str, knowledge: Knowledge) -> str:
    """Where the dates of a part count: image, dress, package, housing (the case body) or loose.

    What is on the piece as a whole, such as a tax stamp, dates the picture.
    """
    if part in LOOSE:
        return "loose"
    if part == DRESS:
        return "dress"
    side = knowledge.parts[part].side
    return side if side in ("package", "housing") else "image"


def axes_of(check: Check, frame: Frame) -> tuple[str, ...]:
    """The axes of the joint table that a check bears on, for a kind of piece."""
    return _axes(frame, check.id)


@lru_cache(maxsize=4096)
def _axes(frame: Frame, check: str) -> tuple[str, ...]:
    found = frame.checks[check]
    return tuple(axis for axis in AXES if found.table(axis) and frame.states(axis))


def year_factor(one: Evidence, frame: Frame) -> Array:
    """(Y,) P'(answer | year) of a finding."""
    return dated_rows(frame, one.id, one.finding.known, one.finding.admitted, one.leads)[one.answer]


def state_factor(one: Evidence, frame: Frame) -> Factor:
    """P'(answer | states) of one finding over the axes that its check bears on."""
    finding = one.finding
    return believed_factors(frame, one.id, finding.known, finding.admitted, one.leads)[one.answer]


@lru_cache(maxsize=4096)
def believed_factors(
    frame: Frame, check: str, known: str, admitted: bool, leads: bool
) -> tuple[Factor, ...]:
    """P'(answer | states) of every answer of a check that bears on states."""
    rows = state_rows(frame, check, known, admitted, leads)
    odd = odd_rows(frame, check, known, admitted, leads)
    most = np.log((odd / np.maximum(TINY, rows)).reshape(len(rows), -1).max(axis=1))
    axes = _axes(frame, check)
    return tuple(Factor(axes, *each) for each in zip(rows, odd, most.tolist(), strict=True))


@lru_cache(maxsize=4096)
def odd_rows(frame: Frame, check: str, known: str, admitted: bool, leads: bool) -> Array:
    """P'(answer | states) as (answers, *states) of a piece whose signs are odd together.

    So many of its answers are drawn from the rarest alone: in each state from the first `rare` of
    the chances, by answer from the rarest in general to the commonest. What bears on neither
    belonging nor the package is as of an ordinary piece. Arguments as of `state_rows`.
    """
    rows, odd = state_rows(frame, check, known, admitted, leads), frame.weights.odd
    axes = _axes(frame, check)
    if not odd.chance or not TOGETHER.intersection(axes):
        return rows
    prior = reference(frame, axes)
    order = np.argsort(rows.reshape(len(rows), -1) @ prior.ravel())
    reached = np.minimum(np.cumsum(rows[order], axis=0), odd.rare)
    drawn = np.empty_like(rows)
    drawn[order] = np.diff(reached, axis=0, prepend=0.0) / odd.rare
    found: Array = (1 - odd.part) * rows + odd.part * drawn
    return found


@lru_cache(maxsize=4096)
def state_rows(frame: Frame, check: str, known: str, admitted: bool, leads: bool) -> Array:
    """P'(answer | states) as (answers, *states): sums to 1 over the answers in every state.

    Args:
        frame: States and priors.
        check: The id of a check with tables.
        known: How its answer is known.
        admitted: Said against the speaker's own interest.
        leads: Whether it leads its evidence group.
    """
    found = frame.checks[check]
    rows = answer_rows(frame, check)
    if found.decisive and known == IN_HAND and leads:
        return rows
    prior = reference(frame, _axes(frame, check))
    means = rows.reshape(len(rows), -1) @ prior.ravel()
    mixed = _mixed(rows, means, beliefs(frame, check, known, admitted, leads))
    if not found.slip or known != IN_HAND or not leads:
        return mixed
    rare = rows <= found.slip * NEAR
    kept = np.where(rare, rows, 0.0).sum(axis=0)
    free = np.where(rare, 0.0, mixed).sum(axis=0)
    return np.where(rare, rows, mixed * (1 - kept) / free)


@lru_cache(maxsize=256)
def reference(frame: Frame, axes: tuple[str, ...]) -> Array:
    """The fixed prior over the states of some axes, over which unreliable eyes are averaged."""
    prior = np.ones(())
    for axis in axes:
        prior = prior[..., None] * frame.reference(axis)
    return prior


@lru_cache(maxsize=2048)
def dated_rows(frame: Frame, check: str, known: str, admitted: bool, leads: bool) -> Array:
    """P'(answer | year) as (answers, Y): sums to 1 over the answers in every year.

    An answer that takes the part's years away says the same in every year; the others share what
    that leaves of each year.
    """
    found = frame.checks[check]
    lines = answer_years(frame, check)
    mixed = _mixed(lines, lines @ frame.years, beliefs(frame, check, known, admitted, leads))
    undating = np.array([answer.undates for answer in found.answers])
    mixed[undating] = (mixed[undating] @ frame.years)[:, None]
    left = 1 - mixed[undating].sum(axis=0)
    mixed[~undating] *= left / mixed[~undating].sum(axis=0)
    return mixed


@lru_cache(maxsize=4096)
def beliefs(frame: Frame, check: str, known: str, admitted: bool, leads: bool) -> Vector:
    """How far each answer of a check is believed."""
    found = frame.checks[check]
    return tuple(
        belief(found, place, Finding(check, answer.id, known, admitted), leads, frame.weights)
        for place, answer in enumerate(found.answers)
    )


def _mixed(rows: Array, means: Array, believed: Sequence[float]) -> Array:
    """R P + (1 - r) Pbar by answer, scaled so that the answers sum to 1 in every state."""
    r = np.maximum(LEAST, np.array(believed))
    wide = (slice(None), *(None,) * (rows.ndim - 1))
    mixed: Array = scales(r, means)[wide] * (r[wide] * rows + ((1 - r) * means)[wide])
    return mixed


def scales(believed: Sequence[float] | Array, means: Array) -> Array:
    """(answers,) the factors that make answers believed unalike a distribution in every state.

    With r the belief of an answer and Pbar its mean, g / r where g = 1 / SUM Pbar / r: every
    likelihood ratio is as it was. All 1 where all answers are believed alike.

    Args:
        believed: r by answer, 0 to 1.
        means: Pbar by answer, summing to 1.
    """
    r = np.maximum(LEAST, np.array(believed))
    found: Array = 1 / ((means / r).sum() * r)
    return found


@lru_cache(maxsize=2048)
def answer_rows(frame: Frame, check: str) -> Array:
    """P(answer | states) as (answers, *states), the product of the tables, normalised."""
    found, axes = frame.checks[check], _axes(frame, check)
    rows = np.ones((len(found.answers),) + (1,) * len(axes))
    for place, axis in enumerate(axes):
        table = found.table(axis)
        assert table is not None
        one = np.array([table.rows[state] for state in frame.states(axis)]).T
        shape = [len(found.answers)] + [1] * len(axes)
        shape[place + 1] = one.shape[1]
        rows = rows * one.reshape(shape)
    return rows / rows.sum(axis=0)


@lru_cache(maxsize=2048)
def answer_years(frame: Frame, check: str) -> Array:
    """P(answer | year) as (answers, Y).

    Answers with a share say it times their trapezoid. Those without take what is left, in equal
    parts.
    """
    found, region, weights = frame.checks[check], frame.region, frame.weights
    lines = np.array(
        [
            np.multiply(answer.share, trapezoid(answer.years, region, weights))
            if answer.share
            else np.zeros(SPAN)
            for answer in found.answers
        ]
    )
    free = [not answer.share for answer in found.answers]
    lines[free] = (1 - lines.sum(axis=0)) / max(1, sum(free))
    return lines
