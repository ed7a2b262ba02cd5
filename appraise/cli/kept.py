"""`appraise kept`: the pieces that one owns, from the command line.

The day of what happened is `--as-of`, today unless said otherwise.
"""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from appraise.base.errors import InputError
from appraise.cli.context import Context, talk
from appraise.cli.showing import show
from appraise.cli.subject import SUFFIXES
from appraise.commands import owned, records
from appraise.commands.kinds import KINDS
from appraise.commands.rows_kept import FIELDS

if TYPE_CHECKING:
    from appraise.records.owned import OwnedPiece
    from appraise.records.piece import Piece
    from appraise.records.stored import Stored

DONE = ("cleaned", "mended", "shown", "other")
CLOSED = "Opening a package and cleaning a plate are a conservator's work."


def _found(args: argparse.Namespace, context: Context) -> tuple[Stored[OwnedPiece], ...]:
    """The kept pieces that fit the filter."""
    from appraise.collection.owned_filter import filtered
    from appraise.store.owned_pieces import every

    with context.log() as log:
        return filtered(every(log), " ".join(args.filter), context.knowledge(), context.as_of)


def run_list(args: argparse.Namespace, context: Context) -> None:
    from appraise.documents.owned_lists import list_json, list_text

    told = (_found(args, context), context.knowledge(), context.as_of)
    context.show(list_json(*told), list_text(*told))


def run_show(args: argparse.Namespace, context: Context) -> None:
    from appraise.base.files import write_new
    from appraise.documents.owned_page import PageInput, owned_document, owned_json
    from appraise.pricing.cost_basis import all_in_price
    from appraise.store.piece_record import entry_behind
    from appraise.store.venue_book import read_book

    one = records.found(context, KINDS["kept"], args.ref)
    with context.log() as log:
        entry, book, currency = entry_behind(log, one.thing), read_book(log), log.base_currency
    if args.piece is not None:
        if not one.thing.piece:
            raise InputError("holds no piece file", one.thing.title)
        write_new(args.piece, one.thing.piece.encode(), mend="Name another file.")
    cost = all_in_price(entry, currency, book) if entry else None
    matter = PageInput(one.id, one.thing, entry, cost, context.knowledge(), context.as_of)
    context.show(owned_json(matter), owned_document(matter))


def run_add(args: argparse.Namespace, context: Context) -> None:
    told = {name: getattr(args, name) for name in (*FIELDS, "return_by")}
    texts = {name: text for name, text in told.items() if text is not None}
    begun = _piece(args.piece, context) if args.piece.endswith(SUFFIXES) else args.piece
    show(context, owned.keep(context, begun, texts).stored)


def _piece(path: str | Path, context: Context) -> Piece:
    from appraise.cli.pieces import found
    from appraise.records.piece_file import read_piece

    return read_piece(found(Path(path)), context.knowledge())


def run_care(args: argparse.Namespace, context: Context) -> None:
    from appraise.collection.air import Air
    from appraise.documents.owned_lists import care_document, care_json

    air = Air(args.temperature, args.humidity, args.lux)
    told = (_found(args, context), context.knowledge(), air, context.as_of)
    context.show(care_json(*told), care_document(*told))


def run_schedule(args: argparse.Namespace, context: Context) -> None:
    from appraise.documents.owned_lists import schedule, schedule_document, schedule_json

    found = schedule(_found(args, context), context.knowledge(), context.as_of)
    context.show(schedule_json(found, context.as_of), schedule_document(found))


def _happened(
    args: argparse.Namespace, context: Context, sort: str, *fields: str, place: str | None = None
) -> None:
    """Something happened; `fields` are the options that say more of it."""
    told = {name: getattr(args, name) for name in fields}
    texts = {name: "" if value is None else str(value) for name, value in told.items()}
    show(context, owned.happen(context, args.ref, sort, texts, place).stored)


def run_move(args: argparse.Namespace, context: Context) -> None:
    _happened(args, context, "moved", place=" ".join(args.place))


def run_lend(args: argparse.Namespace, context: Context) -> None:
    from appraise.records.owned import AWAY
    from appraise.records.values import WordKind

    WordKind(AWAY, needed=True).check("--as", args.sort)
    _happened(args, context, args.sort, "to", "until", "note")


def run_back(args: argparse.Namespace, context: Context) -> None:
    _happened(args, context, "back", "cost", "note", place=args.place)


def run_did(args: argparse.Namespace, context: Context) -> None:
    from appraise.records.values import WordKind

    WordKind(DONE, needed=True).check("what was done", args.what)
    if args.what in ("cleaned", "mended"):
        talk(CLOSED)
    _happened(args, context, args.what, "to", "cost", "note")


def run_light(args: argparse.Namespace, context: Context) -> None:
    _happened(args, context, "light", "hours", "lux", "where")


def run_give(args: argparse.Namespace, context: Context) -> None:
    _happened(args, context, "given", "to")


def run_lost(args: argparse.Namespace, context: Context) -> None:
    sort = "stolen" if args.stolen else "found" if args.found else "lost"
    _happened(args, context, sort, "note")
    if sort != "found" and not context.json:
        for row in context.knowledge().care.values():
            if row.topic == "loss":
                talk(row.text)


def run_check(args: argparse.Namespace, context: Context) -> None:
    """Record a condition check; what was found goes into the piece file too."""
    said = (args.by, args.note, args.says)
    show(context, owned.check(context, args.ref, _steps(args.found), said).stored)


def _steps(words: list[str]) -> dict[str, str]:
    """Findings on damage written as hinge.tape=2.

    Raises:
        InputError: when one is not written so.
    """
    out = {}
    for word in words:
        name, equals, step = word.partition("=")
        if not (name and equals and step):
            raise InputError(f"'{word}' is not DEFECT=STEP", mend="Write hinge.tape=2.")
        out[name] = step
    return out


def run_arrival(args: argparse.Namespace, context: Context) -> None:
    from appraise.base.files import write_new
    from appraise.documents.arrival import Parcel, arrival_document, arrival_json, letter

    piece = _piece(args.piece, context) if args.piece else None
    got = owned.receive(context, args.ref, piece, args.returned)
    region, known = context.settings().region, context.knowledge()
    parcel = Parcel(got.stored.id, got.stored.thing, got.entry, got.arrival, context.as_of, region)
    if (args.letter or args.out) and not got.arrival.matters:
        what = "nothing important differs: no letter needed"
        raise InputError(what, parcel.kept.title)
    if args.out is not None:
        write_new(args.out, letter(parcel, known).encode(), mend="Name another file.")
    told = letter(parcel, known) if args.letter else arrival_document(parcel, known)
    context.show(arrival_json(parcel, known), told)


def run_sell(args: argparse.Namespace, context: Context) -> None:
    from appraise.collection.sale import Sale, sale_typed
    from appraise.documents.sale import sale_document, sale_json
    from appraise.documents.writers.lines import text
    from appraise.records.fields import typed_fields

    texts = {name: getattr(args, name) or "" for name in typed_fields(Sale) if name != "day"}
    sale, sold = sale_typed(texts, context.author()), None
    one = records.found(context, KINDS["kept"], args.ref)
    gain = owned.gain(context, one, sale)
    told = text(sale_document(sale, gain))
    if not args.only_try:
        sold, done = owned.sell(context, one, sale)
        one = done.stored
        told += f"\nlogged as {sold.id[:8]}; undo everything: appraise log undo"
    context.show(sale_json(one, sale, gain, sold, context.as_of), told)
