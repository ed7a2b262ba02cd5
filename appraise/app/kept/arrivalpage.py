"""The page of an arrival: what came against what was claimed."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Any

from textual import events

from appraise.app.kept.album import owned_album
from appraise.app.lines import Line
from appraise.app.page import Page, document_rows
from appraise.app.photos import drop_on, with_photos
from appraise.app.record_actions import edit
from appraise.app.sheet import Sheet
from appraise.documents.arrival import Parcel, arrival_document, letter
from appraise.records.owned import GONE, OwnedPiece
from appraise.records.stored import Stored
from appraise.store.owned_pieces import store
from appraise.store.records import held


def open_arrival(sheet: Sheet[Any], one: Stored[OwnedPiece]) -> None:
    """The arrival of a piece against what was claimed of it."""
    parcel = parcel_on(sheet, one)
    if parcel is not None:
        sheet.open(ArrivalPage(one, parcel))


def parcel_on(sheet: Sheet[Any], one: Stored[OwnedPiece]) -> Parcel | None:
    """The comparison as it stands; None, with a word on the screen, where there is none."""
    session = sheet.session
    from appraise.store.owned_pieces import parcel_of  # 40 ms with the reading

    def compare() -> Parcel:
        entry, arrival = parcel_of(session.log, one.thing, session.trade())
        return Parcel(one.id, one.thing, entry, arrival, session.as_of, session.settings.region)

    return sheet.tried(compare)


class ArrivalPage(Page):
    """What came against what was claimed, and the page to send where it is not as described."""

    AREA = "arrival"

    def __init__(self, one: Stored[OwnedPiece], parcel: Parcel) -> None:
        super().__init__(f"Arrival: {one.thing.title}", self.lines)
        self.held = one
        self._parcel = parcel

    def lines(self, width: int) -> Sequence[Line]:
        document = arrival_document(self._parcel, self.session.trade())
        album = owned_album(self.session, self.held, self._parcel.entry)
        session = self.session
        write = partial(document_rows, document, marks=session.marks)
        return with_photos(session, album, width, self.size.height, write)

    def on_paste(self, event: events.Paste) -> None:
        """A photo that is dropped here shows it in hand."""
        album = owned_album(self.session, self.held, self._parcel.entry)
        drop_on(self, album, event.text, self.read)

    def read(self) -> None:
        found = [one for one in held(self.session.log, OwnedPiece) if one.id == self.held.id]
        parcel = parcel_on(self, found[0]) if found else None
        if parcel is not None:
            self.held, self._parcel = found[0], parcel
        self.redraw()

    def action_copy(self) -> None:
        if not self._parcel.arrival.matters:
            self.say("Nothing important differs: no letter needed.")
            return
        self.app.copy_to_clipboard(letter(self._parcel, self.session.trade()))
        self.say("Letter copied. If the clipboard stays empty, select the text below.", "good")

    def action_examine(self) -> None:
        from appraise.app.kept.reexamine import look_at  # 40 ms with the reading

        look_at(self, self.held)

    def action_edit(self) -> None:
        edit(self, self.held)

    def action_returned(self) -> None:
        kept = self.held.thing
        if kept.status in GONE:
            self.say(f"It is {kept.status} already.")
            return

        def send() -> None:
            from appraise.collection.examinations import sent_back

            now = sent_back(kept, self.session.as_of, self._parcel.entry.venue)
            store(self.session.log, Stored(self.held.id, now), kept)

        def done() -> None:
            if self.attempt(send):
                self.read()
                self.say("Recorded as sent back. u on its page: undo.", "good")

        self.confirm("Record that it was sent back to the seller today?", done)
