"""Which entries of the log count as like the piece at hand, and how far.

This is a count for the reader ("6 like it in your log") and the bar below which no number is
given. It is no covariance and never enters the regression.
"""

from collections.abc import Mapping

import numpy as np

from appraise.base.dataclass import dataclass
from appraise.pricing.features import Design, figure, words_of
from appraise.pricing.features import PricedRow as Row
from appraise.pricing.texts import Floats


@dataclass(frozen=True, slots=True)
class Likeness:
    """How much a difference takes away; all figures are judgements.

    Attributes:
        other_housing: What is left of the likeness when the housing is of another class.
        other_subject: What is left when the subject class is another.
        size: Log area at which likeness has fallen to 0.61: half as large again or two thirds.
        unknown: What is left for each of these that one side does not tell.
    """

    other_housing: float = 0.5
    other_subject: float = 0.8
    size: float = 0.6
    unknown: float = 0.7


def _overlap(features: Floats, design: Design, name: str, told: Mapping[str, float]) -> Floats:
    """The probability that a row and the subject share one word of a group, as far as told."""
    block = features[:, design.block(name)]
    total = max(sum(told.values()), 1.0)
    aim = np.array([told.get(word, 0.0) / total for word in design.levels[name]])
    shared: Floats = np.minimum(block[:, :-1], aim).sum(axis=1)
    return shared


def likeness(features: Floats, design: Design, subject: Row, figures: Likeness) -> Floats:
    """The likeness of each row of the log to the subject, (n,) values in 0..1.

    Args:
        features: (n, columns) the log's raw features as `design` makes them.
        design: The features' construction.
        subject: The piece at hand.
        figures: What differences take away.

    Another kind or process is not like at all; housing, subject class and size reduce likeness.
    """
    out = np.ones(len(features))
    floors = {
        "kind": 0.0,
        "process": 0.0,
        "housing": figures.other_housing,
        "subject": figures.other_subject,
    }
    for name, floor in floors.items():
        told = words_of(subject, name)
        missing = features[:, design.block(name).stop] > 0.0
        if told:
            shared = _overlap(features, design, name, told)
            out *= np.where(missing, figures.unknown, floor + (1.0 - floor) * shared)
        else:
            out *= np.where(missing, 1.0, figures.unknown)
    sizes = features[:, design.columns.index("size")]
    gap = np.exp(-0.5 * ((sizes - figure(subject, "size")) / figures.size) ** 2)
    return out * np.where(np.isnan(gap), figures.unknown, gap)
