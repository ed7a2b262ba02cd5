"""What is behind each figure of a reading, and what would change it.

A figure is the chance of one proposition: that the parts are married, that the picture is a
daguerreotype, that it was taken in certain years. A finding's weight for it is the odds with the
finding over the odds without it, the weights of its evidence group as they are. What would change
it is played through: each likely answer to the checks that tell most is given, and the piece is
read again. Some 60 readings, so that it is asked for apart from the verdict.
"""

from collections.abc import Iterator, Mapping, Sequence

from appraise.base.dataclass import dataclass
from appraise.inquiry.changed import ChangedTables
from appraise.inquiry.forecast import CLAIM, Forecast, Prospect
from appraise.inquiry.offering import offered
from appraise.knowledge.records import FIRST_YEAR, UNJUDGED, Check, Knowledge
from appraise.reading.evidence import Evidence
from appraise.reading.frame import Vector
from appraise.reading.named import named_line
from appraise.reading.reading import Reading, margins, read
from appraise.reading.spans import Span
from appraise.reading.views import Views
from appraise.reading.words import NONE, word_for
from appraise.reading.years import MARRIED, MODERN_CASE

TELLING, DATING = 8, 6  # open checks that are played through: of all, and of those that date
LIKELY = 0.03  # answers less likely than that are not played through
MOVES = 0.02  # changes smaller than that are not told
TOLD = 3  # changes told of each figure
LEAST = 1e-12
YEARS_FIGURE = "years"


@dataclass(frozen=True, slots=True)
class Moved:
    """One finding and what it did to a figure.

    Attributes:
        check: The check's id.
        says: The answer's words.
        known: How it is known.
        ratio: Odds with the finding over odds without it, or the inverse: 1 or more.
        speaks_for: Whether it speaks for the proposition.
        word: The verbal band of the ratio.
        without: What the chance would be without it.
    """

    check: str
    says: str
    known: str
    ratio: float
    speaks_for: bool
    word: str
    without: float


@dataclass(frozen=True, slots=True)
class Turn:
    """An answer not yet given, and what the figure would be after it.

    Attributes:
        check: The check's id.
        says: The answer's words.
        chance: P(answer).
        after: The chance of the proposition after it.
    """

    check: str
    says: str
    chance: float
    after: float


@dataclass(frozen=True, slots=True)
class Behind:
    """A figure, what moved it and what would change it.

    Attributes:
        figure: 'married', 'modern', 'process', 'housing', 'opened', 'copy', 'altered' or 'years'.
        says: The proposition in words.
        chance: Its chance.
        moved: The findings that moved it, the weightiest first.
        turns: Answers that would change it most, by how likely they are times how far they go.
        side: Of several images in one piece, which.
    """

    figure: str
    says: str
    chance: float
    moved: tuple[Moved, ...]
    turns: tuple[Turn, ...]
    side: str = ""


@dataclass(frozen=True, slots=True)
class _Propositions:
    """What is asked of every table: the leading words and the years of the reading explained."""

    family: str
    material: str
    span: Span
    cased: bool
    named: tuple[str, ...]

    def chances(self, views: Views) -> dict[str, float]:
        """By figure, of a table."""
        joint, sums = views.joint, margins(views.joint)
        states = joint.states.tolist()
        found = {
            "modern": sum(states[MODERN_CASE:]),
            "process": sums.families[self.family],
            "opened": sums.disturbed,
            "copy": joint.copy,
            "altered": joint.altered,
            YEARS_FIGURE: self._within(views),
        }
        if self.cased:
            found |= {"married": states[MARRIED], "housing": sums.housings[self.material]}
        return found

    def _within(self, views: Views) -> float:
        line = named_line(views, self.named)
        first, last = self.span.first - FIRST_YEAR, self.span.last - FIRST_YEAR
        return float(line[first : last + 1].sum() / line.sum())


def behind(reading: Reading, knowledge: Knowledge) -> tuple[Behind, ...]:
    """What is behind every figure of a reading; of several images, of each.

    Args:
        reading: The piece as read.
        knowledge: The trade's knowledge.

    Returns:
        One for each figure; none where the kind is not judged as one photograph.
    """
    if reading.piece.kind in UNJUDGED:
        return ()
    each = reading.images or (("", reading),)
    return tuple(one for side, own in each for one in _behind(own, knowledge, side))


def _behind(reading: Reading, knowledge: Knowledge, side: str) -> Iterator[Behind]:
    cased = reading.joint.frame.cased
    asked = _Propositions(reading.family, reading.material, reading.combined, cased, reading.named)
    now, tables = asked.chances(reading.views), ChangedTables(reading, knowledge)
    rest = {one.id: asked.chances(tables.without(one)) for one in reading.evidence}
    turns = list(_played(reading, knowledge, asked))
    for figure, says in _said(reading, knowledge).items():
        if not says:  # nothing lies there that the figure could be of: an empty case
            continue
        moved = _moved(reading.evidence, figure, now[figure], rest)
        if figure in ("copy", "altered") and not moved:
            continue
        told = _told(turns, figure, now[figure])
        yield Behind(figure, says, now[figure], moved, told, side)


def _said(reading: Reading, knowledge: Knowledge) -> dict[str, str]:
    """The propositions in words, in the order in which they are told."""
    span = reading.combined
    years = f"{span.first} to {span.last}" if span.first < span.last else f"{span.last}"
    process = knowledge.processes.get(reading.family)
    picture = {
        "modern": "a modern part",
        "process": process.name if process is not None else reading.family,
        YEARS_FIGURE: f"image taken {years}",
        "copy": "a copy of an older image",
        "altered": "something added later",
    }
    if not reading.joint.frame.cased:
        return {**picture, "modern": "modern"}
    housing = knowledge.housings[reading.material].name
    return {
        "married": "a married piece",
        **picture,
        "opened": "the package was opened",
        "housing": f"housing of {housing}",
    }


def _moved(
    evidence: Sequence[Evidence],
    figure: str,
    now: float,
    rest: Mapping[str, Mapping[str, float]],
) -> tuple[Moved, ...]:
    found = []
    for one in evidence:
        before = rest[one.id][figure]
        ratio = odds(now) / odds(before)
        word = word_for(ratio)
        if word == NONE and abs(now - before) < MOVES:
            continue
        weight = max(ratio, 1 / ratio)
        found.append(Moved(one.id, one.says, one.finding.known, weight, ratio >= 1, word, before))
    return tuple(sorted(found, key=lambda one: -one.ratio))


def odds(chance: float) -> float:
    """The odds of a chance, away from nothing and certainty by a hair."""
    return max(LEAST, chance) / max(LEAST, 1 - chance)


def _played(
    reading: Reading, knowledge: Knowledge, asked: _Propositions
) -> Iterator[tuple[Turn, dict[str, float]]]:
    """Likely answers to the checks that tell most, and every figure after each."""
    forecast = Forecast(reading, knowledge)
    told = forecast.prospects(_able(forecast)).values()
    prospects = sorted(told, key=lambda one: -one.whole)
    dating = [one for one in prospects if one.check.dates]
    chosen = dict.fromkeys(
        one.check.id for one in (*prospects[:TELLING], *dating[:DATING]) if one.whole > 0
    )
    by_id: dict[str, Prospect] = {one.check.id: one for one in prospects}
    for name in chosen:
        check, chances = by_id[name].check, by_id[name].chances
        yield from _answered(reading, knowledge, check, chances, asked, forecast.known(check))


def _able(forecast: Forecast) -> list[Check]:
    """The open checks that an owner can make now; what a seller says is not looked at."""
    reading = forecast.reading
    chances = {**reading.housings, **reading.processes, **reading.families}
    return [
        check
        for check in forecast.open
        if check.part != CLAIM and offered(check, reading.piece, chances)
    ]


def _answered(
    reading: Reading,
    knowledge: Knowledge,
    check: Check,
    chances: Vector,
    asked: _Propositions,
    known: str,
) -> Iterator[tuple[Turn, dict[str, float]]]:
    for place, chance in enumerate(chances):
        if chance >= LIKELY:
            piece = reading.piece.with_finding(check.id, check.answers[place].id, known)
            after = asked.chances(read(piece, knowledge).views)
            yield Turn(check.id, check.told(place), chance, 0.0), after


def _told(
    turns: Sequence[tuple[Turn, dict[str, float]]], figure: str, now: float
) -> tuple[Turn, ...]:
    """The answers that would change one figure most, one for each check."""
    best: dict[str, Turn] = {}
    for turn, after in turns:
        one = Turn(turn.check, turn.says, turn.chance, after[figure])
        if abs(one.after - now) < MOVES:
            continue
        kept = best.get(one.check)
        if kept is None or _reach(one, now) > _reach(kept, now):
            best[one.check] = one
    return tuple(sorted(best.values(), key=lambda one: -_reach(one, now))[:TOLD])


def _reach(turn: Turn, now: float) -> float:
    return turn.chance * abs(turn.after - now)
