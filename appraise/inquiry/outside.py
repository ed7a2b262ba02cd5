"""Dated findings whose years lie wholly outside of those that all else gives their part.

A part is held against the table without its own dates, as if it were the first one and the image no
copy: of the package against the image's years, of the housing against its own, which are up to some
years of stock before the image's. What the sitter wears is met for some years after its fashion.
"""

from collections.abc import Collection, Sequence

import numpy as np

from appraise.knowledge.records import FIRST_YEAR, Knowledge
from appraise.reading.factors import Dated, answer_years, side_of
from appraise.reading.frame import Array
from appraise.reading.reading import Reading
from appraise.reading.spans import Span, span_of
from appraise.reading.years import TOGETHER, exchanged, loose_rate, times

WORN = "dress"
KEPT = 10  # years for which dress is still met when its fashion has gone (ours)
FLAT = 1 + 1e-9


def outside(reading: Reading, knowledge: Knowledge, checks: Collection[str]) -> dict[str, Span]:
    """By check, of the findings out of time, the years that all but their part gives.

    Args:
        reading: The piece as read.
        knowledge: For the sides of the parts.
        checks: Those that are asked about.
    """
    found: dict[str, Span] = {}
    for one in reading.factors.dated:
        if one.evidence is None or one.id not in checks:
            continue
        part = one.evidence.check.part
        line = answer_years(reading.joint.frame, one.id)[one.evidence.answer]
        inside = np.flatnonzero(line > line.min() * FLAT) + FIRST_YEAR
        kept = KEPT if side_of(part, knowledge) == WORN else 0
        rest = span_of(_rest(part, reading, knowledge))
        near = (inside + kept >= rest.first) & (inside <= rest.last)
        if inside.size and not near.any():
            found[one.id] = rest
    return found


def _rest(part: str, reading: Reading, knowledge: Knowledge) -> Array:
    """(Y,) weights of the years of a part by all else, if it is the first one and no copy."""
    views, factors, frame = reading.views, reading.factors, reading.joint.frame
    side, mean = side_of(part, knowledge), frame.years
    found: Array = views.period[:, 0].sum(axis=(0, 1))
    if side == "package":
        line = times(factors.package[part])
        rates = np.array(frame.weights.exchange)[:, None]
        found = (views.by_year / exchanged(line, line @ mean, rates)).sum(axis=0)
    elif side == "loose":
        line = times(factors.loose[part])
        rate = loose_rate(frame.weights, part)
        found = views.housing[TOGETHER] / exchanged(line, float(line @ mean), rate)
    elif side == "housing":
        found = views.housing[TOGETHER] / _of_part(part, factors.body)
    else:
        found = found / _of_part(part, factors.dress if side == WORN else factors.image)
    return found


def _of_part(part: str, found: Sequence[Dated]) -> Array:
    """(Y,) the line of what dates one part among several."""
    return times([one for one in found if one.evidence and one.evidence.check.part == part])
