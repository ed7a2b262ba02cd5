"""What fits, asked from a screen: the log is read here, the comparing is a worker's."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from appraise.app.bench.pages import FitsPage
from appraise.base.errors import AppraiseError
from appraise.collection.fits import PLATE, Fit, loose, parts_for, plates_for
from appraise.collection.sameyears import plate_piece
from appraise.records.part import Part
from appraise.records.piece import Piece
from appraise.records.stored import Stored
from appraise.store.bench import plates_in
from appraise.store.records import held

if TYPE_CHECKING:
    from appraise.app.sheet import Sheet
    from appraise.knowledge.records import Knowledge

NO_PARTS = "No parts in stock. To add one: i on the desk, then n."
NO_PLATES = (
    "No loose plates: none on the table, none in stock, and no purchase of the kind loose-plate "
    "in the log."
)


def fits_piece(sheet: Sheet[Any], piece: Piece, knowledge: Knowledge) -> None:
    """A page with what in stock goes with a piece under examination."""
    stock = sheet.tried(lambda: held(sheet.session.log, Part))
    if stock is None:
        return
    parts = [(one.id, one.thing) for one in stock]

    def seek() -> Sequence[Fit]:
        return parts_for(loose(piece, knowledge), parts, knowledge)

    title = f"What fits: {piece.title or 'untitled piece'}"
    sheet.open(FitsPage(title, seek, plates=False, empty=NO_PARTS))


def fits_part(sheet: Sheet[Any], part: Stored[Part], knowledge: Knowledge) -> None:
    """A page with the loose plates that a part in stock goes with, those on the table included.

    For a plate in stock it is the other way round: the parts that go with it.
    """
    if part.thing.part == PLATE:
        fits_piece(sheet, plate_piece(part.thing, knowledge), knowledge)
        return
    pieces = sheet.tried(
        lambda: [*_on_the_table(sheet, knowledge), *plates_in(sheet.session.log, knowledge)]
    )
    if pieces is None:
        return

    def seek() -> Sequence[Fit]:
        plates = [loose(piece, knowledge, name) for name, piece in pieces]
        return plates_for(part.thing, part.id, plates, knowledge)

    title = f"What fits: {part.thing.title}"
    sheet.open(FitsPage(title, seek, plates=True, empty=NO_PLATES))


def _on_the_table(sheet: Sheet[Any], knowledge: Knowledge) -> list[tuple[str, Piece]]:
    """Loose plates under examination; a draft that cannot be read is left out."""
    from appraise.records.piece_file import parse_piece  # 10 ms

    found = []
    for draft in sheet.session.log.drafts():
        try:
            piece = parse_piece(draft.text, "the draft", knowledge)
        except AppraiseError:
            continue
        if piece.kind == "loose-plate":
            found.append(("", piece))
    return found
