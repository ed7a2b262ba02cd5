"""Findings that exclude each other: together they are far rarer than each alone would make them.

The measure is that of Jensen, Chamberlain, Nordahl and Jensen, "Analysis in HUGIN of Data Conflict"
(Proceedings of the Sixth Conference on Uncertainty in Artificial Intelligence, 1990): the product
of what each finding's probability is alone, over the probability of them all together.
"""

from functools import lru_cache

import numpy as np

from appraise.base.dataclass import dataclass
from appraise.reading.evidence import Evidence
from appraise.reading.factors import Factor, reference
from appraise.reading.frame import Array, Frame
from appraise.reading.reading import Reading

AXIS = "process"
SAID = "claim"  # what is said of a piece is no finding on it


@dataclass(frozen=True, slots=True)
class Exclusion:
    """The two findings that go together worst, whatever the process.

    Attributes:
        first, second: The findings.
        ratio: How much rarer all findings on the process are together than each alone would have
            it; 1 or below where they go together.
    """

    first: Evidence
    second: Evidence
    ratio: float


def conflict(reading: Reading, least: float = 0.0) -> Exclusion | None:
    """What excludes each other among the findings that bear on the process.

    Args:
        reading: The piece as read.
        least: None where the ratio is below it, or fewer than two findings bear on the process.
    """
    frame, tables = reading.joint.frame, reading.factors.tables
    found = [
        one
        for one in reading.evidence
        if one.id in tables and AXIS in tables[one.id].axes and one.check.part != SAID
    ]
    if len(found) < 2:
        return None
    rows = np.array([_by_process(tables[one.id], frame) for one in found])
    alone = rows @ frame.process_share
    rows = rows / alone[:, None]
    ratio = 1 / float(rows.prod(axis=0) @ frame.process_share)
    if ratio < least:
        return None
    pairs = (rows * frame.process_share) @ rows.T
    np.fill_diagonal(pairs, np.inf)
    first, second = sorted(divmod(int(pairs.argmin()), len(found)))
    return Exclusion(found[first], found[second], ratio)


@lru_cache(maxsize=4096)
def _by_process(factor: Factor, frame: Frame) -> Array:
    """(P,) P'(answer | process), averaged over the fixed prior of the other axes."""
    others = tuple(axis for axis in factor.axes if axis != AXIS)
    if not others:
        return factor.values
    values = np.moveaxis(factor.values, factor.axes.index(AXIS), 0)
    found: Array = np.tensordot(values, reference(frame, others), axes=len(others))
    return found
