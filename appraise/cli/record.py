"""`appraise record`: the record by which a piece could be known again."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from appraise.cli.context import Context
from appraise.cli.exits import Exit
from appraise.cli.options import Commands, command, with_day, with_json

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.log.entries import Entry
    from appraise.piece.records import Piece

SUFFIXES = (".yaml", ".yml")


def add(commands: Commands) -> None:
    """Add the command."""
    record = command(commands, "record", "what identifies a piece (Object ID), and what is missing")
    record.add_argument("piece", metavar="PIECE.yaml|ID", help="a piece file, or an entry's id")
    with_json(record)
    with_day(record)
    record.set_defaults(run=run_record)


def run_record(args: argparse.Namespace, context: Context) -> Exit:
    """Show the record of a piece file, or of an entry of the log with its pictures."""
    from appraise.report.object_id import Subject, object_id, record_json, record_text
    from appraise.verdict import judge

    knowledge = context.knowledge()
    piece, pictures, number = _subject(args.piece, context, knowledge)
    verdict = judge(piece, knowledge, None, context.as_of)
    record = object_id(Subject(verdict, knowledge, pictures, number))
    context.show(record_json(record), record_text(record))
    return Exit.DONE


def _subject(ref: str, context: Context, knowledge: Knowledge) -> tuple[Piece, int, str]:
    """The piece, how many pictures the log keeps of it, and its number there."""
    from appraise.cli.pieces import found
    from appraise.piece.files import parse_piece, read_piece

    if ref.endswith(SUFFIXES):
        return read_piece(found(Path(ref)), knowledge), 0, ""
    with context.log() as log:
        entry = log.entry(ref)
    if not entry.piece:
        return _plain(entry, knowledge), len(entry.pictures), entry.id
    name = f"the piece of entry {entry.id}"
    return parse_piece(entry.piece, name, knowledge), len(entry.pictures), entry.id


def _plain(entry: Entry, knowledge: Knowledge) -> Piece:
    """What an entry that was logged without a piece file tells of its piece."""
    from appraise.piece.records import Piece

    piece = Piece(
        title=entry.title,
        kind=entry.kind or "cased",
        subject=entry.subject,
        motif=entry.motif,
        named_format=entry.format if entry.format in knowledge.formats else "",
    )
    families = {name: one.family for name, one in knowledge.processes.items()}
    for check, word in (
        ("claim.process", families.get(entry.process, entry.process)),
        ("case.material", entry.housing),
    ):
        asked = knowledge.checks.get(check)
        if asked is not None and piece.kind in asked.kinds and asked.index(word) >= 0:
            piece = piece.with_finding(check, word)
    return piece
