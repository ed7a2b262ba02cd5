"""`appraise want`: what to look out for; a piece that meets it says so."""

import argparse

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

NONE = "Nothing is on your list. 'appraise want add ninth vine, up to 70' notes something."
ID = ("id", "", "its id, or the first letters of it, or its title")


def add(commands: Commands) -> None:
    """Add the command and its actions."""
    from appraise.keeping.wanttext import MEANING

    want = command(commands, "want", "what to look out for: add, list, edit, remove")
    actions = want.add_subparsers(metavar="ACTION", required=True, title="actions")
    new = action(
        actions, "add", "note a wish: 'ninth or sixth vine, 1855-1862, up to 80'", run_add,
        ("words", "+", "the wish in a line, and fields as FIELD=VALUE"),
    )  # fmt: skip
    action(actions, "list", "what is on your list", run_list)
    action(actions, "show", "one wish with everything on it", run_show, ID)
    edit = action(
        actions, "edit", "change fields of a wish: ID FIELD=VALUE ...", run_edit, ID,
        ("changes", "+", "FIELD=VALUE; FIELD= empties it"),
    )  # fmt: skip
    for one in (new, edit):
        fields_epilog(one, MEANING)
    action(actions, "remove", "take a wish off; 'log undo' brings it back", run_remove, ID)


def run_add(args: argparse.Namespace, context: Context) -> Exit:
    """Understand a line about something wished for and keep it."""
    from appraise.keeping.wanttext import FIELDS, changed, written
    from appraise.listing.wish_line import understand_want
    from appraise.log.holdings import keep

    knowledge, currency = context.knowledge(), context.settings().currency
    line, texts = parted(args.words, FIELDS)
    read = understand_want(line, knowledge, currency, context.as_of)
    want = changed(read.thing, texts, knowledge, currency).telling()
    tell(read.understood, read.not_understood)
    with context.log() as log:
        held = keep(log, want)
    show_one(context, "want", held, written(want), head=f"on your list: {held.id[:8]}")
    return Exit.DONE


def run_list(args: argparse.Namespace, context: Context) -> Exit:
    """List the wishes."""
    from appraise.keeping.wants import Want
    from appraise.log.holdings import held
    from appraise.report.bench import want_line

    with context.log() as log:
        rows = held(log, Want)
    show_list(context, "wants", rows, list(map(want_line, rows)), NONE)
    return Exit.DONE


def run_show(args: argparse.Namespace, context: Context) -> Exit:
    """Show one wish."""
    from appraise.keeping.wants import Want
    from appraise.keeping.wanttext import written
    from appraise.log.holdings import one

    with context.log() as log:
        held = one(log, Want, args.id)
    show_one(context, "want", held, written(held.thing))
    return Exit.DONE


def run_edit(args: argparse.Namespace, context: Context) -> Exit:
    """Change fields of a wish."""
    from appraise.keeping.wants import Want
    from appraise.keeping.wanttext import changed, written
    from appraise.log.holdings import Held, change, one

    knowledge, currency = context.knowledge(), context.settings().currency
    with context.log() as log:
        was = one(log, Want, args.id)
        want = changed(was.thing, changes_of(args.changes), knowledge, currency).telling()
        held = change(log, Held(was.id, want), was=was.thing)
    show_one(context, "want", held, written(want))
    return Exit.DONE


def run_remove(args: argparse.Namespace, context: Context) -> Exit:
    """Take a wish off the list."""
    from appraise.keeping.wants import Want
    from appraise.keeping.wanttext import written
    from appraise.log.holdings import drop, one

    with context.log() as log:
        held = one(log, Want, args.id)
        drop(log, [held.id])
    show_one(context, "want", held, written(held.thing), head=f"removed: {held.thing.title}")
    return Exit.DONE
