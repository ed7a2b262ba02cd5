"""`appraise work`: what was done to which piece, with what, and whether it can be undone."""

import argparse
from typing import TYPE_CHECKING

from appraise.base.errors import InputError
from appraise.cli.benching import action, found, show_list, show_one, with_fields
from appraise.cli.context import Context
from appraise.cli.exits import Exit
from appraise.cli.options import Commands, command

if TYPE_CHECKING:
    from appraise.log.records import Stored
    from appraise.log.store import Log
    from appraise.records.repair import Repair

NONE = "No jobs yet. Example: appraise work add rehinged the vine case piece=ID materials=..."
ID = ("id", "", "the job's id, or its first letters, or its title")
OWN = "mark the piece's entry as your own work: its price is then left out of estimates"


def add(commands: Commands) -> None:
    """Add the command and its actions."""
    from appraise.records.repair import Repair

    work = command(
        commands, "work", "repairs and assemblies: add, list, done; used parts leave the stock"
    )
    actions = work.add_subparsers(metavar="ACTION", required=True, title="actions")
    new = action(
        actions, "add", "add a job: TITLE FIELD=VALUE ...", run_add,
        ("words", "+", "a title, and fields as FIELD=VALUE"),
    )  # fmt: skip
    listed = action(actions, "list", "list jobs, those in progress first", run_list)
    listed.add_argument("--open", action="store_true", help="only jobs in progress")
    action(actions, "show", "show one job in full", run_show, ID)
    edit = action(
        actions, "edit", "edit a job: ID FIELD=VALUE ...", run_edit, ID,
        ("changes", "+", "FIELD=VALUE; FIELD= clears the field"),
    )  # fmt: skip
    done = action(
        actions, "done", "finish a job: ID, and fields as FIELD=VALUE", run_done, ID,
        ("changes", "*", "FIELD=VALUE"),
    )  # fmt: skip
    for one in (new, edit, done):
        one.add_argument("--own", action="store_true", help=OWN)
        with_fields(one, Repair)
    action(actions, "remove", "remove a job; its parts return to stock", run_remove, ID)


def run_add(args: argparse.Namespace, context: Context) -> Exit:
    """Keep a new work."""
    from appraise.log.bench import keep_work
    from appraise.records.fields import parted
    from appraise.records.repair import Repair

    title, texts = parted(args.words, Repair)
    texts.setdefault("title", title)
    if not texts["title"].strip():
        raise InputError("give the job a title", mend="Write: appraise work add new hinge.")
    with context.log() as log:
        work = _changed(Repair("", context.as_of), texts, context, log)
        stored = keep_work(log, work, args.own)
    return _show(context, stored, f"on the bench: {stored.id[:8]}")


def _changed(work: "Repair", texts: dict[str, str], context: Context, log: "Log") -> "Repair":
    from appraise.log.bench import whole_ids, whole_piece
    from appraise.records.fields import changed

    texts = whole_ids(log, texts)
    if texts.get("piece"):
        texts["piece"] = whole_piece(log, texts["piece"])
    return changed(work, texts, context.author(context.knowledge()))


def _show(context: Context, stored: "Stored[Repair]", head: str = "") -> Exit:
    """Show a work with what has to be said of it."""
    from appraise.records.fields import filled
    from appraise.report.bench import work_notes, work_stuff

    knowledge, told = context.knowledge(), filled(stored.thing)
    title = _piece_title(context, stored.thing.piece)
    if title:
        told["piece"] += f" ({title})"
    if stored.thing.materials:
        told["materials"] = "; ".join(work_stuff(stored.thing, knowledge))
    return show_one(context, stored, head, told, work_notes(stored.thing, knowledge))


def _piece_title(context: Context, piece: str) -> str:
    from appraise.log.bench import piece_title

    with context.log() as log:
        return piece_title(log, piece)


def run_list(args: argparse.Namespace, context: Context) -> Exit:
    """List the works."""
    from appraise.log.records import held
    from appraise.records.repair import Repair
    from appraise.report.bench import work_line

    with context.log() as log:
        rows = sorted(held(log, Repair), key=lambda one: not one.thing.in_hand)
    rows = [one for one in rows if one.thing.in_hand or not args.open]
    show_list(context, "works", rows, list(map(work_line, rows)), NONE)
    return Exit.DONE


def run_show(args: argparse.Namespace, context: Context) -> Exit:
    """Show one work."""
    from appraise.records.repair import Repair

    return _show(context, found(args, context, Repair))


def run_edit(args: argparse.Namespace, context: Context) -> Exit:
    """Change fields of a work."""
    from appraise.records.fields import pair

    return _edited(args, context, dict(map(pair, args.changes)))


def run_done(args: argparse.Namespace, context: Context) -> Exit:
    """Finish a work."""
    from appraise.records.fields import pair

    texts = dict(map(pair, args.changes))
    texts.setdefault("done", context.as_of.isoformat())
    return _edited(args, context, texts)


def _edited(args: argparse.Namespace, context: Context, texts: dict[str, str]) -> Exit:
    from appraise.log.bench import change_work
    from appraise.log.records import Stored, one
    from appraise.records.repair import Repair

    with context.log() as log:
        was = one(log, Repair, args.id)
        work = _changed(was.thing, texts, context, log)
        stored = change_work(log, Stored(was.id, work), was.thing, args.own)
    return _show(context, stored)


def run_remove(args: argparse.Namespace, context: Context) -> Exit:
    """Take a work off the log."""
    from appraise.log.bench import drop_work
    from appraise.log.records import one
    from appraise.records.repair import Repair

    with context.log() as log:
        stored = one(log, Repair, args.id)
        drop_work(log, stored)
    return _show(context, stored, f"removed: {stored.thing.title}")
