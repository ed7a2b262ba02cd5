"""`appraise lots`: lots of sales that are marked."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

from appraise.base.errors import InputError
from appraise.base.money import Money, as_json
from appraise.cli.context import Context, talk
from appraise.cli.showing import show, show_lot
from appraise.commands import lots, records
from appraise.commands.kinds import KINDS
from appraise.commands.workspace import day

if TYPE_CHECKING:
    from appraise.records.lot import Lot
    from appraise.records.stored import Stored

_KIND = KINDS["lot"]


def run_list(args: argparse.Namespace, context: Context) -> None:
    from appraise.collection.lotsteps import by_closing
    from appraise.documents.lots import NONE, lots_json, lots_text

    when = context.now()
    known = records.listed(context, _KIND) if context.home.log.exists() else ()
    shown = [one for one in known if args.all or one.thing.open]
    shown.sort(key=lambda one: by_closing(one.thing, when.zone))
    past = len(known) - len(shown)
    text = lots_text(shown, when)
    if past:
        text = f"{'' if text == NONE else text + chr(10)}{past} ended: 'appraise lots list --all'"
    context.show(lots_json(shown, when), text)


def run_show(args: argparse.Namespace, context: Context) -> None:
    from appraise.documents.document import Document
    from appraise.documents.lots import items_section, lot_section, one_lot_json

    when, held = context.now(), records.found(context, _KIND, args.id)
    if args.lot:
        from appraise.base.files import write_new
        from appraise.records.lot_file import write_lot

        write_new(args.lot, write_lot(held.thing).encode())
    foot = f"Maximum bid: appraise bid {held.id[:8]}" if held.thing.open else ""
    parts = (*lot_section(held, when), *items_section(held.thing))
    told = Document(held.thing.title, parts, held.id, purpose=foot)
    context.show(one_lot_json(held, when), told)


def run_add(args: argparse.Namespace, context: Context) -> None:
    from appraise.cli.currency import base_currency
    from appraise.records.fields import pair

    texts = dict(map(pair, args.changes))
    with context.log() as log:
        code = base_currency(context, log)
    begun = _with_pieces(args.piece, context)(_begun(args.title, texts, context, code))
    done = records.add(context, _KIND, begun, texts)
    show(context, done.stored, done.says)


def _begun(title: str, texts: dict[str, str], context: Context, code: str) -> Lot:
    """The lot before its fields are changed."""
    from appraise.cli.pieces import found
    from appraise.records.lot import Lot

    path, when = found(Path(title)), context.now()
    if path.suffix in (".yaml", ".yml") or path.is_file():
        from appraise.records.lot_file import read_lot

        author = replace(context.author(), currency=code)
        return read_lot(path, context.knowledge(), author, when.at)
    house = context.book().venue(texts.get("venue", ""))
    channel = house.channel if house and house.channel else "auction"
    return Lot(title, when.as_of, house.currency if house else code, channel=channel)


def _with_pieces(paths: Sequence[Path], context: Context) -> Callable[[Lot], Lot]:
    """Puts the pieces of files into a lot."""
    if not paths:
        return lambda lot: lot
    from appraise.cli.pieces import found
    from appraise.records.lot_file import with_pieces
    from appraise.records.piece_file import read_piece

    pieces = [read_piece(found(path), context.knowledge()) for path in paths]
    return lambda lot: with_pieces(lot, pieces)


def run_edit(args: argparse.Namespace, context: Context) -> None:
    from appraise.records.fields import pair

    if not args.changes and not args.piece:
        raise InputError("no changes given", mend="Write number=118, or --piece FILE.")
    texts, then = dict(map(pair, args.changes)), _with_pieces(args.piece, context)
    show(context, records.edit(context, _KIND, args.id, texts, then=then).stored)


def _amount(option: str, text: str, currency: str) -> Money:
    try:
        return Money.parse(text, currency)
    except InputError as error:
        raise InputError(error.what, option, error.mend) from None


def run_bid(args: argparse.Namespace, context: Context) -> None:
    if bool(args.amount) == args.none:
        raise InputError("a bid is an AMOUNT, or --none", mend="Example: appraise lots bid ID 46.")
    was = records.found(context, _KIND, args.id)
    bid = _amount("AMOUNT", args.amount, was.thing.currency) if args.amount else None
    if bid and not args.yes:
        _query(context, was, bid)
    done = lots.bid(context, args.id, bid, args.chance)
    for words in done.notes:
        talk(f"! {words}")
    show_lot(context, done.stored, warnings=list(done.notes))


def _query(context: Context, held: Stored[Lot], bid: Money) -> None:
    """Ask about a bid above the maximum before it is recorded; a rate that is missing is no doubt.

    Raises:
        InputError: when it is not agreed to.
    """
    from appraise.cli.asking import sure
    from appraise.cli.lotbid import maximum_for
    from appraise.collection.lotworth import above

    lot = held.thing
    if not lot.open or not (lot.items or lot.ceiling) or bid.currency != lot.currency:
        return
    try:
        doubt = above(maximum_for(context, held, context.settings()).advice, bid)
    except InputError:
        return
    sure(context, doubt)


def _on(args: argparse.Namespace, context: Context) -> date:
    return day(args.on) if args.on else context.as_of


def run_won(args: argparse.Namespace, context: Context) -> None:
    from appraise.cli.lotbid import judged_by_log

    held = records.found(context, _KIND, args.id)
    hammer = _amount("--hammer", args.hammer, held.thing.currency)
    total = _amount("--total", args.total, context.currency) if args.total else None
    verdicts = judged_by_log(held.thing, context, context.settings())
    on = _on(args, context)
    done = lots.won(context, held, hammer, verdicts, total=total, share=args.share, on=on)
    _show_result(context, done)


def run_lost(args: argparse.Namespace, context: Context) -> None:
    from appraise.cli.lotbid import judged_by_log

    held = records.found(context, _KIND, args.id)
    lot, on = held.thing, _on(args, context)
    hammer = _amount("--hammer", args.hammer, lot.currency) if args.hammer else None
    known = judged_by_log(lot, context, context.settings()) if hammer else (None,) * len(lot.items)
    _show_result(context, lots.lost(context, held, hammer, known, share=args.share, on=on))


def run_pass(args: argparse.Namespace, context: Context) -> None:
    held = records.found(context, _KIND, args.id)
    _show_result(context, lots.passed(context, held, _on(args, context)))


def _show_result(context: Context, done: lots.Result) -> None:
    """Show a lot with what was logged for it."""
    from appraise.documents.entry import entry_json, entry_line

    if done.unlogged:
        talk(f"{done.unlogged} Use --share to log it anyway.")
    more: dict[str, Any] = {"entries": [entry_json(one) for one in done.entries]}
    head = "".join(f"logged: {entry_line(one)}\n" for one in done.entries)
    if done.total is not None:
        more["total"] = as_json(done.total)
        head += f"in total {done.total}\n"
    show_lot(context, done.stored, head, **more)
