"""`appraise work`: what was done to which piece, with what, and whether it can be undone."""

import argparse
from typing import TYPE_CHECKING

from appraise.base.errors import InputError
from appraise.cli.benching import action, changes_of, fields_epilog, parted, show_list, show_one
from appraise.cli.context import Context
from appraise.cli.exits import Exit
from appraise.cli.options import Commands, command

if TYPE_CHECKING:
    from appraise.keeping.work import Work
    from appraise.knowledge.records import Knowledge
    from appraise.log.holdings import Held
    from appraise.log.store import Log

NONE = "No work is noted. 'appraise work add rehinged the vine case piece=ID materials=...' does."
ID = ("id", "", "the work's id, or the first letters of it, or its title")
OWN = "mark the piece's entry as your own work: it then teaches the tool no price"


def add(commands: Commands) -> None:
    """Add the command and its actions."""
    from appraise.keeping.worktext import MEANING

    work = command(commands, "work", "work on pieces: add, list, done; used parts leave the stock")
    actions = work.add_subparsers(metavar="ACTION", required=True, title="actions")
    new = action(
        actions, "add", "note a work: TITLE FIELD=VALUE ...", run_add,
        ("words", "+", "a title, and fields as FIELD=VALUE"),
    )  # fmt: skip
    listed = action(actions, "list", "the works, those in hand first", run_list)
    listed.add_argument("--open", action="store_true", help="only those in hand")
    action(actions, "show", "one work with everything on it", run_show, ID)
    edit = action(
        actions, "edit", "change fields of a work: ID FIELD=VALUE ...", run_edit, ID,
        ("changes", "+", "FIELD=VALUE; FIELD= empties it"),
    )  # fmt: skip
    done = action(
        actions, "done", "finish a work: ID, and fields as FIELD=VALUE", run_done, ID,
        ("changes", "*", "FIELD=VALUE"),
    )  # fmt: skip
    for one in (new, edit, done):
        one.add_argument("--own", action="store_true", help=OWN)
        fields_epilog(one, MEANING)
    action(actions, "remove", "take a work off, its parts back into stock", run_remove, ID)


def run_add(args: argparse.Namespace, context: Context) -> Exit:
    """Keep a new work."""
    from appraise.keeping.work import Work
    from appraise.keeping.worktext import FIELDS
    from appraise.log.bench import keep_work

    knowledge = context.knowledge()
    title, texts = parted(args.words, FIELDS)
    texts.setdefault("title", title)
    if not texts["title"].strip():
        raise InputError("a work has a title", mend="Write: appraise work add new hinge.")
    with context.log() as log:
        work = _changed(Work("", context.as_of), texts, context, knowledge, log)
        held = keep_work(log, work, args.own)
    _show(context, held, knowledge, f"on the bench: {held.id[:8]}")
    return Exit.DONE


def _changed(
    work: "Work", texts: dict[str, str], context: Context, knowledge: "Knowledge", log: "Log"
) -> "Work":
    from appraise.keeping.worktext import changed
    from appraise.log.bench import whole_ids, whole_piece

    texts = whole_ids(log, texts)
    if texts.get("piece"):
        texts["piece"] = whole_piece(log, texts["piece"])
    return changed(work, texts, knowledge, context.settings().currency)


def _show(context: Context, held: "Held[Work]", knowledge: "Knowledge", head: str = "") -> None:
    """Show a work with what has to be said of it."""
    from appraise.keeping.worktext import written
    from appraise.report.bench import work_notes, work_stuff

    told = written(held.thing)
    title = _piece_title(context, held.thing.piece)
    if title:
        told["piece"] += f" ({title})"
    if held.thing.materials:
        told["materials"] = "; ".join(work_stuff(held.thing, knowledge))
    show_one(context, "work", held, told, work_notes(held.thing, knowledge), head)


def _piece_title(context: Context, piece: str) -> str:
    from appraise.log.bench import piece_title

    with context.log() as log:
        return piece_title(log, piece)


def run_list(args: argparse.Namespace, context: Context) -> Exit:
    """List the works."""
    from appraise.keeping.work import Work
    from appraise.log.holdings import held
    from appraise.report.bench import work_line

    with context.log() as log:
        rows = sorted(held(log, Work), key=lambda one: not one.thing.in_hand)
    rows = [one for one in rows if one.thing.in_hand or not args.open]
    show_list(context, "works", rows, list(map(work_line, rows)), NONE)
    return Exit.DONE


def run_show(args: argparse.Namespace, context: Context) -> Exit:
    """Show one work."""
    from appraise.keeping.work import Work
    from appraise.log.holdings import one

    with context.log() as log:
        held = one(log, Work, args.id)
    _show(context, held, context.knowledge())
    return Exit.DONE


def run_edit(args: argparse.Namespace, context: Context) -> Exit:
    """Change fields of a work."""
    return _edited(args, context, changes_of(args.changes))


def run_done(args: argparse.Namespace, context: Context) -> Exit:
    """Finish a work."""
    texts = changes_of(args.changes)
    texts.setdefault("done", context.as_of.isoformat())
    return _edited(args, context, texts)


def _edited(args: argparse.Namespace, context: Context, texts: dict[str, str]) -> Exit:
    from appraise.keeping.work import Work
    from appraise.log.bench import change_work
    from appraise.log.holdings import Held, one

    knowledge = context.knowledge()
    with context.log() as log:
        was = one(log, Work, args.id)
        work = _changed(was.thing, texts, context, knowledge, log)
        held = change_work(log, Held(was.id, work), was.thing, args.own)
    _show(context, held, knowledge)
    return Exit.DONE


def run_remove(args: argparse.Namespace, context: Context) -> Exit:
    """Take a work off the log."""
    from appraise.keeping.work import Work
    from appraise.log.bench import drop_work
    from appraise.log.holdings import one

    with context.log() as log:
        held = one(log, Work, args.id)
        drop_work(log, held)
    _show(context, held, context.knowledge(), f"removed: {held.thing.title}")
    return Exit.DONE
