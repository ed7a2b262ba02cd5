"""What dates a piece and is no answer to a check: a date written on it, and a card's size.

A date written on a part is of the part's own year or a few years later; a sale, a dated cancel or a
gift is not before the picture. Of such dates a share is wrong or by a later hand (`written`): half
of those within a lifetime of the part's year, half anywhere. A loose note travels and bounds
nothing.
"""

from collections.abc import Iterator, Mapping

import numpy as np

from appraise.base.dates import year_range
from appraise.knowledge.records import FIRST_YEAR, LAST_YEAR, YEARS, Knowledge
from appraise.reading.frame import SPAN, Array
from appraise.reading.mounts import MountForm
from appraise.records.piece import Inscription, Piece

IMAGE = "image"


def told_lines(
    piece: Piece, knowledge: Knowledge, mount: MountForm | None = None
) -> dict[str, tuple[Array, ...]]:
    """By part, lines over years (Y,) of which each is P(what is told | the part's year).

    Args:
        piece: Its writing.
        knowledge: How far writing is believed.
        mount: A card's form as its size tells it.
    """
    found: dict[str, tuple[Array, ...]] = {mount.part: (mount.line,)} if mount else {}
    for part, line in _written(piece, knowledge):
        found[part] = (*found.get(part, ()), line)
    return found


def _written(piece: Piece, knowledge: Knowledge) -> Iterator[tuple[str, Array]]:
    places: Mapping[str, tuple[str, int]] = knowledge.weights.written_on
    for one in piece.writings:
        line = written_line(one, knowledge)
        if line is not None:
            yield places[one.where][0], line


def written_line(one: Inscription, knowledge: Knowledge) -> Array | None:
    """P(the writing | year of its part), or None for a note, a place unknown or no date.

    A right date names a year up to so many years after the part's own, each as likely. Of the wrong
    ones half lie within a lifetime of it, and half anywhere.
    """
    weights = knowledge.weights
    if one.date is None or one.where not in weights.written_on:
        return None
    first, last = year_range(one.date)
    low = FIRST_YEAR if first is None else first
    high = LAST_YEAR if last is None else last
    reach = weights.written_on[one.where][1]
    years = np.array(YEARS)
    inside = (years >= low - reach) & (years <= high)
    if not inside.any():
        return None
    width = high - low + 1 + reach
    spread = weights.written_spread
    near = (years >= low - spread) & (years <= high + spread)
    wrong = weights.written * (near / (2 * spread + 1) + 1 / SPAN) / 2
    return np.where(inside, (1 - weights.written) / width, 0.0) + wrong
