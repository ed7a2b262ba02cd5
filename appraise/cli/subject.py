"""What a command is about: a piece file, or an entry of the log by its id."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from appraise.cli.context import Context

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.log.entries import Entry
    from appraise.piece.records import Piece

METAVAR = "PIECE.yaml|ID"
SUFFIXES = (".yaml", ".yml")


@dataclass(frozen=True, slots=True)
class Named:
    """A piece that the command line names, and the entry of the log that it stands in, if any."""

    piece: Piece
    entry: Entry | None = None


def named(ref: str, context: Context, knowledge: Knowledge) -> Named:
    """The piece that is meant: by the name of a file, else by an entry's id.

    Raises:
        InputError: when there is no such file or entry, or it cannot be read.
    """
    from appraise.cli.pieces import found
    from appraise.log.pieces import piece_of
    from appraise.piece.files import read_piece

    if ref.endswith(SUFFIXES):
        return Named(read_piece(found(Path(ref)), knowledge))
    with context.log() as log:
        entry = log.entry(ref)
    return Named(piece_of(entry, knowledge), entry)
