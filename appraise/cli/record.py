"""`appraise record`: the record by which a piece could be known again."""

from __future__ import annotations

import argparse

from appraise.cli.context import Context
from appraise.cli.exits import Exit
from appraise.cli.subject import named


def run_record(args: argparse.Namespace, context: Context) -> Exit:
    """Show the record of a piece file, or of an entry of the log with its pictures."""
    from appraise.documents.object_id import RecordedPiece, object_id, record_document, record_json
    from appraise.documents.writers.lines import text
    from appraise.verdict import judge

    knowledge = context.knowledge()
    meant = named(args.piece, context, knowledge)
    pictures, number = (len(meant.entry.pictures), meant.entry.id) if meant.entry else (0, "")
    number = (meant.kept.number if meant.kept else "") or number
    verdict = judge(meant.piece, knowledge, None, context.as_of)
    record = object_id(RecordedPiece(verdict, knowledge, pictures, number))
    context.show(record_json(record), text(record_document(record)))
    return Exit.DONE
