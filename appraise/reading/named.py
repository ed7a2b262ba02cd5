"""What a piece is called: the processes that are named, their years, and which part is modern.

One rule for every place that tells it, so that headline, panel, reasons and report name the same.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from appraise.knowledge.records import YEARS
from appraise.reading.spans import Span, span_of

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.reading.frame import Array, Frame
    from appraise.reading.reading import Reading
    from appraise.reading.views import Views

SETTLED = 0.8  # from that chance on a process is named alone
SECOND = 0.05  # a second process less likely than that is not named
MAINLY = 0.85  # of the chance of anything modern: from there on that part is named
CASE, IMAGE, BOTH, EITHER = "case", "image", "both", "either"
EMPTY_CASE = "empty-case"
PRINTED = "photomechanical"
PRINT = "printed reproduction"


def family_name(family: str, knowledge: Knowledge) -> str:
    """A family of processes by its name."""
    if family == PRINTED:
        return PRINT
    row = knowledge.processes.get(family)
    return row.name if row is not None else family


def named_families(families: Mapping[str, float]) -> tuple[str, ...]:
    """The process that a piece is called by, or the two likeliest where none is settled."""
    best, *rest = sorted(families, key=lambda word: -families[word])[:2]
    if families[best] >= SETTLED or not rest or families[rest[0]] < SECOND:
        return (best,)
    return (best, rest[0])


def named_span(views: Views, named: tuple[str, ...]) -> Span:
    """The combined years of an image so named, given that it is of its period.

    A process that is told with years names years in which it was made.
    """
    return span_of(named_line(views, named))


def named_line(views: Views, named: tuple[str, ...]) -> Array:
    """(Y,) weights by the year of such an image."""
    by_process: Array = views.period.sum(axis=(1, 2))  # (P, Y)
    made = made_in(views.joint.frame, named)
    line: Array = (by_process * made).sum(axis=0)
    return line if line.any() else by_process.sum(axis=0)


@lru_cache(maxsize=1024)
def made_in(frame: Frame, named: tuple[str, ...]) -> Array:
    """(P, Y) 1 for the years from which on an image of that name can be of a process, else 0.

    A named process counts from its own first year, and any other, since the name may be wrong, from
    the first of those that are named. A named one that bears no years, such as modern printing,
    says nothing beside one that does.
    """
    years, processes = np.array(YEARS), frame.processes
    mine = [one for one in processes if one.family in named]
    dated = [row.first for one in mine for row in one.years.values()]
    earliest = min(dated, default=YEARS[0])
    undated = YEARS[-1] + 1 if dated else YEARS[0]
    first = [
        min((row.first for row in one.years.values()), default=undated)
        if one.family in named
        else earliest
        for one in processes
    ]
    found: Array = (years >= np.array(first)[:, None]).astype(float)
    return found


def modern_part(reading: Reading) -> str:
    """Which part may be modern: a word of CASE, IMAGE, BOTH or EITHER.

    The chance that is told beside it is that of anything modern, `reading.modern`.
    """
    if reading.piece.kind == EMPTY_CASE:
        return CASE
    if not reading.joint.frame.cased:
        return IMAGE
    both = reading.belonging["all-modern"]
    case, image = reading.belonging["modern-case"] + both, image_modern(reading)
    least = MAINLY * reading.modern
    told = {(True, True): BOTH, (True, False): CASE, (False, True): IMAGE}
    return told.get((case >= least, image >= least), EITHER)


def image_modern(reading: Reading) -> float:
    """The chance that the image is modern, whatever holds it."""
    if not reading.joint.frame.cased:
        return reading.modern
    return reading.belonging["modern-image"] + reading.belonging["all-modern"]
