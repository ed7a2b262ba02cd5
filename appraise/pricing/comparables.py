"""The entries nearest to the piece, each adjusted towards it: a sales-comparison grid.

The grid is the appraisers' sales comparison approach: the comparable is adjusted towards the
subject, feature by feature (International Valuation Standards name the approach; the layout of
the grid is common practice, no source). Each factor is the change of the price curve as one
feature after the other, in the fixed order of `features.GROUPS`, takes the subject's value, so
the factors multiply to exactly the whole adjustment.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from appraise.pricing.features import GROUPS, Design, PricedRow, differs, motifs
from appraise.pricing.model import Model
from appraise.pricing.texts import Floats

_FIELD = {"size": "area"}


@dataclass(frozen=True, slots=True)
class Comparable:
    """One entry of the log beside the piece.

    Attributes:
        id: The entry's name in the log.
        price: The logged price, base currency.
        factors: (feature, factor) for each feature that differs, in the order applied.
        adjusted: The logged price times all factors.
        weight: Its similarity to the piece, 0..1.
    """

    id: str
    price: float
    factors: tuple[tuple[str, float], ...]
    adjusted: float
    weight: float


def _path(row: PricedRow, subject: PricedRow) -> Iterator[tuple[str, PricedRow]]:
    """The features that differ, each with the row after it has taken the subject's value."""
    for name in GROUPS:
        if differs(row, subject, name):
            attribute = _FIELD.get(name, name)
            row = replace(row, **{attribute: getattr(subject, attribute)})
            yield name, row
    if row.motif != subject.motif:
        yield "motif", replace(row, motif=subject.motif)


def _ratio_factors(row: PricedRow, subject: PricedRow) -> list[tuple[str, float]]:
    """The factors of known price ratios in which two rows differ."""
    own, aim = _summed(row), _summed(subject)
    gaps = {name: aim.get(name, 0.0) - own.get(name, 0.0) for name in [*own, *aim]}
    return [(name, float(np.exp(gap))) for name, gap in gaps.items() if gap]


def _summed(row: PricedRow) -> dict[str, float]:
    out: dict[str, float] = {}
    for name, log in row.ratios:
        out[name] = out.get(name, 0.0) + log
    return out


def compare(
    model: Model,
    design: Design,
    rows: Sequence[PricedRow],
    subject: PricedRow,
    similarity: Floats,
    count: int = 5,
) -> tuple[Comparable, ...]:
    """The rows of largest similarity with their adjustments, nearest first.

    Args:
        model: Fitted on `rows` with `design`.
        design: The features' construction.
        rows: The log, every row with a price.
        subject: The piece at hand.
        similarity: (n,) similarity of each row to the subject, 0..1.
        count: How many to show; rows of no similarity are left out.
    """
    order = np.argsort(-similarity, kind="stable")[:count]
    points = model.subjects(design.matrix([subject]), motifs([subject]))
    curve = model.near(points)
    out = []
    for i in order[similarity[order] > 0.0]:
        row = rows[int(i)]
        steps = list(_path(row, subject))
        along = [row, *(after for _, after in steps)]
        heights = curve.mean(model.subjects(design.matrix(along), motifs(along)))
        factors = [
            (name, float(np.exp(change)))
            for (name, _), change in zip(steps, np.diff(heights), strict=True)
        ]
        factors += _ratio_factors(row, subject)
        price = float(np.exp(row.level_price + row.ratio))
        whole = float(np.prod([factor for _, factor in factors]))
        out.append(Comparable(row.id, price, tuple(factors), price * whole, float(similarity[i])))
    return tuple(out)
