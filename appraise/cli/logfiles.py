"""`appraise log import` and `export`: entries in from CSV or YAML, and out again."""

import argparse
import sys
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from appraise.base.errors import InputError
from appraise.base.files import read_bytes, write_new
from appraise.cli.asking import agreed, ask, can_ask
from appraise.cli.context import Context
from appraise.cli.currency import base_currency
from appraise.cli.exits import Exit
from appraise.cli.options import Commands, command, with_json
from appraise.report.entry import entry_line

if TYPE_CHECKING:
    from appraise.log.csvin import Preview, ReadAs
    from appraise.log.intake import Taken
    from appraise.log.store import Log

FORMATS = ("csv", "yaml")
SHOWN = 5  # rows told one by one


def add(actions: Commands) -> None:
    """Add the actions to `appraise log`."""
    _add_import(actions)
    out = command(actions, "export", "write entries as CSV or YAML")
    out.add_argument(
        "out", type=Path, metavar="OUT", help="a new file, .csv or .yaml; - for stdout"
    )
    out.add_argument("filter", nargs="*", metavar="FILTER")
    out.add_argument("--as", dest="form", choices=FORMATS, help="when the name does not say")
    out.set_defaults(run=run_export, json=False)


def _add_import(actions: Commands) -> None:
    taken = command(actions, "import", "take entries in from CSV or YAML; twice adds nothing")
    taken.add_argument("file", type=Path, metavar="FILE")
    taken.add_argument("--preview", action="store_true", help="show how it is read; keep nothing")
    taken.add_argument("--only-good", action="store_true", help="take in the good rows only")
    taken.add_argument("--update", action="store_true", help="YAML: entries with an id replace")
    taken.add_argument("--column", action="append", default=[], metavar="HEADER=FIELD")
    taken.add_argument("--point", choices=(".", ","), default="", help="the decimal point")
    taken.add_argument("--order", choices=("day", "month"), default="", help="first in a date")
    taken.add_argument("--record", default="", help="what happened, where the file does not say")
    taken.add_argument("--channel", default="", help="where, where the file does not say")
    taken.add_argument("--encoding", default="", help="when it is not recognised")
    with_json(taken)
    taken.set_defaults(run=run_import)


def run_import(args: argparse.Namespace, context: Context) -> Exit:
    """Take a file in, or show how it would be read."""
    data = read_bytes(args.file)
    if args.file.suffix.lower() in (".yaml", ".yml"):
        return _import_yaml(args, context, data)
    from appraise.log.csvin import import_csv, read_csv

    with context.log() as log:
        read_as = _read_as(args, context, log)
        preview = read_csv(data, args.file.name, read_as)
        if can_ask(context):
            preview = _asked(data, preview, read_as)
        _tell_preview(preview)
        if args.preview:
            document = {
                "schema": "appraise.import/1",
                "columns": {each.header: each.field for each in preview.columns},
                "questions": [one.says for one in preview.questions],
                "good": len(preview.entries),
                "bad": [{"row": one.number, "why": one.reason} for one in preview.bad],
            }
            context.show(document, f"{len(preview.entries)} good rows, {len(preview.bad)} bad")
            return Exit.DONE
        wanted = preview.entries and (args.only_good or not preview.bad)
        if wanted and not agreed(context, f"  take in {len(preview.entries):,} entries?"):
            context.show({"schema": "appraise.import/1", "added": []}, "nothing taken in")
            return Exit.DONE
        taken = import_csv(log, preview, only_good=args.only_good)
    _tell_taken(context, taken)
    return Exit.DONE


def _import_yaml(args: argparse.Namespace, context: Context, data: bytes) -> Exit:
    from appraise.log.intake import take_in
    from appraise.log.yamlform import from_yaml

    try:
        entries = from_yaml(data.decode("utf-8-sig"), args.file.name)
    except UnicodeDecodeError:
        raise InputError("the file is not UTF-8 text", str(args.file)) from None
    if args.preview:
        document = {"schema": "appraise.import/1", "good": len(entries), "bad": []}
        context.show(document, f"{len(entries)} entries")
        return Exit.DONE
    with context.log() as log:
        _tell_taken(context, take_in(log, entries, update=args.update))
    return Exit.DONE


def _read_as(args: argparse.Namespace, context: Context, log: "Log") -> "ReadAs":
    from appraise.listing.cellwords import cell_words
    from appraise.log.csvin import ReadAs

    columns = {}
    for pair in args.column:
        header, equals, field = pair.partition("=")
        if not equals:
            raise InputError(f"'{pair}' is not HEADER=FIELD", "--column")
        columns[header] = field
    return ReadAs(
        encoding=args.encoding,
        columns=columns,
        point=args.point,
        order=args.order,
        record=args.record,
        channel=args.channel,
        currency=base_currency(context, log),
        words=cell_words(context.knowledge()),
    )


def _asked(data: bytes, preview: "Preview", read_as: "ReadAs") -> "Preview":
    """Ask what the file leaves open, and read it anew; enter alone leaves it open."""
    from appraise.log.csvin import read_csv

    for question in preview.questions:
        answer = ""
        while answer not in question.choices:
            answer = ask(f"  {question.says} [{' '.join(question.choices)}]").lower()
            if not answer:
                return preview
        answered: dict[str, Any] = {question.name: answer}
        read_as = replace(read_as, **answered)
    return read_csv(data, preview.file, read_as) if preview.questions else preview


def _tell_preview(preview: "Preview") -> None:
    """How a file was read, as talk."""
    renamed = [f"{c.header} -> {c.field}" for c in preview.columns if c.field not in ("", c.header)]
    kept = [c.header for c in preview.columns if not c.field]
    told = [f"read as {preview.encoding}", *renamed]
    told += [f"kept aside: {', '.join(kept)}"] if kept else []
    print(f"  {'; '.join(told)}", file=sys.stderr)
    for question in preview.questions:
        print(f"  open: {question.says} (--{question.name})", file=sys.stderr)
    for entry in preview.entries[:SHOWN]:
        print(f"  {entry_line(entry).strip()}", file=sys.stderr)
    if len(preview.entries) > SHOWN:
        print(f"  and {len(preview.entries) - SHOWN:,} more like these", file=sys.stderr)
    for bad in preview.bad[:SHOWN]:
        print(f"  row {bad.number}: {bad.reason}", file=sys.stderr)
    if len(preview.bad) > SHOWN:
        print(f"  and {len(preview.bad) - SHOWN} more", file=sys.stderr)


def _tell_taken(context: Context, taken: "Taken") -> None:
    document = {
        "schema": "appraise.import/1",
        "added": list(taken.added),
        "edited": list(taken.edited),
        "known": taken.known,
        "differing": list(taken.differing),
    }
    told = f"{len(taken.added)} added, {len(taken.edited)} replaced, {taken.known} known already"
    if taken.differing:
        told += f", {len(taken.differing)} left as the log says them (--update replaces)"
    context.show(document, told)


def run_export(args: argparse.Namespace, context: Context) -> Exit:
    """Write entries to a new file or to stdout."""
    form = args.form or args.out.suffix.lower().lstrip(".").replace("yml", "yaml")
    if form not in FORMATS:
        raise InputError("neither .csv nor .yaml", str(args.out), "Say --as csv or --as yaml.")
    with context.log() as log:
        entries = log.entries(" ".join(args.filter))
    if form == "csv":
        from appraise.log.csvout import to_csv

        data = to_csv(entries)
    else:
        from appraise.log.yamlform import to_yaml

        data = to_yaml(entries).encode()
    if str(args.out) == "-":
        sys.stdout.buffer.write(data)
    else:
        write_new(args.out, data)
        print(f"{len(entries)} entries", file=sys.stderr)
    return Exit.DONE
