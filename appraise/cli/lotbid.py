"""One maximum for a whole lot, from its file or as it is followed."""

from __future__ import annotations

import argparse
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from appraise.base.errors import InputError
from appraise.base.settings import Settings
from appraise.cli.context import Context, now
from appraise.cli.exits import Exit

if TYPE_CHECKING:
    from appraise.keeping.lots import Lot
    from appraise.log.holdings import Held
    from appraise.verdict import Verdict


def lot_named(args: argparse.Namespace, context: Context) -> Held[Lot] | None:
    """The lot that the command line names, by its file or its id; None for a piece file.

    Raises:
        InputError: when there is neither a file nor a lot of that name.
    """
    from appraise.cli.pieces import found

    path = found(args.piece)
    if path.suffix in (".yaml", ".yml") or path.is_file():
        return _in_file(path, context)
    if not context.home.log.exists():
        raise InputError(f"there is no file '{path}', and no lot is followed")
    from appraise.cli.lots import one_of

    with context.log() as log:
        return one_of(log, str(args.piece))


def _in_file(path: Path, context: Context) -> Held[Lot] | None:
    from appraise.base.yamls import read
    from appraise.keeping.lotfiles import followed
    from appraise.log.holdings import Held
    from appraise.piece.lots import is_lot, read_lot

    if not is_lot(read(path)):
        return None
    lot = read_lot(path, context.knowledge())
    return Held("", followed(lot, now(), context.as_of, context.settings().currency))


def run_lot_bid(
    args: argparse.Namespace, context: Context, held: Held[Lot], settings: Settings
) -> Exit:
    """Work out and show the maximum for a lot."""
    from appraise.keeping.lotworth import all_valued, lot_advice
    from appraise.log.outlay import read_purse, sale_of_lot
    from appraise.pricing.money import terms_of
    from appraise.report.lotbid import LotMaximum, lot_bid_json, lot_bid_text

    lot, code = held.thing, settings.currency
    if args.venue:
        lot = replace(lot, venue=args.venue)
    sale, book = sale_of_lot(lot), context.book()
    venue = context.terms_for(sale, code, args.venue)
    house = book.named(args.venue) if args.venue else book.for_sale(sale.venue, sale.channel)
    channel = (house.channel if house else "") or lot.channel
    terms = terms_of(settings, channel)
    if args.bidders is not None:
        terms = replace(terms, bidders=args.bidders)
    verdicts = judged_by_log(lot, context, settings, args.log)
    pieces = all_valued(lot, verdicts, lambda one: book.turned(one, code, context.as_of))
    advice = lot_advice(lot, pieces, terms, venue)
    purse = None
    if context.home.log.exists():
        with context.log() as log:
            purse = read_purse(log, code, context.as_of).without(held.id)
    reasons = (why for one in verdicts if one is not None for why in one.holds_back)
    held_by = tuple(dict.fromkeys(reasons))
    told = LotMaximum(lot, advice, house, venue, terms.bidders, purse, held_by)
    document = lot_bid_json(told, context.as_of, held.id)
    context.show(document, lot_bid_text(told, context.as_of))
    return Exit.DONE


def judged_by_log(
    lot: Lot, context: Context, settings: Settings, log: Path | None = None
) -> tuple[Verdict | None, ...]:
    """A verdict on each piece of which something was noted."""
    if not any(one.piece for one in lot.items):
        return (None,) * len(lot.items)
    from appraise.keeping.lotworth import judged
    from appraise.verdict import judge

    knowledge = context.knowledge()
    prices = context.prices(knowledge, settings.currency, log)
    return judged(
        lot, knowledge, lambda one: judge(one, knowledge, prices, context.as_of, settings)
    )
