"""Kept pieces looked at, received and sold, from the command line."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from appraise.base.errors import InputError
from appraise.cli.context import Context
from appraise.cli.exits import Exit
from appraise.cli.keptdeeds import WHICH, changed, steps_of
from appraise.cli.options import Commands, command, with_day, with_json

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.log.records import Stored
    from appraise.log.store import Log
    from appraise.records.owned import OwnedPiece
    from appraise.report.keptarrival import Parcel


def add(actions: Commands) -> None:
    """Add the actions."""
    check = _of_one(actions, "check", "record a condition check")
    check.add_argument(
        "found", nargs="*", metavar="DEFECT=STEP", help=("check and severity, e.g. hinge.tape=2")
    )
    check.add_argument("--says", default="", help="the condition in your words")
    check.add_argument("--by", default="", help="who checked")
    check.add_argument("--note", default="", help="the light, what is not checked, photos")
    check.set_defaults(run=run_check)

    arrival = _of_one(
        actions, "arrival", "arrival check: compare with the listing; shows the return deadline"
    )
    says = "the piece file as seen in hand; saved as its newest examination"
    arrival.add_argument("piece", nargs="?", metavar="PIECE.yaml", type=Path, help=says)
    arrival.add_argument("--letter", action="store_true", help="print only the letter")
    arrival.add_argument("--out", metavar="FILE", type=Path, help="write the letter to a file")
    arrival.add_argument("--returned", action="store_true", help="record that it was sent back")
    arrival.set_defaults(run=run_arrival)

    sell = _of_one(actions, "sell", "log a sale: net proceeds and gain")
    sell.add_argument("price", metavar="AMOUNT", help="the price the buyer paid, e.g. '80 USD'")
    sell.add_argument("--percent", default="0", help="the seller's fee, in %")
    for name, says in (
        ("fee", "a further fee"),
        ("postage", "shipping you paid"),
        ("costs", "other costs of the sale"),
    ):
        sell.add_argument(f"--{name}", metavar="AMOUNT", help=says)
    sell.add_argument("--to", default="", help="the buyer")
    sell.add_argument("--venue", default="", help="the place of sale")
    sell.add_argument("--channel", default="", help="market, fair, shop, online, auction, private")
    sell.add_argument(
        "--try", dest="only_try", action="store_true", help=("show the sums, log nothing")
    )
    sell.set_defaults(run=run_sell)


def _of_one(actions: Commands, name: str, says: str) -> argparse.ArgumentParser:
    made = command(actions, name, says)
    made.add_argument("ref", metavar="REF", help=WHICH)
    with_json(made)
    with_day(made)
    return made


def run_check(args: argparse.Namespace, context: Context) -> Exit:
    """Note a condition check; what was found goes into the piece file too."""
    from appraise.log.keptlooks import checked

    knowledge, steps = context.knowledge(), steps_of(args.found)
    said = (args.by, args.note, args.says)
    return changed(
        args.ref, context, lambda kept: checked(kept, steps, knowledge, context.as_of, said)
    )


def run_arrival(args: argparse.Namespace, context: Context) -> Exit:
    """Compare what came with what was claimed."""
    from appraise.base.files import write_new
    from appraise.report.keptarrival import arrival_document, arrival_text, letter

    knowledge = context.knowledge()
    with context.log() as log:
        parcel = _parcel(args, context, knowledge, log)
    if (args.letter or args.out) and not parcel.arrival.matters:
        what = "nothing important differs: no letter needed"
        raise InputError(what, parcel.kept.title)
    if args.out is not None:
        write_new(args.out, letter(parcel).encode(), mend="Name another file.")
    text = letter(parcel) if args.letter else arrival_text(parcel, knowledge)
    context.show(arrival_document(parcel), text)
    return Exit.DONE


def _parcel(args: argparse.Namespace, context: Context, knowledge: Knowledge, log: Log) -> Parcel:
    from appraise.log.keptbook import find, store
    from appraise.log.keptlooks import arrived, parcel_of, sent_back
    from appraise.log.records import Stored
    from appraise.report.keptarrival import Parcel

    was = find(log, args.ref)
    now: Stored[OwnedPiece] = was
    if args.piece is not None:
        from appraise.cli.pieces import found
        from appraise.piece.files import read_piece

        piece = read_piece(found(args.piece), knowledge)
        now = Stored(was.id, arrived(was.thing, piece, knowledge, context.as_of))
    entry, arrival = parcel_of(log, now.thing, knowledge)
    if args.returned:
        now = Stored(was.id, sent_back(now.thing, context.as_of, entry.venue))
    if now.thing != was.thing:
        store(log, now, was.thing)
    return Parcel(now.id, now.thing, entry, arrival, context.as_of)


def run_sell(args: argparse.Namespace, context: Context) -> Exit:
    """Log a sale, or reckon one."""
    from appraise.keeping.sale import Sale, sale_typed
    from appraise.log.bookkeeping import read_book
    from appraise.log.keptbook import entry_behind, find
    from appraise.log.keptsales import gain_of, sell, spent_since
    from appraise.records.fields import typed_fields
    from appraise.report.keptsale import sale_document, sale_text

    texts = {name: getattr(args, name) or "" for name in typed_fields(Sale) if name != "day"}
    sale = sale_typed(texts, context.author())
    sold = None
    with context.log() as log:
        one = find(log, args.ref)
        entry = entry_behind(log, one.thing)
        costs = spent_since(log, one)
        gain = gain_of(costs, entry, sale, log.base_currency, read_book(log))
        if not args.only_try:
            sold, one = sell(log, one, sale)
    text = sale_text(sale, gain)
    if sold is not None:
        text += f"\n\nlogged as {sold.id[:8]}; undo everything: appraise log undo"
    context.show(sale_document(one, sale, gain, sold, context.as_of), text)
    return Exit.DONE
