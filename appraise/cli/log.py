"""`appraise log`: the price log from the command line."""

import argparse
import json
import sys
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from appraise.cli import currency, logcare, logfiles, logpictures, track
from appraise.cli.asking import agreed, sure
from appraise.cli.benching import tell
from appraise.cli.context import Context
from appraise.cli.currency import base_currency
from appraise.cli.exits import Exit
from appraise.cli.odd import MARK, odd_prices, slip_of
from appraise.cli.options import Commands, command, with_day, with_json
from appraise.report.entry import entry_document, entry_json, entry_line

if TYPE_CHECKING:
    from appraise.log.store import Log

CHECK = "also look for unusual prices in a long log"


def add(commands: Commands) -> None:
    """Add the command and its actions."""
    log = command(commands, "log", "the price log: add, list, edit, import, merge, backup ...")
    actions = log.add_subparsers(metavar="ACTION", required=True, title="actions")

    new = command(actions, "add", "log a price: 'sixth ambrotype vine 38 + 6 post, quay market'")
    new.add_argument("words", nargs="+", metavar="WORDS")
    new.add_argument("--try", dest="only_try", action="store_true", help="show, save nothing")
    new.add_argument("--yes", action="store_true", help="save without asking")
    with_json(new)
    with_day(new)
    new.set_defaults(run=run_add)

    listed = command(actions, "list", "list entries, newest first; filter by words and field:value")
    listed.add_argument("filter", nargs="*", metavar="FILTER")
    listed.add_argument("--limit", type=int, metavar="N", help="maximum number shown")
    listed.add_argument("--check", action="store_true", help=CHECK)
    with_json(listed)
    listed.set_defaults(run=run_list)

    one = _of_one(actions, "show", "show one entry in full", run_show)
    one.add_argument("--check", action="store_true", help=CHECK)
    _of_one(actions, "remove", "delete an entry ('log undo' restores it)", run_remove)
    _of_one(actions, "history", "show the history of an entry", run_history)

    edited = _of_one(actions, "edit", "edit an entry: ID field=value ...", run_edit)
    edited.add_argument("changes", nargs="+", metavar="FIELD=VALUE", help="FIELD= clears the field")

    for name, says in (("undo", "undo the last change"), ("redo", "redo the change last undone")):
        step = command(actions, name, says)
        with_json(step)
        step.set_defaults(run=run_step, step=name)
    track.add_outcome(actions)
    currency.add(actions)
    logpictures.add(actions)
    logfiles.add(actions)
    logcare.add(actions)


def _of_one(
    actions: Commands, name: str, says: str, run: Callable[..., Exit]
) -> argparse.ArgumentParser:
    """An action on one entry, named by its id or the first letters of it."""
    made = command(actions, name, says)
    made.add_argument("id", help="the entry's id, or the first letters of it")
    with_json(made)
    made.set_defaults(run=run)
    return made


def run_add(args: argparse.Namespace, context: Context) -> Exit:
    """Understand a line, say how, and keep it."""
    from appraise.listing.quick import understand_entry

    knowledge = context.knowledge()
    with context.log() as log:
        code = base_currency(context, log)
        region = context.settings().region
        quick = understand_entry(" ".join(args.words), knowledge, code, context.as_of, region)
        tell(quick.understood, quick.not_understood, knowledge, quick.notes)
        doubt = slip_of(context, log, quick.entry, knowledge, code)
        if doubt and args.only_try:
            print(f"  ? {doubt}", file=sys.stderr)
        elif doubt and not args.yes:
            sure(context, doubt)
        keep = not args.only_try and (args.yes or bool(doubt) or agreed(context, "  save it?"))
        entry = log.add(quick.entry) if keep else quick.entry
    context.show(
        entry_document(entry), entry_line(entry) if keep or args.only_try else "nothing saved"
    )
    return Exit.DONE


def run_list(args: argparse.Namespace, context: Context) -> Exit:
    """List entries."""
    query = " ".join(args.filter)
    with context.log() as log:
        entries = log.entries(query, limit=args.limit)
        summary = log.summary(query)
        odd = odd_prices(context, log, args.check)
        if query and not entries:
            _offer(log, query)
    document = {
        "schema": "appraise.log/1",
        "entries": [entry_json(one) for one in entries],
        "check": {one.id: odd[one.id] for one in entries if one.id in odd},
    }
    rows = (entry_line(one) + (MARK if one.id in odd else "") for one in entries)
    foot = [f"{summary.count} entries"]
    foot += [f"sum {total.total}, median {total.median}" for total in summary.sums]
    context.show(document, "\n".join([*rows, "; ".join(foot)]))
    return Exit.DONE


def _offer(log: "Log", query: str) -> None:
    """What a filter that found nothing may have meant, as talk."""
    from appraise.log.loose import guess  # 20 ms with its string library

    meant = guess(log, query)
    if meant is not None:
        print(f"  nothing found; did you mean '{meant.query}'?", file=sys.stderr)


def run_show(args: argparse.Namespace, context: Context) -> Exit:
    """Show one entry."""
    with context.log() as log:
        entry = log.entry(args.id)
        odd = odd_prices(context, log, args.check).get(entry.id, "")
    told = entry_json(entry)
    width = max(map(len, told))
    text = "\n".join(f"{key:<{width}}  {_plain(value)}" for key, value in told.items())
    document = entry_document(entry) | ({"check": odd} if odd else {})
    context.show(document, f"? {odd}\n{text}" if odd else text)
    return Exit.DONE


def run_remove(args: argparse.Namespace, context: Context) -> Exit:
    """Remove an entry."""
    with context.log() as log:
        entry = log.remove(args.id)
    context.show(entry_document(entry), f"removed {entry_line(entry)}")
    return Exit.DONE


def run_edit(args: argparse.Namespace, context: Context) -> Exit:
    """Change fields of an entry."""
    from appraise.records.fields import changed, pair

    texts, by = dict(map(pair, args.changes)), context.author(context.knowledge())
    with context.log() as log:
        was = log.entry(args.id)
        entry = log.edit(changed(was, texts, by), was=was)
    context.show(entry_document(entry), entry_line(entry))
    return Exit.DONE


def run_history(args: argparse.Namespace, context: Context) -> Exit:
    """Tell every state that an entry has had."""
    with context.log() as log:
        revisions = log.history(args.id)
    document = {
        "schema": "appraise.history/1",
        "revisions": [
            {"id": one.id, "time": one.time, "machine": one.machine, "kind": one.kind}
            for one in revisions
        ],
    }
    told = (f"{one.time}  {one.kind:<7} on {one.machine}" for one in revisions)
    context.show(document, "\n".join(told))
    return Exit.DONE


def run_step(args: argparse.Namespace, context: Context) -> Exit:
    """Undo or redo."""
    with context.log() as log:
        step = log.undo() if args.step == "undo" else log.redo()
    document = {
        "schema": "appraise.step/1",
        "kind": step.kind,
        "of": step.of,
        "entries": list(step.entries),
    }
    context.show(document, f"{step.kind}: {step.of} of {len(step.entries)}")
    return Exit.DONE


def _plain(value: Any) -> str:
    return value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)
