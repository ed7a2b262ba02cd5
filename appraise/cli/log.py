"""`appraise log`: the price log from the command line."""

import argparse
import json
import sys
from collections.abc import Iterator, Mapping
from itertools import islice
from typing import TYPE_CHECKING

from appraise.base.errors import InputError
from appraise.base.jsonvalues import picked
from appraise.cli.asking import agreed, sure
from appraise.cli.context import Context
from appraise.cli.currency import base_currency
from appraise.cli.showing import line_of, tell
from appraise.commands.odd import odd_prices, slip_of
from appraise.documents.entry import entry_document, entry_json, entry_line, kept_line

if TYPE_CHECKING:
    from appraise.records.entry import Entry

MOST = 10**9
PART = 500  # lines written at once
MARK = "   ? check this price"


def run_add(args: argparse.Namespace, context: Context) -> None:
    from appraise.listing.quick import understand_entry

    line = line_of(args.words, "sixth ambrotype vine 38 + 6 post, quay market")
    knowledge = context.knowledge()
    with context.log() as log:
        code = base_currency(context, log)
        region = context.settings().region
        quick = understand_entry(line, knowledge, code, context.as_of, region)
        tell(context, quick.understood, quick.not_understood, quick.notes)
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


def run_list(args: argparse.Namespace, context: Context) -> None:
    from appraise.store.faults import faults_told
    from appraise.store.search import EntryQuery

    query = " ".join(args.filter)
    if args.limit is not None and not 0 < args.limit <= MOST:
        raise InputError(f"'{args.limit}' is not a number of entries", "--limit", "Write 20.")
    with context.log() as log, log.snapshot():
        summary = log.summary(query)
        odd = odd_prices(context, log, args.check)
        if query and not summary.count:
            from appraise.store.suggestions import guess  # 20 ms with its string library

            if meant := guess(log, query):
                print(f"  nothing found; did you mean '{meant.query}'?", file=sys.stderr)
        wanted = EntryQuery(query, limit=args.limit)
        if context.json:
            _write_json(log.each(wanted), odd)
            return
        with faults_told(log.path):
            _write_lines(log.each_text(wanted), odd)
    foot = [f"{summary.count} entries"]
    foot += [f"paid {total.total}, median {total.median}" for total in summary.sums]
    sys.stdout.write("; ".join(foot) + "\n")


def _write_lines(texts: "Iterator[tuple[str, str]]", odd: Mapping[str, str]) -> None:
    """The entries as lines, some hundreds written at once."""
    from appraise.store.current_state import price

    while part := list(islice(texts, PART)):
        lines = (
            (kept_line(body, name) or entry_line(price(body, name))) + (MARK if name in odd else "")
            for body, name in part
        )
        sys.stdout.write("\n".join(lines) + "\n")


def _write_json(entries: "Iterator[Entry]", odd: Mapping[str, str]) -> None:
    """The entries as one JSON object, written one by one."""
    sys.stdout.write('{\n  "schema": "appraise.log/1",\n  "entries": [')
    between, check = "\n    ", dict[str, str]()
    for one in entries:
        told = json.dumps(entry_json(one), ensure_ascii=False, indent=2).replace("\n", "\n    ")
        sys.stdout.write(f"{between}{told}")
        between = ",\n    "
        if one.id in odd:
            check[one.id] = odd[one.id]
    end = "]" if between == "\n    " else "\n  ]"
    told = json.dumps(check, ensure_ascii=False, indent=2).replace("\n", "\n  ")
    sys.stdout.write(f'{end},\n  "check": {told}\n}}\n')


def run_show(args: argparse.Namespace, context: Context) -> None:
    from appraise.documents.price_page import entry_page

    with context.log() as log:
        entry = log.entry(args.id)
        odd = odd_prices(context, log, args.check).get(entry.id, "")
    document = entry_document(entry) | ({"check": odd} if odd else {})
    context.show(document, entry_page(entry, odd))


def run_undo(args: argparse.Namespace, context: Context) -> None:
    """Undo the last change, or redo what was undone; what it was is named."""
    from appraise.commands.undo import take

    done = take(context, args.command.action)
    context.show({"schema": "appraise.step/1", **picked(done.step, "kind of entries")}, done.says)


run_redo = run_undo
