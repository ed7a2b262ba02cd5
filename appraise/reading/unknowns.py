"""Two further yes/no unknowns: a period copy of an older picture, and later additions.

Both are summed over. A check that bears on one of them and on states of the joint table as well
ties them together: what it multiplies into the table is the sum over the unknowns.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from appraise.reading.factors import AXES, Factor, Factors
from appraise.reading.frame import Frame, Vector

UNKNOWN = ("copy", "altered")


@dataclass(frozen=True, slots=True)
class Unknowns:
    """What is known of the two unknowns.

    Attributes:
        factor: What they multiply into the joint table once summed over; no axes where nothing
            ties them to it.
        yes: By unknown, P(yes | states), laid out as the factor.
        pairs: P(neither), P(altered only), P(copy only), P(both), for each of the states.
    """

    factor: Factor
    yes: tuple[Vector, Vector]
    pairs: tuple[Vector, ...]


def unknowns_of(factors: Factors, frame: Frame) -> Unknowns:
    """The unknowns summed over, for each of the states that checks tie them to."""
    bearing = [one for one in factors.tables.values() if set(one.axes) & set(UNKNOWN)]
    tied = [one for one in bearing if set(one.axes) - set(UNKNOWN)]
    axes = tuple(
        axis for axis in AXES if axis not in UNKNOWN and any(axis in one.axes for one in tied)
    )
    shape = tuple(len(frame.states(axis)) for axis in axes)
    alone = _multiplied(_priors(frame), [one for one in bearing if one not in tied], {})
    totals, pairs = [], []
    for states in product(*(range(size) for size in shape)):
        weights = _multiplied(alone, tied, dict(zip(axes, states, strict=True)))
        total = sum(weights)
        totals.append(total)
        pairs.append(tuple(weight / total for weight in weights))
    copied = tuple(pair[2] + pair[3] for pair in pairs)
    altered = tuple(pair[1] + pair[3] for pair in pairs)
    return Unknowns(Factor(axes, shape, tuple(totals)), (copied, altered), tuple(pairs))


def _priors(frame: Frame) -> list[float]:
    """Priors of neither, altered only, copy only, both."""
    copy, altered = (frame.reference(axis) for axis in UNKNOWN)
    return [a * b for a, b in product(copy, altered)]


def _multiplied(
    weights: Sequence[float], factors: Sequence[Factor], at: Mapping[str, int]
) -> list[float]:
    """Weights of the four with factors multiplied in, in one state of the table."""
    found = list(weights)
    for one in factors:
        first = one.place(at)
        steps = [one.stride(axis) for axis in UNKNOWN]
        for number, (copy, altered) in enumerate(product((0, 1), repeat=2)):
            found[number] *= one.values[first + copy * steps[0] + altered * steps[1]]
    return found
