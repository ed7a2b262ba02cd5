"""`appraise lots`: lots of sales that are followed."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from appraise.base.errors import InputError
from appraise.cli import lotdeeds
from appraise.cli.context import Context
from appraise.cli.exits import Exit
from appraise.cli.lotlook import lots_of, now_of, one_of, show
from appraise.cli.options import Commands, command, with_day, with_json

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.log.records import Stored
    from appraise.records.lot import Lot
    from appraise.records.values import Author
    from appraise.report.lots import Now

ZONE = "time zone, e.g. Europe/Berlin or +01:00 (default: this computer's)"
PIECE = "the file of a piece in the lot; may be repeated"
NEW = "mark a lot: TITLE, or a lot file, then FIELD=VALUE ..."


def add(commands: Commands) -> None:
    """Add the command and its actions."""
    lots = command(commands, "lots", "marked lots: closing times, your bids, results")
    lots.set_defaults(run=run_list, json=False, all=False, tz="")
    actions = lots.add_subparsers(metavar="ACTION", title="actions")

    listed = _action(actions, "list", "list open lots, next to close first")
    listed.add_argument("--all", action="store_true", help="include ended lots")
    listed.set_defaults(run=run_list)

    shown = _of_one(actions, "show", "show one lot in full", run_show)
    shown.add_argument("--lot", metavar="OUT", type=Path, help="also write a lot file here")

    new = _action(actions, "add", NEW)
    new.add_argument("title", metavar="TITLE|LOT.yaml")
    new.add_argument("changes", nargs="*", metavar="FIELD=VALUE")
    new.set_defaults(run=run_add)

    edit = _of_one(actions, "edit", "edit a lot: ID FIELD=VALUE ...", run_edit)
    edit.add_argument("changes", nargs="*", metavar="FIELD=VALUE", help="FIELD= clears the field")
    for each in (new, edit):
        each.add_argument(
            "--piece", metavar="FILE", type=Path, action="append", default=[], help=PIECE
        )
        each.formatter_class = argparse.RawDescriptionHelpFormatter
        each.epilog = _fields()
    lotdeeds.add(_of_one, actions)
    _of_one(actions, "remove", "remove a lot from your list ('log undo' restores it)", run_remove)


def _fields() -> str:
    from appraise.records.fields import meaning
    from appraise.records.lot import Lot, LotItem

    rows = [f"  {name:<14} {says}" for name, says in meaning(Lot).items()]
    rows += [f"  piece.1.{name:<6} {says}" for name, says in meaning(LotItem).items()]
    return "\n".join(["fields", *rows])


def _action(actions: Commands, name: str, says: str) -> argparse.ArgumentParser:
    made = command(actions, name, says)
    made.add_argument("--tz", metavar="ZONE", default="", help=ZONE)
    with_json(made)
    with_day(made)
    return made


def _of_one(
    actions: Commands, name: str, says: str, run: Callable[..., Exit]
) -> argparse.ArgumentParser:
    """An action on one lot, named by its id, the first letters of it, or its title."""
    made = _action(actions, name, says)
    made.add_argument("id", metavar="ID", help="the lot's id, its first letters, or its title")
    made.set_defaults(run=run)
    return made


def run_list(args: argparse.Namespace, context: Context) -> Exit:
    """List the lots."""
    from appraise.keeping.lotsteps import by_closing
    from appraise.report.lots import NONE, lots_json, lots_text

    when = now_of(args, context)
    known: Sequence[Stored[Lot]] = ()
    if context.home.log.exists():
        with context.log() as log:
            known = lots_of(log)
    shown = [one for one in known if args.all or one.thing.open]
    shown.sort(key=lambda one: by_closing(one.thing, when.zone))
    past = len(known) - len(shown)
    text = lots_text(shown, when)
    if past:
        text = f"{'' if text == NONE else text + chr(10)}{past} ended: 'appraise lots list --all'"
    context.show(lots_json(shown, when), text)
    return Exit.DONE


def run_show(args: argparse.Namespace, context: Context) -> Exit:
    """Show one lot, and write it as a lot file."""
    from appraise.report.lots import LABEL, lot_document, lot_rows

    when = now_of(args, context)
    with context.log() as log:
        held = one_of(log, args.id)
    if args.lot:
        from appraise.base.files import write_new
        from appraise.records.lot_file import write_lot

        write_new(args.lot, write_lot(held.thing).encode())
    rows = [f"  {name:<{LABEL}} {words}" for name, words in lot_rows(held, when)]
    for number, item in enumerate(held.thing.items, start=1):
        rows.append(f"  {f'piece {number}':<{LABEL}} {item.title} ({item.plan})")
    foot = f"Maximum bid: appraise bid {held.id[:8]}" if held.thing.open else ""
    text = "\n".join([f"{held.thing.title}  {held.id}", *rows, *([foot] if foot else [])])
    context.show(lot_document(held, when), text)
    return Exit.DONE


def run_add(args: argparse.Namespace, context: Context) -> Exit:
    """Follow a lot."""
    from appraise.cli.currency import base_currency
    from appraise.log.records import keep
    from appraise.records.fields import changed, pair

    texts, when = dict(map(pair, args.changes)), now_of(args, context)
    with context.log() as log:
        code = base_currency(context, log)
        lot = changed(_begun(args, texts, context, when, code), texts, _author(args, context))
        held = keep(log, lot)
    show(context, held, when, "marked: ")
    return Exit.DONE


def _begun(
    args: argparse.Namespace, texts: dict[str, str], context: Context, when: Now, code: str
) -> Lot:
    """The lot before its fields are changed: from a lot file, or a title with piece files."""
    from appraise.cli.pieces import found
    from appraise.records.lot import Lot
    from appraise.records.lot_file import read_lot

    path, knowledge = found(Path(args.title)), None
    if path.suffix in (".yaml", ".yml") or path.is_file():
        knowledge = context.knowledge()
        author = replace(_author(args, context), currency=code)
        lot = read_lot(path, knowledge, author, when.at)
        return _with_pieces(lot, args.piece, knowledge)
    house = context.book().venue(texts.get("venue", ""))
    currency = house.currency if house else code
    channel = house.channel if house and house.channel else "auction"
    lot = Lot(args.title, when.as_of, currency, channel=channel)
    return _with_pieces(lot, args.piece, context.knowledge()) if args.piece else lot


def _with_pieces(lot: Lot, paths: Sequence[Path], knowledge: Knowledge) -> Lot:
    """The lot with the pieces of files."""
    from appraise.cli.pieces import found
    from appraise.piece.files import read_piece
    from appraise.records.lot_file import with_pieces

    return with_pieces(lot, [read_piece(found(path), knowledge) for path in paths])


def _author(args: argparse.Namespace, context: Context) -> Author:
    return context.author(zone=args.tz)


def run_edit(args: argparse.Namespace, context: Context) -> Exit:
    """Change fields of a lot."""
    from appraise.log.records import Stored, change
    from appraise.records.fields import changed, pair

    if not args.changes and not args.piece:
        raise InputError("no changes given", mend="Write number=118, or --piece FILE.")
    when = now_of(args, context)
    with context.log() as log:
        was = one_of(log, args.id)
        lot = changed(was.thing, dict(map(pair, args.changes)), _author(args, context))
        lot = _with_pieces(lot, args.piece, context.knowledge()) if args.piece else lot
        held = change(log, Stored(was.id, lot), was=was.thing)
    show(context, held, when, "")
    return Exit.DONE


def run_remove(args: argparse.Namespace, context: Context) -> Exit:
    """Follow a lot no more."""
    from appraise.log.records import drop

    when = now_of(args, context)
    with context.log() as log:
        held = one_of(log, args.id)
        drop(log, (held.id,))
    show(context, held, when, "removed: ")
    return Exit.DONE
