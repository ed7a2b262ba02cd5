"""`appraise stock`: parts that are kept by themselves, and what they fit."""

import argparse
from typing import TYPE_CHECKING

from appraise.cli.benching import (
    action,
    edited,
    found,
    removed,
    show_list,
    show_one,
    tell,
    with_fields,
)
from appraise.cli.context import Context
from appraise.cli.exits import Exit
from appraise.cli.options import Commands, command

if TYPE_CHECKING:
    from appraise.keeping.fits import Fit
    from appraise.knowledge.records import Knowledge

NONE = "No parts in stock. 'appraise stock add sixth brass mat oval, 3' adds one."
NOTHING = "Nothing to compare: no parts in stock."
NO_PLATES = "No loose plates. Log one with kind=loose-plate, or name a piece file."
ID = ("id", "", "the part's id, or the first letters of it, or its title")


def add(commands: Commands) -> None:
    """Add the command and its actions."""
    from appraise.records.part import Part

    stock = command(commands, "stock", "parts in stock: add, list, what fits what")
    actions = stock.add_subparsers(metavar="ACTION", required=True, title="actions")
    new = action(
        actions, "add", "add a part: 'sixth brass mat oval, 3' recess='73 x 86 mm'", run_add,
        ("words", "+", "the part in a line, and fields as FIELD=VALUE"),
    )  # fmt: skip
    with_fields(new, Part)
    listed = action(actions, "list", "list the parts in stock", run_list)
    listed.add_argument("--all", action="store_true", help="include used up parts")
    action(actions, "show", "show one part in full", run_show, ID)
    edit = action(
        actions, "edit", "edit a part: ID FIELD=VALUE ...", run_edit, ID,
        ("changes", "+", "FIELD=VALUE; FIELD= clears the field"),
    )  # fmt: skip
    with_fields(edit, Part)
    action(actions, "remove", "remove a part ('log undo' restores it)", run_remove, ID)
    says = (
        "parts that fit a plate (a piece file or an entry's id); with --part, plates that fit a "
        "part"
    )
    fits = action(actions, "fits", says, run_fits, ("piece", "?", "PIECE.yaml or an entry's id"))
    fits.add_argument("--part", metavar="ID", help="loose plates that fit this part")
    fits.add_argument("--limit", type=int, default=10, metavar="N", help="maximum number shown")


def run_add(args: argparse.Namespace, context: Context) -> Exit:
    """Understand a line about a part and keep it."""
    from appraise.listing.bench_line import understand_part
    from appraise.log.bench import whole_origin
    from appraise.log.records import keep
    from appraise.records.fields import changed, parted
    from appraise.records.part import Part

    by = context.author(context.knowledge())
    line, texts = parted(args.words, Part)
    sort = "-".join(texts.get("part", "").lower().split())
    read = understand_part(line, context.knowledge(), by.currency, by.today, sort)
    tell(read.understood, read.not_understood, context.knowledge())
    with context.log() as log:
        stored = keep(log, changed(read.thing, whole_origin(log, texts), by))
    return show_one(context, stored, f"in stock: {stored.id[:8]}")


def run_list(args: argparse.Namespace, context: Context) -> Exit:
    """List the parts."""
    from appraise.log.records import held
    from appraise.records.part import Part
    from appraise.report.bench import part_line

    knowledge = context.knowledge()
    with context.log() as log:
        rows = [one for one in held(log, Part) if one.thing.count or args.all]
    show_list(context, "parts", rows, [part_line(one, knowledge) for one in rows], NONE)
    return Exit.DONE


def run_show(args: argparse.Namespace, context: Context) -> Exit:
    """Show one part."""
    from appraise.records.fields import filled
    from appraise.records.part import Part

    stored = found(args, context, Part)
    used = {"used in": stored.thing.used_in} if stored.thing.used_in else {}
    return show_one(context, stored, told=filled(stored.thing) | used)


def run_edit(args: argparse.Namespace, context: Context) -> Exit:
    """Change fields of a part."""
    from appraise.log.bench import whole_origin
    from appraise.records.part import Part

    return show_one(
        context, edited(args, context, Part, lambda log, _, texts: whole_origin(log, texts))
    )


def run_remove(args: argparse.Namespace, context: Context) -> Exit:
    """Take a part off."""
    from appraise.records.part import Part

    return removed(args, context, Part)


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
    from appraise.log.records import held
    from appraise.records.part import Part

    if not args.piece:
        raise InputError("no plate given", mend="Name a piece file or an id, or use --part ID.")
    subject = named(args.piece, context, knowledge)
    plate = loose(subject.piece, knowledge, subject.entry.id if subject.entry else "")
    with context.log() as log:
        stock = [(one.id, one.thing) for one in held(log, Part)]
    return parts_for(plate, stock, knowledge)


def _plates(
    args: argparse.Namespace, context: Context, knowledge: "Knowledge"
) -> "tuple[Fit, ...]":
    from appraise.keeping.fits import plates_for
    from appraise.log.looseplates import loose_plates
    from appraise.log.records import one
    from appraise.records.part import Part

    with context.log() as log:
        part = one(log, Part, args.part)
        plates = loose_plates(log, knowledge)
    return plates_for(part.thing, part.id, plates, knowledge)
