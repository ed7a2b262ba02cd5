"""`appraise stock`: parts that are kept by themselves, and what they fit."""

import argparse
from typing import TYPE_CHECKING

from appraise.cli.benching import (
    action,
    changes_of,
    fields_epilog,
    parted,
    show_list,
    show_one,
    tell,
)
from appraise.cli.context import Context
from appraise.cli.exits import Exit
from appraise.cli.options import Commands, command

if TYPE_CHECKING:
    from appraise.keeping.fits import Fit
    from appraise.knowledge.records import Knowledge

NONE = "No parts are in stock. 'appraise stock add sixth brass mat oval, 3' notes one."
NOTHING = "Nothing to compare: no parts are in stock."
NO_PLATES = "No loose plates are kept. Log one with kind=loose-plate, or name a piece file."
ID = ("id", "", "the part's id, or the first letters of it, or its title")


def add(commands: Commands) -> None:
    """Add the command and its actions."""
    from appraise.keeping.stocktext import MEANING

    stock = command(commands, "stock", "parts in stock: add, list, what fits what")
    actions = stock.add_subparsers(metavar="ACTION", required=True, title="actions")
    new = action(
        actions, "add", "note a part: 'sixth brass mat oval, 3' recess='73 x 86 mm'", run_add,
        ("words", "+", "the part in a line, and fields as FIELD=VALUE"),
    )  # fmt: skip
    fields_epilog(new, MEANING)
    listed = action(actions, "list", "the parts in stock", run_list)
    listed.add_argument("--all", action="store_true", help="used up ones too")
    action(actions, "show", "one part with everything on it", run_show, ID)
    edit = action(
        actions, "edit", "change fields of a part: ID FIELD=VALUE ...", run_edit, ID,
        ("changes", "+", "FIELD=VALUE; FIELD= empties it"),
    )  # fmt: skip
    fields_epilog(edit, MEANING)
    action(actions, "remove", "take a part off; 'log undo' brings it back", run_remove, ID)
    says = "what goes with a plate: a piece file or an entry's id; or --part, the other way round"
    fits = action(actions, "fits", says, run_fits, ("piece", "?", "PIECE.yaml or an entry's id"))
    fits.add_argument("--part", metavar="ID", help="which loose plates a part in stock goes with")
    fits.add_argument("--limit", type=int, default=10, metavar="N", help="at most so many")


def run_add(args: argparse.Namespace, context: Context) -> Exit:
    """Understand a line about a part and keep it."""
    from appraise.keeping.stocktext import FIELDS, changed, written
    from appraise.listing.bench_line import understand_part
    from appraise.log.bench import whole_origin
    from appraise.log.holdings import keep

    knowledge, currency = context.knowledge(), context.settings().currency
    line, texts = parted(args.words, FIELDS)
    sort = "-".join(texts.get("part", "").lower().split())
    read = understand_part(line, knowledge, currency, context.as_of, sort)
    tell(read.understood, read.not_understood)
    with context.log() as log:
        texts = whole_origin(log, texts)
        part = changed(read.thing, texts, knowledge, currency)
        held = keep(log, part)
    show_one(context, "stock", held, written(part), head=f"in stock: {held.id[:8]}")
    return Exit.DONE


def run_list(args: argparse.Namespace, context: Context) -> Exit:
    """List the parts."""
    from appraise.keeping.stock import Part
    from appraise.log.holdings import held
    from appraise.report.bench import part_line

    knowledge = context.knowledge()
    with context.log() as log:
        rows = [one for one in held(log, Part) if one.thing.count or args.all]
    show_list(context, "parts", rows, [part_line(one, knowledge) for one in rows], NONE)
    return Exit.DONE


def run_show(args: argparse.Namespace, context: Context) -> Exit:
    """Show one part."""
    from appraise.keeping.stock import Part
    from appraise.keeping.stocktext import written
    from appraise.log.holdings import one

    with context.log() as log:
        held = one(log, Part, args.id)
    told = written(held.thing) | ({"used in": held.thing.used_in} if held.thing.used_in else {})
    show_one(context, "stock", held, told)
    return Exit.DONE


def run_edit(args: argparse.Namespace, context: Context) -> Exit:
    """Change fields of a part."""
    from appraise.keeping.stock import Part
    from appraise.keeping.stocktext import changed, written
    from appraise.log.bench import whole_origin
    from appraise.log.holdings import Held, change, one

    knowledge, currency = context.knowledge(), context.settings().currency
    with context.log() as log:
        was = one(log, Part, args.id)
        texts = whole_origin(log, changes_of(args.changes))
        part = changed(was.thing, texts, knowledge, currency)
        held = change(log, Held(was.id, part), was=was.thing)
    show_one(context, "stock", held, written(part))
    return Exit.DONE


def run_remove(args: argparse.Namespace, context: Context) -> Exit:
    """Take a part off."""
    from appraise.keeping.stock import Part
    from appraise.keeping.stocktext import written
    from appraise.log.holdings import drop, one

    with context.log() as log:
        held = one(log, Part, args.id)
        drop(log, [held.id])
    show_one(context, "stock", held, written(held.thing), head=f"removed: {held.thing.title}")
    return Exit.DONE


def run_fits(args: argparse.Namespace, context: Context) -> Exit:
    """Say what goes with a plate, or which plates go with a part."""
    from appraise.keeping.fits import conduct
    from appraise.report.bench import fit_json, fit_lines

    knowledge = context.knowledge()
    if args.part:
        fits, empty = _plates(args, context, knowledge), NO_PLATES
    else:
        fits, empty = _parts(args, context, knowledge), NOTHING
    shown = fits[: max(1, args.limit)]
    told = list(conduct(knowledge))
    document = {
        "schema": "appraise.fits/1",
        "as_of": context.as_of.isoformat(),
        "fits": [fit_json(one) for one in shown],
        "conduct": told,
    }
    lines = fit_lines(shown, plates=bool(args.part)) or [empty]
    context.show(document, "\n".join([*lines, "", *(f"! {one}" for one in told)]))
    return Exit.DONE


def _parts(args: argparse.Namespace, context: Context, knowledge: "Knowledge") -> "tuple[Fit, ...]":
    from appraise.base.errors import InputError
    from appraise.cli.subject import named
    from appraise.keeping.fits import loose, parts_for
    from appraise.keeping.stock import Part
    from appraise.log.holdings import held

    if not args.piece:
        raise InputError("no plate is named", mend="Name a piece file or an id, or use --part ID.")
    subject = named(args.piece, context, knowledge)
    plate = loose(subject.piece, knowledge, subject.entry.id if subject.entry else "")
    with context.log() as log:
        stock = [(one.id, one.thing) for one in held(log, Part)]
    return parts_for(plate, stock, knowledge)


def _plates(
    args: argparse.Namespace, context: Context, knowledge: "Knowledge"
) -> "tuple[Fit, ...]":
    from appraise.keeping.fits import plates_for
    from appraise.keeping.stock import Part
    from appraise.log.holdings import one
    from appraise.log.looseplates import loose_plates

    with context.log() as log:
        part = one(log, Part, args.part)
        plates = loose_plates(log, knowledge)
    return plates_for(part.thing, part.id, plates, knowledge)
