"""Warnings of findings that do not go together: of no one process, or of no one time."""

from collections.abc import Iterator, Sequence
from itertools import combinations

from appraise.knowledge.records import Knowledge
from appraise.reading.conflicts import conflict
from appraise.reading.evidence import Evidence
from appraise.reading.factors import side_of
from appraise.reading.reading import Reading, Timespan
from appraise.reading.spans import span_of
from appraise.verdict.warning import Warning

HARDLY_OUTSIDE = 0.95  # a finding out of time lies outside the span that holds so much
GAP = 10  # years that have to lie between: older sitters keep old styles, and sources err (ours)
OUT_OF_TIME = (
    "an old dress kept for best, or fancy dress",
    "a copy of an older picture",
    "a style that is easily taken for another",
)


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
    """A finding on the image or its sitter whose years leave no room for another's, or the rest's.

    Parts of package and housing are left out: their years part where one was exchanged.
    """
    own = [
        one
        for one in reading.timeline
        if side_of(one.part, knowledge) in ("image", "dress") and one.years[0] < one.years[-1]
    ]
    pairs = combinations(own, 2) if _any_apart(own) else ()
    apart = next((pair for pair in pairs if _apart(*pair)), ())
    wide = span_of(reading.year_weights, HARDLY_OUTSIDE)
    late = next((one for one in own if one.years[0] > wide.last + GAP), None)
    told = apart or ((late,) if late is not None else ())
    if told:
        span = reading.combined
        rest = "" if apart else f"; the combined date is {span.first} to {span.last}"
        names = " and ".join(f"{one.years[0]} to {one.years[-1]}" for one in told)
        yield Warning(
            "out-of-time",
            f"findings on the image are of different times: {names}{rest}",
            because=tuple(f"{knowledge.parts[one.part].name}: {one.answer}" for one in told),
            innocent=OUT_OF_TIME,
            look_next=tuple(one.check for one in told),
        )


def _any_apart(own: Sequence[Timespan]) -> bool:
    """Whether there are two that are."""
    begins, ends = (one.years[0] for one in own), (one.years[-1] for one in own)
    return bool(own) and max(begins) > min(ends) + GAP


def _apart(one: Timespan, other: Timespan) -> bool:
    """Whether the years of one begin well after those of the other have ended."""
    early, late = sorted((one.years, other.years))
    return late[0] > early[-1] + GAP
