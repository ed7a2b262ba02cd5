"""What was usual in a year: every dated row of the trade's knowledge that reaches into it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from appraise.knowledge.records import REGIONS, Basis, Check, Knowledge, Years

USUAL, COMING, GOING = "usual", "coming in", "going out"
PROCESS, HOUSING = "process", "housing"
ANYWHERE = "unknown"


@dataclass(frozen=True, slots=True)
class Current:
    """Something that was about in a year.

    Attributes:
        part: 'process', 'housing', or the part's word.
        ask: The question that finds it; for processes and housings the word for them.
        says: What it is.
        state: 'usual' in the common years, 'coming in' before them, 'going out' after them.
        years: The four years, and how sure they are.
        region: The region that they hold for; '' for every one.
        basis: What they rest on.
    """

    part: str
    ask: str
    says: str
    state: str
    years: Years
    region: str
    basis: Basis


def usual_in(
    year: int, knowledge: Knowledge, kind: str = "cased", region: str = ANYWHERE
) -> tuple[Current, ...]:
    """What was usual, coming in and going out in a year, part by part.

    Args:
        year: Any year; one before photography has nothing.
        knowledge: The trade's knowledge.
        kind: Of pieces.
        region: One of `REGIONS`; 'unknown' takes every region's years.
    """
    found = [*_processes(year, knowledge, kind, region)]
    if kind == "cased":
        for housing in knowledge.housings.values():
            found += _rows(
                HOUSING, HOUSING, housing.name, housing.years, housing.basis, year, region
            )
    order = list(knowledge.parts)
    checks = [check for check in knowledge.checks.values() if kind in check.kinds and check.dates]
    for check in sorted(checks, key=lambda check: order.index(check.part)):
        found += _answers(check, year, region)
    return tuple(found)


def _processes(year: int, knowledge: Knowledge, kind: str, region: str) -> Iterator[Current]:
    for process in knowledge.processes.values():
        if process.shares.get(kind, 0.0) > 0:
            yield from _rows(
                PROCESS, PROCESS, process.name, process.years, process.basis, year, region
            )


def _answers(check: Check, year: int, region: str) -> Iterator[Current]:
    for place, answer in enumerate(check.answers):
        basis = answer.basis or check.basis
        says = check.told(place)
        yield from _rows(check.part, check.ask, says, answer.years, basis, year, region)


def _rows(
    part: str,
    ask: str,
    says: str,
    by_region: Mapping[str, Years],
    basis: Basis,
    year: int,
    region: str,
) -> Iterator[Current]:
    for place, years in _held(by_region, region).items():
        if years.first <= year <= years.last:
            yield Current(part, ask, says, _state(years, year), years, place, basis)


def _held(by_region: Mapping[str, Years], region: str) -> Mapping[str, Years]:
    """The years that hold in a region; those of every region where it is not known."""
    if region not in REGIONS:
        return by_region
    chosen = region if region in by_region else ""
    return {chosen: by_region[chosen]} if chosen in by_region else {}


def _state(years: Years, year: int) -> str:
    return COMING if year < years.start else GOING if year > years.end else USUAL
