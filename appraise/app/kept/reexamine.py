"""A kept piece looked at anew: the Examine screen, whose answers go to the kept piece."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from dataclasses import replace
from typing import Any

from appraise.app.examine.view import Examine
from appraise.app.kept.album import claimed_photos
from appraise.app.session import Session
from appraise.app.sheet import Sheet
from appraise.base.errors import InputError
from appraise.collection.examinations import arrived, examined, piece_in
from appraise.records.owned import OwnedPiece
from appraise.records.piece import IN_HAND, Piece
from appraise.records.piece_file import parse_piece
from appraise.records.stored import Stored
from appraise.store.drafts import Draft
from appraise.store.owned_pieces import store
from appraise.store.records import held

PREFIX = "kept "
"""How the names of drafts of kept pieces begin."""
KEPT_ALREADY = "You own this piece: q saves the answers to it."


class InHand(Examine):
    """The Examine screen for a piece that one owns: nothing is bought or passed here."""

    def __init__(self, piece: Piece, session: Session, kept: str) -> None:
        """`kept`: the id of the piece, which is not judged by its own entries of the log."""
        from appraise.store.piece_record import piece_record

        super().__init__(piece, session.trade(), f"{PREFIX}{kept}")
        with suppress(InputError):  # it has been removed meanwhile
            self.own = piece_record(session.log, kept, session.trade()).own
        self.exam.known = IN_HAND
        self._claimed = claimed_photos(session.log, kept)

    def action_open(self, door: str) -> None:
        if door in ("bought", "passed"):
            self.say(KEPT_ALREADY)
        else:
            super().action_open(door)


def look_at(sheet: Any, one: Stored[OwnedPiece]) -> None:
    """Ask question by question; the answers go to the piece when one comes back.

    `sheet`: the list, or a page of the piece, which is read anew then.
    """

    def open_screen() -> None:
        piece = afresh(piece_in(one.thing, sheet.session.trade()), one.thing.status)
        _open(sheet, one.id, piece, sheet.read)

    sheet.attempt(open_screen)


def resume(sheet: Sheet[Any], draft: Draft) -> None:
    """Go on with a look that was broken off.

    Raises:
        InputError: when the draft cannot be read.
    """
    piece = parse_piece(draft.text, "the draft", sheet.session.trade())
    _open(sheet, draft.id.removeprefix(PREFIX), piece, lambda: None)


def _open(sheet: Sheet[Any], kept: str, piece: Piece, then: Callable[[], object]) -> None:
    def back(_: None) -> None:
        took = sheet.tried(lambda: take_over(sheet.session, kept))
        if took is not None:
            then()
            if took:
                sheet.say("The answers are saved with the piece. u: undo.", "good")

    sheet.app.push_screen(InHand(piece, sheet.session, kept), back)


def afresh(piece: Piece, status: str) -> Piece:
    """The piece as it is asked again: of one that has just come, what was only claimed is asked."""
    if status != "ordered":
        return piece
    seen = {
        name: one
        for name, one in piece.findings.items()
        if one.known == IN_HAND or name.startswith("claim.")
    }
    return replace(piece, findings=seen, measured={})


def take_over(session: Session, kept: str) -> bool:
    """Bring the answers of its draft to a kept piece and drop the draft, both or neither.

    Returns:
        Whether there was anything to bring.

    Raises:
        InputError: when the piece is kept no more, or was changed meanwhile.
    """
    log, knowledge, draft = session.log, session.trade(), f"{PREFIX}{kept}"
    text = next((one.text for one in log.drafts() if one.id == draft), None)
    if text is None:
        return False
    was = next((one for one in held(log, OwnedPiece) if one.id == kept), None)
    if was is None:
        raise InputError("this piece has been removed", mend="d on its page discards the answers.")
    before, now = piece_in(was.thing, knowledge), parse_piece(text, "the draft", knowledge)
    whole = replace(
        now,
        findings={**before.findings, **now.findings},
        measured={**before.measured, **now.measured},
    )
    look = arrived if was.thing.status == "ordered" else examined
    with log.transaction():
        store(log, Stored(was.id, look(was.thing, whole, knowledge, session.as_of)), was.thing)
        log.drop_draft(draft)
    return True
