"""What becomes of a marked lot: a bid, and its result with all that is logged for it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from appraise.base.dataclass import dataclass
from appraise.commands.kinds import KINDS
from appraise.commands.records import Done
from appraise.records.lot import Lot

if TYPE_CHECKING:
    from appraise.base.money import Money
    from appraise.commands.workspace import Workspace
    from appraise.records.entry import Entry
    from appraise.records.stored import ChangeSet, Stored
    from appraise.store.log import Log
    from appraise.verdict import Verdict

Verdicts = Sequence["Verdict | None"]
_KIND = KINDS["lot"]


@dataclass(frozen=True, slots=True)
class Result:
    """The result of a lot.

    Attributes:
        entries: What was logged for it.
        total: What it cost in total; None where it was not won.
        unlogged: Why nothing was logged where something could be; empty otherwise.
    """

    stored: Stored[Lot]
    entries: tuple[Entry, ...] = ()
    total: Money | None = None
    unlogged: str = ""


def bid(
    work: Workspace,
    one: Stored[Lot] | str,
    amount: Money | None,
    chance: int | None,
    *,
    anew: bool = False,
) -> Done[Lot]:
    """Record a bid, or withdraw it; the notes say what it does to one's limit and budget.

    `amount`: the bid; None withdraws it.
    `chance`: that it wins, in %; None: as said before.
    `anew`: whether a chance said before is forgotten.
    """
    from appraise.collection.budget_status import bid_warnings
    from appraise.collection.lotsteps import with_bid, without_bid
    from appraise.records.stored import Stored
    from appraise.store.venue_book import read_book, read_budget_status

    with work.opened() as log:
        was = _KIND.meant(log, one)
        begun = replace(was.thing, chance=None) if anew else was.thing
        lot = with_bid(begun, amount, work.moment(), chance) if amount else None
        now = Stored(was.id, lot or without_bid(was.thing))
        purse = read_budget_status(log, work.currency, work.as_of)
        doubts = tuple(bid_warnings(now, read_book(log), purse, work.as_of))
        _KIND.change(log, now, was.thing)
    return Done("", now, doubts)


def won(
    work: Workspace,
    one: Stored[Lot],
    hammer: Money,
    verdicts: Verdicts,
    *,
    total: Money | None,
    share: str,
    on: dt.date,
) -> Result:
    """Log a lot that was won, its cost divided among the pieces.

    Args:
        work: The workspace.
        one: The lot.
        hammer: The hammer price.
        verdicts: On each of its pieces.
        total: What was paid in total; None: by the venue's terms.
        share: The shares of the pieces as typed; empty: by their worths.
        on: The day.
    """
    from appraise.collection.lot_results import whole_cost, won_act
    from appraise.collection.lotworth import all_valued, weights_of, worth_weights
    from appraise.store.venue_book import read_book

    lot, code = one.thing, work.currency
    with work.opened() as log:
        book = read_book(log)
        cost = total or whole_cost(lot, hammer, book, code, on)
        weights: Sequence[float] = (1.0,)
        if len(lot.items) > 1 and share:
            weights = weights_of(share, len(lot.items))
        elif len(lot.items) > 1:
            pieces = all_valued(lot, verdicts, lambda amount: book.turned(amount, code, on))
            weights = worth_weights(pieces, lot.selling)
        return _written(log, won_act(one, hammer, on, cost, weights, verdicts), cost)


def lost(
    work: Workspace,
    one: Stored[Lot],
    hammer: Money | None,
    verdicts: Verdicts,
    *,
    share: str,
    on: dt.date,
) -> Result:
    """Record a lot that was lost, and log what it went for where that says something."""
    from appraise.collection.lot_results import SEVERAL, carriage_of, lost_act
    from appraise.collection.lotworth import weights_of
    from appraise.store.venue_book import read_book

    lot = one.thing
    several = len(lot.items) > 1
    weights = weights_of(share, len(lot.items)) if several and share else None
    with work.opened() as log:
        posted = carriage_of(lot, read_book(log))
        act = lost_act(one, hammer, on, verdicts, weights, posted)
        return _written(log, act, why=SEVERAL if several and hammer and not weights else "")


def passed(work: Workspace, one: Stored[Lot], on: dt.date) -> Result:
    """Record that one did not bid."""
    from appraise.collection.lot_results import passed_act

    with work.opened() as log:
        return _written(log, passed_act(one, on))


def _written(log: Log, act: ChangeSet, total: Money | None = None, why: str = "") -> Result:
    """Write a result as one act."""
    from appraise.records.entry import Entry
    from appraise.store.records import commit

    ids = commit(log, act)
    entries = tuple(
        one.named(name) for one, name in zip(act.add, ids, strict=True) if isinstance(one, Entry)
    )
    (stored,) = (one for one in act.change[:1])
    return Result(stored, entries, total, why)  # type: ignore[arg-type]
