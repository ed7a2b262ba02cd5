"""A piece read: everything that its findings mean, before any price."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from appraise.base.ages import birth_years
from appraise.knowledge.records import BELONGING, YEARS, Check, Knowledge
from appraise.piece.records import Piece
from appraise.reading.asking import applying, progress
from appraise.reading.condition import Condition, read_condition
from appraise.reading.evidence import Evidence, gather
from appraise.reading.factors import Factors, factors_of
from appraise.reading.formats import FormatReading, read_formats
from appraise.reading.frame import Vector, frame_for
from appraise.reading.influence import belonging_of
from appraise.reading.joint import Joint, solve
from appraise.reading.spans import (
    Exchange,
    Span,
    exchanges,
    housing_span,
    image_span,
    joint_span,
    package_span,
    picture_posterior,
)


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

    Attributes:
        piece: As it was read.
        evidence: The findings that count.
        factors, joint: The table, for whoever asks why.
        processes, families, housings: Probabilities by word.
        belonging: Probabilities by state.
        before: The range in which "married" is put for this housing before looking.
        disturbed: P(package disturbed).
        image, package, housing: Spans of years from each alone; None when it says nothing.
        together: The joint span of the picture's year, given that it is of its period.
        year_weights: The joint posterior over `YEARS`, summing to 1.
        exchanged: Dated parts by how likely each is an exchange.
        formats: Format of picture and case.
        condition: By image, package and housing.
        checks: The checks that make sense for the piece.
        progress: By part, done and of.
    """

    piece: Piece
    evidence: tuple[Evidence, ...]
    factors: Factors
    joint: Joint
    processes: Mapping[str, float]
    families: Mapping[str, float]
    housings: Mapping[str, float]
    belonging: Mapping[str, float]
    before: tuple[float, float]
    disturbed: float
    image: Span
    package: Span | None
    housing: Span | None
    together: Span
    year_weights: Vector
    exchanged: tuple[Exchange, ...]
    timeline: tuple[Timespan, ...]
    formats: FormatReading
    condition: Condition
    checks: tuple[Check, ...]
    progress: Mapping[str, tuple[int, int]]

    @property
    def family(self) -> str:
        """The likeliest family of processes."""
        return max(self.families, key=lambda word: self.families[word])

    @property
    def material(self) -> str:
        """The likeliest housing."""
        return max(self.housings, key=lambda word: self.housings[word])

    @property
    def modern(self) -> float:
        """P(case, picture or both are modern)."""
        return sum(self.belonging[state] for state in BELONGING[2:])

    @property
    def odd_one_out(self) -> Exchange | None:
        """The dated part that the evidence most says is an exchange, if it says so at all."""
        weights = self.joint.frame.weights
        leading = next(iter(self.exchanged), None)
        if leading is None or leading.ratio < weights.raise_ratio:
            return None
        return leading if leading.probability >= weights.raise_chance else None

    @property
    def born(self) -> tuple[int, int] | None:
        """The sitter's birth years from apparent age and the joint span."""
        if self.piece.sitter_age is None:
            return None
        return birth_years((self.together.first, self.together.last), self.piece.sitter_age)


def read(piece: Piece, knowledge: Knowledge) -> Reading:
    """Read a piece. Never raises on a bad piece: what cannot be used is left out."""
    frame = frame_for(piece, knowledge)
    evidence = gather(piece, knowledge)
    formats = read_formats(piece, knowledge)
    factors = replace(
        factors_of(evidence, frame, knowledge, piece.region), belonging=formats.belonging
    )
    joint = solve(frame, factors, piece.channel, piece.subject)
    margins = _margins(joint)
    posterior = picture_posterior(joint)
    found = exchanges(joint, factors, posterior, piece.channel, piece.subject)
    chances = {**margins.housings, **margins.processes, **margins.families}
    checks = applying(piece, knowledge, chances)
    whole = sum(posterior[0]) + sum(posterior[1])
    likeliest = max(margins.housings, key=lambda word: margins.housings[word])
    return Reading(
        piece=piece,
        evidence=evidence,
        factors=factors,
        joint=joint,
        processes=margins.processes,
        families=margins.families,
        housings=margins.housings,
        belonging=dict(zip(BELONGING, belonging_of(joint), strict=True)),
        before=knowledge.housings[likeliest].before,
        disturbed=margins.disturbed,
        image=image_span(joint, factors),
        package=package_span(joint, factors, margins.disturbed),
        housing=housing_span(joint, factors, bool(piece.found("case.material"))),
        together=joint_span(posterior),
        year_weights=tuple((a + b) / whole for a, b in zip(*posterior, strict=True)),
        exchanged=found,
        timeline=_timeline(evidence, found, piece.region),
        formats=formats,
        condition=read_condition(evidence, checks, knowledge),
        checks=checks,
        progress=progress(piece, checks),
    )


def existed_by(reading: Reading, year: int) -> float:
    """P(the picture, if of its period, had been taken by the end of a year)."""
    return sum(w for y, w in zip(YEARS, reading.year_weights, strict=True) if y <= year)


@dataclass(frozen=True, slots=True)
class _Margins:
    processes: dict[str, float]
    families: dict[str, float]
    housings: dict[str, float]
    disturbed: float


def _margins(joint: Joint) -> _Margins:
    frame = joint.frame
    processes = dict.fromkeys((p.id for p in frame.processes), 0.0)
    families = dict.fromkeys((p.family for p in frame.processes), 0.0)
    housings = dict.fromkeys((h.id for h in frame.housings), 0.0)
    disturbed = 0.0
    for housing, rows in zip(frame.housings, joint.cells, strict=True):
        for process, states in zip(frame.processes, rows, strict=True):
            weight = sum(pair[0] + pair[1] for pair in states) / joint.total
            disturbed += sum(pair[1] for pair in states) / joint.total
            processes[process.id] += weight
            families[process.family] += weight
            housings[housing.id] += weight
    return _Margins(processes, families, housings, disturbed)


def _timeline(
    evidence: tuple[Evidence, ...], found: tuple[Exchange, ...], region: str
) -> tuple[Timespan, ...]:
    chances = {one.part: one.probability for one in found}
    rows = []
    for one in evidence:
        years = one.check.answers[one.answer].years
        chosen = years.get(region) or years.get("") or next(iter(years.values()), None)
        if chosen is not None:
            part = one.check.part
            four = (chosen.first, chosen.start, chosen.end, chosen.last)
            rows.append(Timespan(part, one.id, one.says, four, chances.get(part, 0.0)))
    return tuple(rows)
