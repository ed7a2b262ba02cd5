"""The entries nearest to the piece, each adjusted towards it: a sales-comparison grid.

The grid is the appraisers' sales comparison approach: the comparable is adjusted towards the
subject, feature by feature (International Valuation Standards name the approach; the layout of
the grid is common practice, no source). Each factor is the change of the price curve as one
feature after the other, in the fixed order of `features.GROUPS`, takes the subject's value, so
the factors multiply to exactly the whole adjustment. A known price ratio counts in the factor of
its name.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from appraise.base.dataclass import dataclass
from appraise.pricing.features import FIELDS, GROUPS, Design, PricedRow, differs, motifs
from appraise.pricing.model import Model
from appraise.pricing.posterior import Posterior
from appraise.pricing.texts import Floats


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
            attribute = FIELDS.get(name, name)
            row = replace(row, **{attribute: getattr(subject, attribute)})
            yield name, row
    if row.motif != subject.motif:
        yield "motif", replace(row, motif=subject.motif)


def _adjustments(
    steps: Sequence[str], heights: Floats, row: PricedRow, subject: PricedRow
) -> tuple[tuple[str, float], ...]:
    """One factor for each name, of the curve and of known ratios together, in order."""
    own, aim = _summed(row), _summed(subject)
    logs = dict(zip(steps, np.diff(heights).tolist(), strict=True))
    for name in [*own, *aim]:
        gap = aim.pop(name, 0.0) - own.pop(name, 0.0)
        if gap:
            logs[name] = logs.get(name, 0.0) + gap
    return tuple((name, float(np.exp(log))) for name, log in logs.items())


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
    curve: Posterior,
    similarity: Floats,
    count: int = 5,
) -> tuple[Comparable, ...]:
    """The rows of largest similarity with their adjustments, nearest first.

    Args:
        model: Fitted on `rows` with `design`.
        design: The features' construction.
        rows: The log, every row with a price.
        subject: The piece at hand.
        curve: The price curve near the subject.
        similarity: (n,) similarity of each row to the subject, 0..1.
        count: How many to show; rows of no similarity are left out.
    """
    order = np.argsort(-similarity, kind="stable")[:count]
    out = []
    for i in order[similarity[order] > 0.0]:
        row = rows[int(i)]
        steps = list(_path(row, subject))
        along = [row, *(after for _, after in steps)]
        heights = curve.mean(model.subjects(design.matrix(along), motifs(along)))
        factors = _adjustments([name for name, _ in steps], heights, row, subject)
        price = float(np.exp(row.level_price + row.ratio))
        whole = float(np.prod([factor for _, factor in factors]))
        out.append(Comparable(row.id, price, factors, price * whole, float(similarity[i])))
    return tuple(out)
