"""A piece told to a reader, from a screen: the reader is chosen, and a file written."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from appraise.app.picker import Choice, Picker
from appraise.app.work import Step, start_long
from appraise.base.places import shortened

if TYPE_CHECKING:
    from appraise.app.session import Session
    from appraise.app.sheet import Sheet
    from appraise.documents.document import Document
    from appraise.records.piece import Piece
    from appraise.records.stored import Stored
    from appraise.store.piece_record import PieceRecord
    from appraise.verdict import Verdict

MYSELF = "myself"


def tell(sheet: Sheet[Any], meant: PieceRecord) -> None:
    """Ask for whom, and have the report written.

    Of an entry of the log there is none for oneself: what it was bought for is no price to buy
    it by.
    """
    from appraise.documents.reports.readers import READERS  # 5 ms

    session = sheet.session

    def chosen(reader: str) -> None:
        def write(step: Step) -> tuple[Path, str]:
            with session.bench, session.saving():
                return written(session, reader, meant, step)

        start_long(sheet, "report", "Report", write, lambda found: _told(sheet, *found))

    choices = [
        Choice(name, f"{name}: {one.says}")
        for name, one in READERS.items()
        if meant.entry is None or name != MYSELF
    ]
    sheet.open(Picker("Who is the report for?", choices), chosen)


def _told(sheet: Sheet[Any], path: Path, text: str) -> None:
    """Say where a report lies; the text of one for everybody is on the clipboard too."""
    if text:
        sheet.app.copy_to_clipboard(text)
    sheet.say(f"Written{', and copied as text' if text else ''}: {shortened(path)}", "good")


def tell_piece(sheet: Sheet[Any], piece: Piece) -> None:
    """The same for a piece that is being examined."""
    from appraise.store.piece_record import PieceRecord, files_of

    photos = files_of(sheet.session.log.path, piece.pictures)
    tell(sheet, PieceRecord(piece, photos=photos))


def tell_record(sheet: Sheet[Any], one: Stored[Any]) -> None:
    """The same for an entry of the log, or a piece that one owns."""
    from appraise.store.piece_record import piece_record

    session = sheet.session
    found = sheet.tried(lambda: piece_record(session.log, one.id, session.trade()))
    if found is not None:
        tell(sheet, found)


def written(
    session: Session,
    reader: str,
    meant: PieceRecord,
    step: Step = lambda done, of: None,
) -> tuple[Path, str]:
    """Write a report into the user's folder of reports; 50 to 400 ms, so workers call it.

    Returns:
        The file, and the text for the clipboard, which only a report for everybody has.

    Raises:
        InputError: when it cannot be written.
    """
    from appraise.documents.reports.files import keep
    from appraise.documents.writers.lines import text

    step(0, 2)
    told = document(session, reader, meant)
    step(1, 2)
    path = keep(told, session.home.reports)
    return path, text(told) if reader == "public" else ""


def document(session: Session, reader: str, meant: PieceRecord) -> Document:
    """The report for a reader."""
    from appraise.documents.reports.report import report_for
    from appraise.verdict import judge

    knowledge = session.trade()

    def judged(one: Piece, priced: bool) -> Verdict:
        if priced:
            return session.judge(one, meant.own)
        return judge(one, knowledge, None, session.as_of, session.settings)

    titles = session.learnt.titles if session.learnt else {}
    return report_for(reader, meant, knowledge, judged, titles, str(session.home.log))
