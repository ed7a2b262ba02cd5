"""From a piece to the report for one reader, who never sees more than is meant for them."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from appraise.documents.document import Document
from appraise.documents.reports.readers import READERS, report
from appraise.documents.reports.redaction import entry_for, kept_for, piece_for, work_for
from appraise.documents.reports.report_input import ReportInput
from appraise.knowledge.records import Knowledge
from appraise.records.piece import Piece
from appraise.store.piece_record import PieceRecord
from appraise.verdict import Verdict, next_steps

Judge = Callable[[Piece, bool], Verdict]
"""Judges a piece; True: by the user's prices, False: without any."""


def report_for(
    reader: str,
    meant: PieceRecord,
    knowledge: Knowledge,
    judge: Judge,
    titles: Mapping[str, str],
    log: str,
) -> Document:
    """One piece told to one reader.

    What the reader must not see is taken away before the piece is judged.

    `titles`: what the entries of the log are called, by id.
    """
    told, sees = READERS[reader], READERS[reader].sees
    verdict = judge(piece_for(meant.piece, sees), "estimate" in sees)
    matter = ReportInput(
        verdict=verdict,
        knowledge=knowledge,
        entry=entry_for(meant.entry, sees),
        kept=kept_for(meant.kept, sees),
        works=tuple(work_for(one, sees) for one in meant.works),
        photos=meant.photos,
        steps=next_steps(verdict, knowledge) if told.looks_on else None,
        titles=titles,
        log=log if "people" in sees else "",
        priced="estimate" in sees,
    )
    return report(matter, reader)
