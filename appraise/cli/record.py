"""`appraise record`: the record by which a piece could be known again."""

from __future__ import annotations

import argparse

from appraise.cli.context import Context
from appraise.cli.subject import named


def run_record(args: argparse.Namespace, context: Context) -> None:
    from appraise.documents.object_id import RecordedPiece, object_id, record_document, record_json
    from appraise.verdict import judge

    knowledge = context.knowledge()
    meant = named(args.piece, context, knowledge)
    verdict = judge(meant.piece, knowledge, None, context.as_of)
    record = object_id(RecordedPiece.of(verdict, knowledge, meant.entry, meant.kept))
    context.show(record_json(record), record_document(record))
