"""Whether the maximum of a lot may be given plainly, by the gates of the pieces in it.

The lot's worth is the sum of its pieces', each of which may turn out as its own gate says. A
maximum stands plain where it is unlikely that the sum is much less than the maximum assumes; else
it is told for both outcomes of the piece on which most hangs.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from appraise.pricing.lot import Plan
from appraise.verdict.gate import Gate, GateOutcome

if TYPE_CHECKING:
    from appraise.base.money import Money
    from appraise.collection.lotworth import Valued
    from appraise.knowledge.settings import Limits

GRAIN = 1000  # sums of worths are told apart to this part of the whole
Maximum = Callable[[Sequence["Valued"]], "Money | None"]
"""The largest bid on pieces of certain worths."""


def lot_gate(pieces: Sequence[Valued], selling: int, maximum: Maximum) -> Gate | None:
    """The gate before the maximum of a lot; None where no piece is valued by the log.

    `selling`: per cent of a sale that selling costs.
    """
    gated = {place: gate for place, one in enumerate(pieces) if (gate := _gate(one)) is not None}
    if not gated:
        return None
    bar = next(iter(gated.values())).bar
    missing = _missing(gated, len(pieces))
    doubtful = {place: gate for place, gate in gated.items() if gate.outcomes}
    if _short(pieces, doubtful, selling, bar) <= bar.doubt:
        return Gate(not missing, missing, (), bar)
    place = max(doubtful, key=lambda at: _hangs(pieces[at], doubtful[at], selling))
    outcomes = tuple(_as_lot(one, place, pieces, maximum) for one in doubtful[place].outcomes)
    return Gate(False, missing, outcomes, bar)


def _gate(one: Valued) -> Gate | None:
    """The gate that counts: of a piece that is not taken apart, and valued by the log."""
    return one.gate if one.item.plan != Plan.PARTS else None


def _missing(gated: dict[int, Gate], count: int) -> str:
    """What has to be known of the pieces first, in words."""
    found = [gate.missing for gate in gated.values() if gate.missing]
    if not found:
        return ""
    of = "" if len(found) == count else f"{len(found)} of {count} pieces: "
    return of + "; ".join(dict.fromkeys(found))


def _short(pieces: Sequence[Valued], doubtful: dict[int, Gate], selling: int, bar: Limits) -> float:
    """The chance that the sum of the worths is much less than the maximum assumes."""
    total = sum(one.value(selling) for one in pieces)
    if not doubtful or total <= 0:
        return 0.0
    sure = sum(one.value(selling) for place, one in enumerate(pieces) if place not in doubtful)
    grain = total / GRAIN
    sums = {round(sure / grain): 1.0}
    for place, gate in doubtful.items():
        known = sum(one.chance for one in gate.outcomes)
        found: dict[int, float] = {}
        for outcome in gate.outcomes:
            value = round(_worth(pieces[place], outcome.worth).value(selling) / grain)
            for at, chance in sums.items():
                found[at + value] = found.get(at + value, 0.0) + chance * outcome.chance / known
        sums = found
    return sum(chance for at, chance in sums.items() if at < bar.short * GRAIN)


def _worth(one: Valued, worth: float) -> Valued:
    return replace(one, worth=worth)


def _hangs(one: Valued, gate: Gate, selling: int) -> float:
    """How much hangs on a piece: the difference between its outcomes by how likely they are."""
    good, bad = (_worth(one, outcome.worth).value(selling) for outcome in gate.outcomes)
    return (good - bad) * min(outcome.chance for outcome in gate.outcomes)


def _as_lot(
    one: GateOutcome, place: int, pieces: Sequence[Valued], maximum: Maximum
) -> GateOutcome:
    """An outcome of one piece as one of the lot."""
    changed = [_worth(each, one.worth) if at == place else each for at, each in enumerate(pieces)]
    says = f"{one.says}, piece {place + 1}" if len(pieces) > 1 else one.says
    brief = f"{one.brief}, piece {place + 1}" if len(pieces) > 1 else one.brief
    total = sum(each.worth or 0.0 for each in changed)
    return GateOutcome(says, brief, one.chance, total, maximum(changed))
