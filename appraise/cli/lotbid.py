"""One maximum for a whole lot, from its file or as it is followed."""

from __future__ import annotations

import argparse
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from appraise.base.errors import InputError
from appraise.base.settings import Settings
from appraise.cli.context import Context
from appraise.commands import records
from appraise.commands.kinds import KINDS
from appraise.commands.workspace import now

if TYPE_CHECKING:
    from appraise.collection.budget_status import BudgetStatus
    from appraise.documents.lotbid import LotMaximum
    from appraise.records.lot import Lot
    from appraise.records.stored import Stored
    from appraise.records.venue import Venue
    from appraise.verdict import Verdict


def lot_named(args: argparse.Namespace, context: Context) -> Stored[Lot] | None:
    """The lot that the command line names, by its file or its id; None for a piece file.

    Raises:
        InputError: when there is neither a file nor a lot of that name.
    """
    from appraise.cli.pieces import found

    path = found(args.piece)
    if path.suffix in (".yaml", ".yml") or path.is_file():
        return _in_file(path, context)
    if not context.home.log.exists():
        raise InputError(f"there is no file '{path}', and no lot is marked")
    return records.found(context, KINDS["lot"], str(args.piece))


def _in_file(path: Path, context: Context) -> Stored[Lot] | None:
    from appraise.base.yamls import read
    from appraise.records.lot_file import is_lot, read_lot
    from appraise.records.stored import Stored

    if not is_lot(read(path)):
        return None
    return Stored("", read_lot(path, context.knowledge(), context.author(), now()))


def run_lot_bid(
    args: argparse.Namespace, context: Context, held: Stored[Lot], settings: Settings
) -> None:
    from appraise.documents.lotbid import lot_bid_document, lot_bid_json

    told = maximum_for(context, held, settings, args.venue, args.bidders, args.log)
    document = lot_bid_json(told, context.as_of, held.id)
    context.show(document, lot_bid_document(told, context.as_of))


def maximum_for(
    context: Context,
    held: Stored[Lot],
    settings: Settings,
    venue: str = "",
    bidders: int | None = None,
    log: Path | None = None,
) -> LotMaximum:
    """The maximum for a lot.

    Args:
        context: The command's surroundings.
        held: The lot; one that is not followed has no id.
        settings: What the buyer decided.
        venue: Where it is tried instead; '' where it is sold.
        bidders: How many bid, the user included; None: by the settings.
        log: Another price log.

    Raises:
        InputError: where no such venue is noted; as `lot_maximum`.
    """
    from appraise.documents.lotbid import lot_maximum

    book = context.book()
    lot = _tried_at(held.thing, book.named(venue)) if venue else held.thing
    verdicts = judged_by_log(lot, context, settings, log)
    told = lot_maximum(lot, verdicts, settings, book, context.as_of, bidders)
    return replace(told, purse=_purse(context, settings.currency, held.id))


def _purse(context: Context, currency: str, lot: str) -> BudgetStatus | None:
    """What is left to spend beside a lot; None where there is no log."""
    from appraise.store.venue_book import read_budget_status

    if not context.home.log.exists():
        return None
    with context.log() as log:
        return read_budget_status(log, currency, context.as_of).without(lot)


def _tried_at(lot: Lot, house: Venue) -> Lot:
    """The lot as if a house sold it; sums in another currency than its own are left out."""
    code = house.currency
    if code == lot.currency:
        return replace(lot, venue=house.name)
    return replace(
        lot, venue=house.name, currency=code, asking=None, low=None, high=None,
        bid=None, bid_at=None, state="followed" if lot.open else "passed", hammer=None,
    )  # fmt: skip


def judged_by_log(
    lot: Lot, context: Context, settings: Settings, log: Path | None = None
) -> tuple[Verdict | None, ...]:
    """A verdict on each piece of which something was noted."""
    if not any(one.piece for one in lot.items):
        return (None,) * len(lot.items)
    from appraise.collection.lotworth import judged
    from appraise.verdict import judge

    knowledge = context.knowledge()
    prices = context.prices(knowledge, settings.currency, log)
    return judged(
        lot, knowledge, lambda one: judge(one, knowledge, prices, context.as_of, settings)
    )
