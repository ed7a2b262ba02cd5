"""Add, list, show, edit, remove and the history of records of any type, from the command line."""

import argparse

from appraise.base.jsonvalues import picked
from appraise.cli.context import Context
from appraise.cli.exits import Exit
from appraise.cli.showing import VIEWS, show, show_list, tell
from appraise.commands import records
from appraise.commands.kinds import KINDS
from appraise.records.fields import pair, parted


def run_add(args: argparse.Namespace, context: Context) -> Exit:
    """Understand a line and add what it names."""
    kind = KINDS[args.command.target]
    line, texts = parted(args.words, kind.sort)
    read = kind.read(context, line, texts)
    tell(context, read.understood, read.not_understood)
    done = records.add(context, kind, read.thing, texts, getattr(args, "own", False))
    return show(context, done.stored, done.says)


def run_list(args: argparse.Namespace, context: Context) -> Exit:
    """List records, a line each."""
    name, told = args.command.target, vars(args)
    every = not told["open"] if "open" in told else told.get("all", True)
    show_list(context, VIEWS[name], records.listed(context, KINDS[name], every))
    return Exit.DONE


def run_show(args: argparse.Namespace, context: Context) -> Exit:
    """Show one record in full."""
    return show(context, records.found(context, KINDS[args.command.target], _ref(args)))


def run_edit(args: argparse.Namespace, context: Context) -> Exit:
    """Change fields of a record."""
    return edited(args, context, dict(map(pair, args.changes)))


def edited(args: argparse.Namespace, context: Context, texts: dict[str, str]) -> Exit:
    """Change fields of a record and show it."""
    kind, own = KINDS[args.command.target], getattr(args, "own", False)
    return show(context, records.edit(context, kind, _ref(args), texts, own).stored)


def run_done(args: argparse.Namespace, context: Context) -> Exit:
    """Finish a job: as an edit, today the day if none is told."""
    texts = dict(map(pair, args.changes))
    return edited(args, context, {"done": context.as_of.isoformat(), **texts})


def run_remove(args: argparse.Namespace, context: Context) -> Exit:
    """Take a record off the log."""
    done = records.remove(context, KINDS[args.command.target], _ref(args))
    return show(context, done.stored, done.says)


def run_history(args: argparse.Namespace, context: Context) -> Exit:
    """Tell every state that a record has had."""
    revisions = records.history(context, KINDS[args.command.target], _ref(args))
    told = [picked(one, "id time machine kind") for one in revisions]
    document = {"schema": "appraise.history/1", "revisions": told}
    lines = (f"{one.time}  {one.kind:<7} on {one.machine}" for one in revisions)
    context.show(document, "\n".join(lines))
    return Exit.DONE


def _ref(args: argparse.Namespace) -> str:
    """What names the record that is meant: the first argument of the command."""
    return str(getattr(args, next(one.name for one in args.command.takes if one.name[0] != "-")))
