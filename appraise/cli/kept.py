"""`appraise kept`: the pieces that one owns, from the command line."""

from __future__ import annotations

import argparse
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from appraise.base.errors import InputError
from appraise.cli import keptdeeds, keptparcels
from appraise.cli.context import Context
from appraise.cli.exits import Exit
from appraise.cli.options import Commands, command, with_day, with_json
from appraise.cli.subject import METAVAR, SUFFIXES

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.log.records import Stored
    from appraise.log.store import Log
    from appraise.records.owned import OwnedPiece

WHICH = "its number, the first letters of its id, or its title"
FIELDS = ("number", "place", "title", "status", "acquired", "provenance", "receipt")


def add(commands: Commands) -> None:
    """Add the command and its actions."""
    kept = command(commands, "kept", "what you own: where it is, what is due, arrivals, sales")
    actions = kept.add_subparsers(metavar="ACTION", required=True, title="actions")

    listed = command(actions, "list", "list your pieces; filter: words and field:value")
    listed.add_argument("filter", nargs="*", metavar="FILTER")
    _common(listed).set_defaults(run=run_list)

    shown = of_one(actions, "show", "show one piece in full: what an heir or insurer would ask")
    shown.add_argument("--piece", metavar="FILE", type=Path, help="write the piece file here")
    shown.set_defaults(run=run_show)

    new = command(actions, "add", "add a piece you own, from a purchase in the log or a piece file")
    new.add_argument("piece", metavar=METAVAR)
    for name in FIELDS:
        new.add_argument(f"--{name}")
    new.add_argument("--return-by", metavar="DATE", help="the return deadline")
    _common(new).set_defaults(run=run_add)

    edited = of_one(actions, "edit", "edit fields: REF field=value ...; | between lines")
    edited.add_argument("changes", nargs="+", metavar="FIELD=VALUE", help="FIELD= clears the field")
    edited.set_defaults(run=run_edit)

    keptdeeds.add(actions)
    keptparcels.add(actions)

    care = command(actions, "care", "pieces that need a conservator; check room readings")
    care.add_argument("filter", nargs="*", metavar="FILTER")
    care.add_argument("--temperature", type=float, metavar="C", help="degrees Celsius")
    care.add_argument("--humidity", type=float, metavar="PERCENT", help="relative humidity")
    care.add_argument("--lux", type=float, metavar="LUX", help="light where pieces are exhibited")
    _common(care).set_defaults(run=run_care)

    planned = command(
        actions, "schedule", "what is due: condition checks, loans, returns, most urgent first"
    )
    planned.add_argument("filter", nargs="*", metavar="FILTER")
    _common(planned).set_defaults(run=run_schedule)


def _common(parser: argparse.ArgumentParser) -> argparse.ArgumentParser:
    with_json(parser)
    with_day(parser)
    return parser


def of_one(actions: Commands, name: str, says: str) -> argparse.ArgumentParser:
    """An action on one kept piece."""
    made = command(actions, name, says)
    made.add_argument("ref", metavar="REF", help=WHICH)
    return _common(made)


def _found(
    args: argparse.Namespace, context: Context, knowledge: Knowledge
) -> tuple[Stored[OwnedPiece], ...]:
    """The kept pieces that fit the filter."""
    from appraise.log.keptbook import every
    from appraise.log.keptsought import sought

    with context.log() as log:
        return sought(every(log), " ".join(args.filter), knowledge, context.as_of)


def run_list(args: argparse.Namespace, context: Context) -> Exit:
    """List kept pieces."""
    from appraise.report.kept import list_document, list_text

    knowledge = context.knowledge()
    pieces = _found(args, context, knowledge)
    told = list_text(pieces, knowledge, context.as_of)
    context.show(list_document(pieces, knowledge, context.as_of), told)
    return Exit.DONE


def run_show(args: argparse.Namespace, context: Context) -> Exit:
    """Show one piece with everything on it."""
    from appraise.base.files import write_new
    from appraise.log.bookkeeping import read_book
    from appraise.log.footing import all_in_price
    from appraise.log.keptbook import entry_behind, find
    from appraise.report.kept import page_document, page_text
    from appraise.report.keptpage import Matter

    knowledge = context.knowledge()
    with context.log() as log:
        one = find(log, args.ref)
        entry, book, currency = entry_behind(log, one.thing), read_book(log), log.base_currency
    if args.piece is not None:
        if not one.thing.piece:
            raise InputError("holds no piece file", one.thing.title)
        write_new(args.piece, one.thing.piece.encode(), mend="Name another file.")
    cost = all_in_price(entry, currency, book) if entry else None
    matter = Matter(one.id, one.thing, entry, cost, knowledge, context.as_of)
    context.show(page_document(matter), page_text(matter))
    return Exit.DONE


def run_add(args: argparse.Namespace, context: Context) -> Exit:
    """Keep a piece from the log or from its file."""
    from appraise.log.keptbook import next_number, take
    from appraise.records.fields import changed

    knowledge = context.knowledge()
    with context.log() as log:
        made = _made(args.piece, context, knowledge, log)
        told = {name: getattr(args, name) for name in (*FIELDS, "return_by")}
        texts = {name: text for name, text in told.items() if text is not None}
        made = changed(made, texts, context.author(knowledge))
        if args.number is None:
            from appraise.log.keptbook import every

            made = replace(made, number=next_number(every(log)))
        one = take(log, made)
    return keptdeeds.tell(one, context)


def _made(ref: str, context: Context, knowledge: Knowledge, log: Log) -> OwnedPiece:
    from appraise.cli.pieces import found
    from appraise.log.keptbook import kept_from_entry, kept_from_piece
    from appraise.piece.files import read_piece

    if ref.endswith(SUFFIXES):
        piece = read_piece(found(Path(ref)), knowledge)
        return kept_from_piece(piece, knowledge, context.as_of)
    return kept_from_entry(log.entry(ref), knowledge, context.as_of)


def run_edit(args: argparse.Namespace, context: Context) -> Exit:
    """Change fields of a piece."""
    from appraise.records.fields import changed, pair

    typed, by = dict(map(pair, args.changes)), context.author(context.knowledge())
    return keptdeeds.changed(args.ref, context, lambda kept: changed(kept, typed, by))


def run_care(args: argparse.Namespace, context: Context) -> Exit:
    """Tell what is for a conservator, and where air and light are outside the figures."""
    from appraise.keeping.air import Air
    from appraise.report.kept import care_document, care_text

    air = Air(args.temperature, args.humidity, args.lux)
    knowledge = context.knowledge()
    told = (_found(args, context, knowledge), knowledge, air, context.as_of)
    context.show(care_document(*told), care_text(*told))
    return Exit.DONE


def run_schedule(args: argparse.Namespace, context: Context) -> Exit:
    """Tell what is due and when."""
    from appraise.report.kept import schedule, schedule_document, schedule_text

    knowledge = context.knowledge()
    found = schedule(_found(args, context, knowledge), knowledge, context.as_of)
    context.show(schedule_document(found, context.as_of), schedule_text(found))
    return Exit.DONE
