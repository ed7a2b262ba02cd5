"""Warnings of findings that do not go together: of no one process, or of no one time."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations

from appraise.inquiry.outside import WORN, outside
from appraise.knowledge.records import Knowledge
from appraise.reading.conflicts import conflict
from appraise.reading.evidence import Evidence
from appraise.reading.factors import side_of
from appraise.reading.reading import Reading, Timespan
from appraise.reading.spans import Span
from appraise.verdict.warning import Warning

GAP = 10  # years that lie between two findings of different times: sources err (ours)
UNKNOWN = "unknown"
OUT_OF_TIME = {
    "image": ("a copy of an older picture", "a style that is easily taken for another"),
    WORN: ("an old dress kept for best, or fancy dress", "a copy of an older picture"),
    "package": ("a part renewed, or taken from another piece", "an old part from stock"),
    "loose": ("a part renewed when the first one broke",),
    "housing": ("an old case from the photographer's stock", "re-cased by an early owner"),
}
"""What else may explain a finding out of time, by the side of its part."""


def excluding(reading: Reading, knowledge: Knowledge) -> Iterator[Warning]:
    """Two findings that hardly any process explains together."""
    found = conflict(reading, knowledge.weights.exclude_ratio)
    if found is not None:
        both = (found.first, found.second)
        yield Warning(
            "findings-exclude",
            "two findings exclude each other, whatever the process: look at both again",
            because=tuple(_told(one, knowledge) for one in both),
            innocent=tuple(one.check.misleads for one in both if one.check.misleads),
            look_next=tuple(one.id for one in both),
        )


def _told(one: Evidence, knowledge: Knowledge) -> str:
    return f"{knowledge.parts[one.check.part].name}: {one.says}"


def of_two_times(reading: Reading, knowledge: Knowledge) -> Iterator[Warning]:
    """Findings of other years than the rest of the piece, whatever their part.

    Either the years of a finding lie outside those that are told without its part, or those of two
    findings lie well apart. The probabilities keep the explanations; here they are named.
    """
    dated = {one.check: one for one in reading.timeline if _holds_here(one, reading, knowledge)}
    pairs = combinations(dated.values(), 2) if _any_apart(list(dated.values())) else ()
    apart = [one for pair in pairs if _apart(*pair) for one in pair]
    rests = outside(reading, knowledge, dated)
    told = [one for one in dated.values() if one in apart or one.check in rests]
    if told:
        yield Warning(
            "out-of-time",
            _of_which_times(told, rests, knowledge),
            because=tuple(f"{knowledge.parts[one.part].name}: {one.answer}" for one in told),
            innocent=tuple(dict.fromkeys(_innocent(told, knowledge))),
            look_next=tuple(one.check for one in told if one.check in knowledge.checks),
        )


def _holds_here(one: Timespan, reading: Reading, knowledge: Knowledge) -> bool:
    """Whether the years of a finding are those of the piece's region; others rule nothing out."""
    if one.check not in knowledge.checks:
        return True
    check, region = knowledge.checks[one.check], reading.piece.region
    years = check.answers[check.index(reading.piece.found(one.check))].years
    return region == UNKNOWN or region in years or "" in years


def _of_which_times(
    told: Sequence[Timespan], rests: Mapping[str, Span], knowledge: Knowledge
) -> str:
    years = [f"{knowledge.parts[one.part].name} {one.years[0]} to {one.years[-1]}" for one in told]
    says = f"findings are of different times: {', '.join(dict.fromkeys(years))}"
    if len(told) > 1 and not rests:
        return says
    rest = next(iter(rests.values()))
    return f"{says}; the rest is of {rest.first} to {rest.last}"


def _innocent(told: Sequence[Timespan], knowledge: Knowledge) -> Iterator[str]:
    for one in told:
        check = knowledge.checks.get(one.check)
        yield from check.innocent[:1] if check is not None else ()
    for one in told:
        yield from OUT_OF_TIME[side_of(one.part, knowledge)]


def _any_apart(own: Sequence[Timespan]) -> bool:
    """Whether there are two that are."""
    begins, ends = (one.years[0] for one in own), (one.years[-1] for one in own)
    return bool(own) and max(begins) > min(ends) + GAP


def _apart(one: Timespan, other: Timespan) -> bool:
    """Whether the years of one begin well after those of the other have ended."""
    early, late = sorted((one.years, other.years))
    return late[0] > early[-1] + GAP
