"""`appraise log import` and `export`: entries in from CSV or YAML, and out again."""

import argparse
import sys
from typing import TYPE_CHECKING

from appraise.base.errors import InputError
from appraise.base.files import read_bytes, write_new
from appraise.base.jsonvalues import picked
from appraise.cli.asking import agreed, can_ask
from appraise.cli.context import Context
from appraise.cli.currency import base_currency

if TYPE_CHECKING:
    from collections.abc import Iterator

    from appraise.exchange.intake import Taken
    from appraise.exchange.preview import Preview
    from appraise.exchange.sheets import ReadAs
    from appraise.records.entry import Entry
    from appraise.store.log import Log

FORMATS = ("csv", "yaml")


def run_import(args: argparse.Namespace, context: Context) -> None:
    if args.file.suffix.lower() in (".yaml", ".yml"):
        _import_yaml(args, context, read_bytes(args.file))
        return
    from appraise.cli.importing import preview_json, tell_doubles, tell_left_out, tell_preview
    from appraise.exchange.sheets import import_csv

    with context.log() as log:
        preview = _preview(args, context, log)
        tell_preview(preview, whole=args.preview)
        if args.preview:
            told = f"{len(preview.entries)} good rows, {len(preview.bad)} bad"
            context.show(preview_json(preview), told)
            return
        wanted = preview.entries and (args.only_good or not preview.bad)
        if wanted and not agreed(context, f"  import {len(preview.entries):,} entries?"):
            context.show({"schema": "appraise.import/1", "added": []}, "nothing imported")
            return
        taken = import_csv(
            log,
            preview,
            only_good=args.only_good,
            update=args.update,
            doubles=args.doubles,
        )
    tell_doubles(taken)
    left = tell_left_out(preview, args.file)
    _tell_taken(context, taken, [one.number for one in preview.left_out], left)


def _preview(args: argparse.Namespace, context: Context, log: "Log") -> "Preview":
    """The sheet as it would be taken in; what it leaves open is asked where somebody sits there."""
    from appraise.cli.importing import answered
    from appraise.exchange.own_sheet import own_preview
    from appraise.exchange.sheets import read_csv

    read_as = _read_as(args, context, log)
    own = own_preview(args.file, read_as)
    if own is not None:
        return own
    data = read_bytes(args.file)
    preview = read_csv(data, args.file.name, read_as)
    return answered(data, preview, read_as) if can_ask(context) else preview


def _import_yaml(args: argparse.Namespace, context: Context, data: bytes) -> None:
    from appraise.exchange.intake import take_in
    from appraise.exchange.yaml_file import from_yaml

    try:
        entries = from_yaml(data.decode("utf-8-sig"), args.file.name)
    except UnicodeDecodeError:
        raise InputError("the file is not UTF-8 text", str(args.file)) from None
    if args.preview:
        document = {"schema": "appraise.import/1", "good": len(entries), "bad": []}
        context.show(document, f"{len(entries)} entries")
        return
    with context.log() as log:
        _tell_taken(context, take_in(log, entries, update=args.update), [], "")


def _read_as(args: argparse.Namespace, context: Context, log: "Log") -> "ReadAs":
    from appraise.exchange.sheets import ReadAs
    from appraise.exchange.vocabulary import sheet_vocabulary
    from appraise.listing.cellwords import sheet_words
    from appraise.listing.title_words import title_words

    knowledge = context.knowledge()
    return ReadAs(
        encoding=args.encoding,
        columns=_pairs(args.column, "--column", "HEADER=FIELD"),
        point=args.point,
        order=args.order,
        record=args.record,
        channel=args.channel,
        base=base_currency(context, log),
        currency=_code(args.currency, "--currency"),
        dollar=_code(args.dollar, "--dollar"),
        words=sheet_words(knowledge),
        meant=_pairs(args.word, "--word", "TEXT=WORD"),
        titles=title_words(knowledge),
        say=sheet_vocabulary(knowledge),
        region=context.settings().region,
        doubtful=args.doubtful,
        blank_days=args.blank_days,
    )


def _pairs(given: list[str], option: str, form: str) -> dict[str, str]:
    """Pairs as typed; the last '=' parts them, since a header or a cell may hold one."""
    found = {}
    for pair in given:
        name, equals, value = pair.rpartition("=")
        if not equals:
            raise InputError(f"'{pair}' is not {form}", option)
        found[name] = value.strip()
    return found


def _code(text: str, option: str) -> str:
    """A currency as typed; empty where none was.

    Raises:
        InputError: when it is not known.
    """
    from appraise.base.moneytext import DOLLARS, EXPONENTS
    from appraise.base.spelling import did_you_mean

    known = DOLLARS if option == "--dollar" else tuple(EXPONENTS)
    if text and text.upper() not in known:
        sort = "dollar" if option == "--dollar" else "currency"
        raise InputError(f"'{text}' is not a known {sort}", option, did_you_mean(text, known))
    return text.upper()


def _tell_taken(context: Context, taken: "Taken", left: list[int], file: str) -> None:
    document = {
        "schema": "appraise.import/1",
        **picked(taken, "added edited known differing"),
        "left_out": left,
        "doubles": [one.known for one in taken.doubles],
        "left_out_file": file or None,
    }
    told = f"{len(taken.added)} added, {len(taken.edited)} replaced, {taken.known} known already"
    if taken.differing:
        told += f", {len(taken.differing)} left unchanged (--update replaces them)"
    if taken.doubles:
        told += f", {len(taken.doubles)} with day and price of another entry left out"
    if left:
        told += f", {len(left)} left out"
    context.show(document, told)


def run_export(args: argparse.Namespace, context: Context) -> None:
    from appraise.exchange.csv_file import csv_parts
    from appraise.exchange.yaml_file import yaml_parts
    from appraise.store.search import EntryQuery

    form = args.form or args.out.suffix.lower().lstrip(".").replace("yml", "yaml")
    if form not in FORMATS:
        raise InputError("neither .csv nor .yaml", str(args.out), "Write --as csv or --as yaml.")
    with context.log() as log, log.snapshot():
        counted = _Counted(log.each(EntryQuery(" ".join(args.filter))))
        parts = csv_parts(counted) if form == "csv" else yaml_parts(counted)
        if str(args.out) == "-":
            sys.stdout.buffer.writelines(parts)
            return
        write_new(args.out, parts)
    print(f"{counted.many} entries", file=sys.stderr)


class _Counted:
    """Entries that are counted as they go by."""

    def __init__(self, entries: "Iterator[Entry]") -> None:
        self.entries = entries
        self.many = 0

    def __iter__(self) -> "Iterator[Entry]":
        for entry in self.entries:
            self.many += 1
            yield entry
