"""From a piece to the report for one reader, who never sees more than is meant for them."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from appraise.knowledge.records import Knowledge
from appraise.log.entries import Entry
from appraise.piece.records import Piece
from appraise.report.reader.document import Document
from appraise.report.reader.matter import Matter, entry_for, piece_for
from appraise.report.reader.readers import READERS, report
from appraise.verdict import Verdict, next_steps

Judge = Callable[[Piece, bool], Verdict]
"""Judges a piece; True: by the user's prices, False: without any."""


def told_to(
    reader: str,
    piece: Piece,
    entry: Entry | None,
    knowledge: Knowledge,
    judge: Judge,
    titles: Mapping[str, str],
    kept_at: str = "",
) -> Document:
    """One piece told to one reader.

    What the reader must not see is taken away before the piece is judged.

    Args:
        reader: A key of `READERS`.
        piece: The piece.
        entry: Its entry of the log, or None.
        knowledge: What the trade knows.
        judge: How it is judged.
        titles: What the entries of the log are called, by id.
        kept_at: Where the log lies, in words.
    """
    meant = READERS[reader]
    verdict = judge(piece_for(piece, meant.sees), "estimate" in meant.sees)
    steps = next_steps(verdict, knowledge) if meant.looks_on else None
    seen = entry_for(entry, meant.sees)
    return report(Matter(verdict, knowledge, seen, steps, titles, kept_at), reader)
