"""`appraise record` and `report`: how a piece could be known again, and told to one reader."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING

from appraise.base.errors import InputError
from appraise.cli.context import Context, talk
from appraise.cli.subject import named
from appraise.commands.rows_pieces import ONCE_MYSELF

if TYPE_CHECKING:
    from appraise.documents.document import Document
    from appraise.records.piece import Piece
    from appraise.verdict import Verdict

OLD_WORD = (
    "'buyer' is called 'myself' now: this report tells your log's prices and places. For somebody "
    "who buys from you: --for public."
)
MYSELF = "myself"
BY_SUFFIX = {".html": "html", ".htm": "html", ".md": "markdown", ".markdown": "markdown"}


def run_record(args: argparse.Namespace, context: Context) -> None:
    from appraise.documents.object_id import RecordedPiece, object_id, record_document, record_json
    from appraise.verdict import judge

    knowledge = context.knowledge()
    meant = named(args.piece, context, knowledge)
    verdict = judge(meant.piece, knowledge, None, context.as_of)
    record = object_id(RecordedPiece.of(verdict, knowledge, meant.entry, meant.kept))
    context.show(record_json(record), record_document(record))


def run_report(args: argparse.Namespace, context: Context) -> None:
    from appraise.base.files import write_new
    from appraise.documents.writers.forms import FORMS, report_json

    if args.force and args.out is None:
        raise InputError("no file given to overwrite", "--force", "Add --out FILE.")
    suffix = args.out.suffix.lower() if args.out else ""
    form = args.form or BY_SUFFIX.get(suffix, "text")
    document = _told(args, context)
    written = FORMS[form](document)
    if args.out is None:
        context.show(report_json(document), written)
        return
    write_new(args.out, written.encode(), args.force, "Choose another name, or add --force.")
    if context.json:
        context.show({**report_json(document), "file": str(args.out)}, "")
    else:
        print(f"written: {args.out}", file=sys.stderr)


def _told(args: argparse.Namespace, context: Context) -> Document:
    from appraise.documents.reports.report import report_for
    from appraise.verdict import judge as judge_unpriced

    knowledge = context.knowledge()
    meant = named(args.piece, context, knowledge)

    def judge(piece: Piece, priced: bool) -> Verdict:
        """What was itself paid for the piece is no price to go by."""
        if priced:
            return context.judge(knowledge, without=meant.own)(piece)
        return judge_unpriced(piece, knowledge, None, context.as_of, context.settings())

    reader = args.reader
    if reader == ONCE_MYSELF:
        reader = MYSELF
        talk(OLD_WORD)
    titles = _titles(context) if reader == MYSELF else {}
    return report_for(reader, meant, knowledge, judge, titles, str(context.home.log))


def _titles(context: Context) -> dict[str, str]:
    """What the entries of the log are called; nothing is made where there is no log."""
    if not context.home.log.exists():
        return {}
    with context.log() as log:
        return {one.id: one.title or one.motif for one in log.entries()}
