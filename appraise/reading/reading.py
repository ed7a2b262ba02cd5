"""A piece read: everything that its findings mean, before any price."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from appraise.base.ages import birth_years
from appraise.base.dataclass import dataclass
from appraise.knowledge.crossing import MOUNT_FORM
from appraise.knowledge.records import BELONGING, YEARS, Check, Knowledge
from appraise.reading.applying import applying, progress
from appraise.reading.condition import Condition, read_condition
from appraise.reading.evidence import Evidence, gather
from appraise.reading.factors import Factors, factors_of
from appraise.reading.formats import FormatReading, read_formats
from appraise.reading.frame import Array, Vector, frame_for
from appraise.reading.joint import Joint, solve
from appraise.reading.matter import as_it_lies
from appraise.reading.mounts import MountForm, mount_form
from appraise.reading.named import EMPTY_CASE, made_in, named_families, named_span
from appraise.reading.spans import (
    PartExchange,
    Span,
    exchanges,
    housing_span,
    image_span,
    package_span,
)
from appraise.reading.told import told_lines
from appraise.reading.views import Views
from appraise.records.piece import Image, Piece

PERIOD, MODERN = "period", "modern"
EACH = np.ones(len(BELONGING))  # numpy is slow at summing a short last axis
MODERN_FIRST = "modern-case"  # from here on the states of `BELONGING` are modern ones


@dataclass(frozen=True, slots=True)
class Timespan:
    """A dated finding on the timeline, with the four years of its answer."""

    part: str
    check: str
    answer: str
    years: tuple[int, int, int, int]
    exchanged: float


@dataclass(frozen=True, slots=True)
class Reading:
    """What the findings mean.

    A piece with several images has a reading for each, with what was found on the housing in
    common; its own is that of the more doubtful one, with the condition of them all.

    Attributes:
        piece: As it was read.
        evidence: The findings that count.
        told: By part, what dates it and is no answer to a check: measures, written dates.
        factors, joint, views: The table, for whoever asks why.
        processes, families, housings: Probabilities by word; no housings for kinds without one.
        states: Probabilities over `BELONGING`.
        belonging: Probabilities by state: those of `BELONGING` for a cased piece, `period` and
            `modern` for any other.
        before: The range in which "married" is put for this housing before looking.
        disturbed: P(package disturbed).
        image, package, housing: Spans of years from each alone; None when it says nothing. The
            image's are those of the named families.
        together: The joint span of the picture's year, given that it is of its period and of the
            named families.
        year_weights: The posterior over `YEARS` whatever the process, summing to 1.
        exchanged: Dated parts by how likely each is an exchange.
        formats: Format of picture and case.
        condition: By image, package and housing.
        checks: The checks that make sense for the piece.
        images: Where a piece holds several: each one's side and reading.
    """

    piece: Piece
    evidence: tuple[Evidence, ...]
    factors: Factors
    told: Mapping[str, tuple[Array, ...]]
    joint: Joint
    views: Views
    processes: Mapping[str, float]
    families: Mapping[str, float]
    housings: Mapping[str, float]
    states: Vector
    belonging: Mapping[str, float]
    before: tuple[float, float]
    disturbed: float
    image: Span
    package: Span | None
    housing: Span | None
    together: Span
    year_weights: Vector
    exchanged: tuple[PartExchange, ...]
    timeline: tuple[Timespan, ...]
    formats: FormatReading
    condition: Condition
    checks: tuple[Check, ...]
    images: tuple[tuple[str, "Reading"], ...] = ()

    @property
    def family(self) -> str:
        """The likeliest family of processes."""
        return max(self.families, key=lambda word: self.families[word])

    @property
    def named(self) -> tuple[str, ...]:
        """The likeliest family, or the two likeliest where the first is not settled."""
        return named_families(self.families)

    @property
    def combined(self) -> Span:
        """The years that are told: the image's; of an empty case those of the case."""
        return self.housing if self.housing and self.piece.kind == EMPTY_CASE else self.together

    @property
    def material(self) -> str:
        """The likeliest housing; an empty word for kinds without one."""
        return max(self.housings, key=lambda word: self.housings[word], default="")

    @property
    def modern(self) -> float:
        """P(case, picture or both are modern)."""
        return sum(self.states[BELONGING.index(MODERN_FIRST) :])

    @property
    def married(self) -> float:
        """P(of the period, but not each other's first); 0 for kinds without a housing."""
        return self.belonging.get("married", 0.0)

    @property
    def progress(self) -> Mapping[str, tuple[int, int]]:
        """By part, checks done and of."""
        mine = next((one for _, one in self.images if one.joint is self.joint), self)
        return progress(mine.piece, mine.checks)

    @property
    def side(self) -> str:
        """Of several images, which one the reading itself is of; '' for a piece with one."""
        mine = (side for side, one in self.images if one.joint is self.joint)
        return next(mine, "") if len(self.images) > 1 else ""

    @property
    def odd_one_out(self) -> PartExchange | None:
        """The dated part that the evidence most says is an exchange, if it says so at all."""
        weights = self.joint.frame.weights
        leading = next(iter(self.exchanged), None)
        if leading is None or leading.ratio < weights.raise_ratio:
            return None
        return leading if leading.probability >= weights.raise_chance else None

    @property
    def born(self) -> tuple[int, int] | None:
        """The sitter's birth years from apparent age and the combined years."""
        if self.piece.sitter_age is None:
            return None
        return birth_years((self.combined.first, self.combined.last), self.piece.sitter_age)


def read(piece: Piece, knowledge: Knowledge) -> Reading:
    """Read a piece. Never raises on a bad piece: what cannot be used is left out."""
    piece = as_it_lies(piece)
    if not piece.images:
        return _read(piece, knowledge)
    each = tuple((one.side, _read(_with_image(piece, one), knowledge)) for one in piece.images)
    doubtful = max((one for _, one in each), key=lambda one: one.modern + one.married)
    return replace(doubtful, piece=piece, images=each, condition=_whole_condition(each, knowledge))


def _with_image(piece: Piece, image: Image) -> Piece:
    """The piece as if it held one of its images only."""
    return replace(piece, findings={**piece.findings, **image.findings}, images=())


def _whole_condition(each: tuple[tuple[str, Reading], ...], knowledge: Knowledge) -> Condition:
    """The condition over all images: of a check asked of each, the worst answer counts."""
    worst: dict[str, Evidence] = {}
    for one in (one for _, reading in each for one in reading.evidence):
        if one.id not in worst or one.answer > worst[one.id].answer:
            worst[one.id] = one
    checks = {check.id: check for _, reading in each for check in reading.checks}
    return read_condition(tuple(worst.values()), tuple(checks.values()), knowledge)


def _read(piece: Piece, knowledge: Knowledge) -> Reading:
    frame = frame_for(piece, knowledge)
    evidence = gather(piece, knowledge)
    formats = read_formats(piece, knowledge)
    told = told_lines(piece, knowledge, mount := mount_form(piece, knowledge, formats))
    factors = factors_of(evidence, frame, knowledge, formats.belonging, told)
    joint = solve(frame, factors, piece.channel, piece.subjects)
    views = Views(joint, factors)
    sums = margins(joint)
    checks = applying(piece, knowledge, {**sums.housings, **sums.processes, **sums.families})
    states = tuple(joint.states.tolist())
    found = exchanges(views)
    by_year = views.by_year.sum(axis=0)
    named = named_families(sums.families)
    return Reading(
        piece=piece,
        evidence=evidence,
        factors=factors,
        told=told,
        joint=joint,
        views=views,
        processes=sums.processes,
        families=sums.families,
        housings=sums.housings,
        states=states,
        belonging=belonging_by_word(states, frame.cased),
        before=_before(sums.housings, knowledge),
        disturbed=sums.disturbed,
        image=image_span(views, made_in(frame, named)),
        package=package_span(views, sums.disturbed),
        housing=housing_span(views, bool(piece.found("case.material"))),
        together=named_span(views, named),
        year_weights=tuple((by_year / by_year.sum()).tolist()),
        exchanged=found,
        timeline=(*_timeline(evidence, found, piece.region), *_mount_span(mount)),
        formats=formats,
        condition=read_condition(evidence, checks, knowledge),
        checks=checks,
    )


def belonging_by_word(states: Sequence[float], cased: bool) -> dict[str, float]:
    """P(h) by word: the states of `BELONGING`, or period and modern for a piece without a case."""
    if cased:
        return dict(zip(BELONGING, states, strict=True))
    return {PERIOD: states[0], MODERN: sum(states[1:])}


def _before(housings: Mapping[str, float], knowledge: Knowledge) -> tuple[float, float]:
    """The range in which "married" is put for the likeliest housing before looking."""
    if not housings:
        return (0.0, 0.0)
    return knowledge.housings[max(housings, key=lambda word: housings[word])].before


def existed_by(reading: Reading, year: int) -> float:
    """P(the picture, if of its period, had been taken by the end of a year)."""
    return sum(w for y, w in zip(YEARS, reading.year_weights, strict=True) if y <= year)


def looks_right(reading: Reading, year: int) -> float:
    """P(the picture, if of its period, was taken in a year or in the few before it).

    What one would have carried then; for how long a style looks right is a setting, a judgement.
    """
    before = reading.joint.frame.weights.looks_right
    return existed_by(reading, year) - existed_by(reading, year - before - 1)


@dataclass(frozen=True, slots=True)
class Margins:
    """Chances summed from the joint table: of processes, families, housings, an opened package."""

    processes: dict[str, float]
    families: dict[str, float]
    housings: dict[str, float]
    disturbed: float


def margins(joint: Joint) -> Margins:
    """The chances of everything but the years and belonging."""
    frame, total = joint.frame, joint.total
    each = joint.by_belonging @ EACH / total
    by_process = each.sum(axis=0).tolist()
    processes, families = {}, dict.fromkeys((p.family for p in frame.processes), 0.0)
    for process, chance in zip(frame.processes, by_process, strict=True):
        processes[process.id] = chance
        families[process.family] += chance
    housings = {}
    if frame.cased:
        by_housing = each.sum(axis=1).tolist()
        housings = {one.id: chance for one, chance in zip(frame.housings, by_housing, strict=True)}
    return Margins(processes, families, housings, float(joint.by_state[1].sum() / total))


def _timeline(
    evidence: tuple[Evidence, ...], found: tuple[PartExchange, ...], region: str
) -> tuple[Timespan, ...]:
    chances = {one.part: one.probability for one in found}
    rows = []
    for one in evidence:
        years = one.check.answers[one.answer].years
        if not years:
            continue
        chosen = years.get(region) or years.get("") or next(iter(years.values()), None)
        if chosen is not None:
            part = one.check.part
            four = (chosen.first, chosen.start, chosen.end, chosen.last)
            rows.append(Timespan(part, one.id, one.says, four, chances.get(part, 0.0)))
    return tuple(rows)


def _mount_span(mount: MountForm | None) -> tuple[Timespan, ...]:
    """A card's form as measured, with the years of its likeliest format."""
    if mount is None or mount.years is None:
        return ()
    four = (mount.years.first, mount.years.start, mount.years.end, mount.years.last)
    return (Timespan(mount.part, MOUNT_FORM, mount.says, four, 0.0),)
