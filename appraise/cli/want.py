"""`appraise want`: what to look out for; a piece that meets it says so."""

import argparse

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

NONE = "Your want list is empty. 'appraise want add ninth vine, up to 70' adds a want."
ID = ("id", "", "its id, or the first letters of it, or its title")


def add(commands: Commands) -> None:
    """Add the command and its actions."""
    from appraise.records.want import Want

    want = command(commands, "want", "your want list: add, list, edit, remove")
    actions = want.add_subparsers(metavar="ACTION", required=True, title="actions")
    new = action(
        actions, "add", "add a want: 'ninth or sixth vine, 1855-1862, up to 80'", run_add,
        ("words", "+", "the want in a line, and fields as FIELD=VALUE"),
    )  # fmt: skip
    action(actions, "list", "list your wants", run_list)
    action(actions, "show", "show one want in full", run_show, ID)
    edit = action(
        actions, "edit", "edit a want: ID FIELD=VALUE ...", run_edit, ID,
        ("changes", "+", "FIELD=VALUE; FIELD= clears the field"),
    )  # fmt: skip
    for one in (new, edit):
        with_fields(one, Want)
    action(actions, "remove", "remove a want ('log undo' restores it)", run_remove, ID)


def run_add(args: argparse.Namespace, context: Context) -> Exit:
    """Understand a line about something wished for and keep it."""
    from appraise.listing.wish_line import understand_want
    from appraise.log.records import keep
    from appraise.records.fields import changed, parted
    from appraise.records.want import Want

    by = context.author(context.knowledge())
    line, texts = parted(args.words, Want)
    read = understand_want(line, context.knowledge(), by.currency, by.today)
    want = changed(read.thing, texts, by).telling()
    tell(read.understood, read.not_understood, context.knowledge())
    with context.log() as log:
        stored = keep(log, want)
    return show_one(context, stored, f"on your list: {stored.id[:8]}")


def run_list(args: argparse.Namespace, context: Context) -> Exit:
    """List the wishes."""
    from appraise.log.records import held
    from appraise.records.want import Want
    from appraise.report.bench import want_line

    with context.log() as log:
        rows = held(log, Want)
    show_list(context, "wants", rows, list(map(want_line, rows)), NONE)
    return Exit.DONE


def run_show(args: argparse.Namespace, context: Context) -> Exit:
    """Show one wish."""
    from appraise.records.want import Want

    return show_one(context, found(args, context, Want))


def run_edit(args: argparse.Namespace, context: Context) -> Exit:
    """Change fields of a wish."""
    from appraise.records.want import Want

    return show_one(context, edited(args, context, Want, check=Want.telling))


def run_remove(args: argparse.Namespace, context: Context) -> Exit:
    """Take a wish off the list."""
    from appraise.records.want import Want

    return removed(args, context, Want)
