"""What was usual in a year: every dated row of the trade's knowledge that reaches into it."""

from collections.abc import Iterator, Mapping

from appraise.base.dataclass import dataclass
from appraise.knowledge.records import KINDS, REGIONS, Basis, Check, Knowledge, Years

USUAL, COMING, GOING = "usual", "coming in", "going out"
PROCESS, HOUSING, FORMAT = "process", "housing", "format"
ANYWHERE = "unknown"
NAMES = {"us": "the United States", "gb": "Britain", "eu": "the Continent", "au": "Australia"}


@dataclass(frozen=True, slots=True)
class Current:
    """Something that was about in a year.

    Attributes:
        part: 'process', 'housing', or the part's word.
        kinds: Of which kinds of piece it is said.
        ask: The question that finds it; for processes and housings the word for them.
        says: What it is.
        state: 'usual' in the common years, 'coming in' before them, 'going out' after them.
        years: The four years, and how sure they are.
        region: The region that they hold for; '' for every one.
        basis: What they rest on.
    """

    part: str
    kinds: tuple[str, ...]
    ask: str
    says: str
    state: str
    years: Years
    region: str
    basis: Basis


def usual_in(
    year: int, knowledge: Knowledge, kind: str = "", region: str = ANYWHERE
) -> tuple[Current, ...]:
    """What was usual, coming in and going out in a year, part by part.

    Args:
        year: Any year; one before photography has nothing.
        knowledge: The trade's knowledge.
        kind: Of pieces; '' takes every kind, and each row says of which it holds.
        region: One of `REGIONS`; 'unknown' takes every region's years.
    """
    found = [
        Current(row.part, kinds, row.ask, row.says, _state(years, year), years, place, row.basis)
        for row in _dated(knowledge)
        if (kinds := tuple(one for one in row.kinds if kind in ("", one)))
        for place, years in _held(row.years, region).items()
        if years.first <= year <= years.last
    ]
    return tuple(found)


@dataclass(frozen=True, slots=True)
class _Dated:
    part: str
    kinds: tuple[str, ...]
    ask: str
    says: str
    years: Mapping[str, Years]
    basis: Basis


def _dated(knowledge: Knowledge) -> Iterator[_Dated]:
    """Every dated row of the knowledge: processes, housings, formats, answers of checks."""
    for one in knowledge.processes.values():
        kinds = tuple(kind for kind in KINDS if one.shares.get(kind, 0.0) > 0)
        yield _Dated(PROCESS, kinds, PROCESS, one.name, one.years, one.basis)
    for housing in knowledge.housings.values():
        yield _Dated(HOUSING, ("cased",), HOUSING, housing.name, housing.years, housing.basis)
    for form in knowledge.formats.values():
        if form.years:
            yield _Dated(FORMAT, form.kinds, FORMAT, form.name, form.years, form.basis)
    order = list(knowledge.parts)
    checks = [check for check in knowledge.checks.values() if check.dates]
    for check in sorted(checks, key=lambda check: order.index(check.part)):
        for place, answer in enumerate(check.answers):
            basis, says = answer.basis or check.basis, check.told(place)
            yield _Dated(check.part, check.kinds, check.ask, says, answer.years, basis)


def known_for(check: Check) -> str:
    """A sentence on the one region for which a check's years are known; '' where it has others."""
    dated = [set(answer.years) for answer in check.answers if answer.years]
    regions = set().union(*dated)
    for region, name in NAMES.items():
        if regions == {region}:
            return f"Its years are known for {name} only."
        if {region} in dated and regions - {region}:
            told = [a.says for a in check.answers if set(a.years) == {region}]
            return f"Known for {name} only: the years of {', '.join(repr(one) for one in told)}."
    return ""


def _held(by_region: Mapping[str, Years], region: str) -> Mapping[str, Years]:
    """The years that hold in a region; those of every region where it is not known."""
    if region not in REGIONS:
        return by_region
    chosen = region if region in by_region else ""
    return {chosen: by_region[chosen]} if chosen in by_region else {}


def _state(years: Years, year: int) -> str:
    return COMING if year < years.start else GOING if year > years.end else USUAL
