"""Add, list, show, edit, remove and the history of records of any type, from the command line."""

import argparse

from appraise.base.jsonvalues import picked
from appraise.cli.context import Context
from appraise.cli.showing import VIEWS, show, show_list, tell
from appraise.commands import records
from appraise.commands.kinds import KINDS
from appraise.records.fields import pair, parted


def run_add(args: argparse.Namespace, context: Context) -> None:
    kind = KINDS[args.command.target]
    line, texts = parted(args.words, kind.sort)
    read = kind.read(context, line, texts)
    tell(context, read.understood, read.not_understood)
    done = records.add(context, kind, read.thing, texts, getattr(args, "own", False))
    show(context, done.stored, done.says)


def run_list(args: argparse.Namespace, context: Context) -> None:
    name, told = args.command.target, vars(args)
    every = not told["open"] if "open" in told else told.get("all", True)
    show_list(context, VIEWS[name], records.listed(context, KINDS[name], every))


def run_show(args: argparse.Namespace, context: Context) -> None:
    show(context, records.found(context, KINDS[args.command.target], _ref(args)))


def run_edit(args: argparse.Namespace, context: Context) -> None:
    edited(args, context, dict(map(pair, args.changes)))


def edited(args: argparse.Namespace, context: Context, texts: dict[str, str]) -> None:
    """Change fields of a record and show it."""
    kind, own = KINDS[args.command.target], getattr(args, "own", False)
    show(context, records.edit(context, kind, _ref(args), texts, own).stored)


def run_done(args: argparse.Namespace, context: Context) -> None:
    """Finish a job: as an edit, today the day if none is told."""
    texts = dict(map(pair, args.changes))
    edited(args, context, {"done": context.as_of.isoformat(), **texts})


def run_remove(args: argparse.Namespace, context: Context) -> None:
    done = records.remove(context, KINDS[args.command.target], _ref(args))
    show(context, done.stored, done.says)


def run_history(args: argparse.Namespace, context: Context) -> None:
    revisions = records.history(context, KINDS[args.command.target], _ref(args))
    told = [picked(one, "id time machine kind") for one in revisions]
    document = {"schema": "appraise.history/1", "revisions": told}
    lines = (f"{one.time}  {one.kind:<7} on {one.machine}" for one in revisions)
    context.show(document, "\n".join(lines))


def _ref(args: argparse.Namespace) -> str:
    """What names the record that is meant: the first argument of the command."""
    return str(getattr(args, next(one.name for one in args.command.takes if one.name[0] != "-")))
