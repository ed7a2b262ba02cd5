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
    pictures, number = (len(meant.entry.pictures), meant.entry.id) if meant.entry else (0, "")
    number = (meant.kept.number if meant.kept else "") or number
    verdict = judge(meant.piece, knowledge, None, context.as_of)
    record = object_id(RecordedPiece(verdict, knowledge, pictures, number))
    context.show(record_json(record), record_document(record))
