"""What fits what: the log is read for the screen that asks, a worker compares, a page tells it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from appraise.app.lines import EMPTY, Line, fold, line
from appraise.app.marks import WARN
from appraise.app.page import FoundPage
from appraise.app.sheet import Sheet
from appraise.base.errors import AppraiseError
from appraise.collection.fits import PLATE, Fit, loose, parts_for, plates_for
from appraise.collection.sameyears import plate_piece
from appraise.knowledge.records import Knowledge
from appraise.records.part import Part
from appraise.records.piece import Piece
from appraise.records.stored import Stored
from appraise.store.bench import plates_in
from appraise.store.records import held

SHOWN = 20  # of what fits

Found = tuple[Sequence[Fit], Sequence[str]]
"""What fits, the best first, and what has to be said with it."""


def _page(
    sheet: Sheet[Any],
    title: str,
    seek: Callable[[], Sequence[Fit]],
    told: Callable[[Fit], str],
    empty: str,
) -> None:
    """A page with what fits; some milliseconds for each part or plate."""

    def job(knowledge: Knowledge) -> Found:
        from appraise.collection.fits import conduct  # 10 ms

        return seek(), conduct(knowledge)

    def write(found: Found | None, width: int) -> list[Line]:
        if found is None:
            return [line(("comparing ...", "quiet"))]
        out = [
            row for one in found[0][:SHOWN] for row in (*_fit_lines(one, told(one), width), EMPTY)
        ]
        out = out or [*fold(empty, width), EMPTY]
        for text in found[1]:
            out += fold(text, width, f"{WARN} ", lead_role="warn")
        return out

    sheet.open(FoundPage(f"What fits: {title}", job, write))


def _fit_lines(fit: Fit, title: str, width: int) -> list[Line]:
    """One fit: what it is, then size and years in words."""
    from appraise.documents.fits import size_says, years_say

    out = fold(title, width, role="strong")
    for name, says in (("size", size_says(fit.size)), ("years", years_say(fit))):
        out += fold(says, width, f"  {name:<6} ", lead_role="quiet")
    return out


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

    _page(sheet, piece.title or "untitled piece", seek, lambda fit: fit.part.title, NO_PARTS)


def fits_part(sheet: Sheet[Any], part: Stored[Part]) -> None:
    """A page with the loose plates that a part in stock goes with, those on the table included.

    For a plate in stock it is the other way round: the parts that go with it.
    """
    knowledge = sheet.session.trade()
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

    _page(sheet, part.thing.title, seek, lambda fit: fit.plate, NO_PLATES)


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
