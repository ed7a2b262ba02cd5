"""Every warning: what was found, towards what, how strongly, the innocent reading, where to look.

None of them says "fake" or "authentic": they name evidence and its strength.
"""

from dataclasses import replace

from appraise.knowledge.records import Knowledge
from appraise.reading.reading import Reading
from appraise.verdict.at_odds import excluding, of_two_times
from appraise.verdict.doubts import belonging, exchange, second_thoughts
from appraise.verdict.plain_warnings import (
    active,
    claims,
    late_materials,
    misfits,
    opened,
    repairs,
    sizes,
    unused,
)
from appraise.verdict.warning import Warning
from appraise.verdict.written import unread_year, written_date


def piece_warnings(reading: Reading, knowledge: Knowledge) -> tuple[Warning, ...]:
    """Every warning, the strong ones first; of several images, each with its side.

    What holds of all images alike, such as a fault of the case they share, is said once.

    Args:
        reading: The piece as read.
        knowledge: For names and thresholds.
    """
    if not reading.images:
        return warnings_of(reading, knowledge)
    found: dict[tuple[str, str], list[tuple[str, Warning]]] = {}
    for side, one in reading.images:
        for warning in warnings_of(one, knowledge):
            found.setdefault((warning.id, warning.says), []).append((side, warning))
    told = []
    for rows in found.values():
        if len(rows) == len(reading.images):
            told.append(max((one for _, one in rows), key=lambda one: one.ratio))
        else:
            told += [replace(one, says=f"{side}: {one.says}") for side, one in rows]
    return tuple(sorted(told, key=lambda one: (not one.strong, -one.ratio)))


def warnings_of(reading: Reading, knowledge: Knowledge) -> tuple[Warning, ...]:
    """Every warning of one image and what holds it, the strong ones first."""
    found = [
        *belonging(reading, knowledge),
        *exchange(reading, knowledge),
        *claims(reading, knowledge),
        *second_thoughts(reading, knowledge),
        *sizes(reading, knowledge),
        *misfits(reading, knowledge),
        *written_date(reading, knowledge),
        *unread_year(reading),
        *excluding(reading, knowledge),
        *of_two_times(reading, knowledge),
        *opened(reading, knowledge),
        *late_materials(reading, knowledge),
        *repairs(reading),
        *active(reading),
        *unused(reading, knowledge),
    ]
    return tuple(sorted(found, key=lambda one: (not one.strong, -one.ratio)))
