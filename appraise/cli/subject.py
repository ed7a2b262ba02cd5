"""What a command is about: a piece file, or a piece of the log."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from appraise.cli.context import Context

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.store.piece_record import PieceRecord

SUFFIXES = (".yaml", ".yml")


def named(ref: str, context: Context, knowledge: Knowledge) -> PieceRecord:
    """The piece that is meant: by the name of a file, else as the log knows it.

    Raises:
        InputError: when there is no such file or record, or it cannot be read.
    """
    from appraise.cli.pieces import found
    from appraise.records.piece_file import read_piece
    from appraise.store.piece_record import PieceRecord, files_of, piece_record

    if ref.endswith(SUFFIXES):
        piece = read_piece(found(Path(ref)), knowledge)
        return PieceRecord(piece, photos=files_of(context.home.log, piece.pictures))
    with context.log() as log:
        return piece_record(log, ref, knowledge)
