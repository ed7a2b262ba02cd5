"""Warnings of a whole piece, also where it holds several images."""

from collections.abc import Mapping
from dataclasses import replace

from appraise.knowledge.records import Knowledge
from appraise.reading.frame import Vector
from appraise.reading.influence import influences
from appraise.reading.plain_warnings import Warning
from appraise.reading.reading import Reading
from appraise.reading.warnings import warnings_of


def influences_of(reading: Reading, knowledge: Knowledge) -> dict[str, Vector]:
    """P(h) without each finding of a reading."""
    return influences(reading.views, reading.evidence, knowledge)


def piece_warnings(
    reading: Reading, knowledge: Knowledge, before: Mapping[str, Vector]
) -> tuple[Warning, ...]:
    """Every warning, the strong ones first; of several images, each with its side.

    What holds of all images alike, such as a fault of the case they share, is said once.

    Args:
        reading: The piece as read.
        knowledge: For names and thresholds.
        before: As from `influences_of`.
    """
    if not reading.images:
        return warnings_of(reading, knowledge, before)
    found: dict[tuple[str, str], list[tuple[str, Warning]]] = {}
    for side, one in reading.images:
        for warning in warnings_of(one, knowledge, influences_of(one, knowledge)):
            found.setdefault((warning.id, warning.says), []).append((side, warning))
    told = []
    for rows in found.values():
        if len(rows) == len(reading.images):
            told.append(max((one for _, one in rows), key=lambda one: one.ratio))
        else:
            told += [replace(one, says=f"{side}: {one.says}") for side, one in rows]
    return tuple(sorted(told, key=lambda one: (not one.strong, -one.ratio)))
