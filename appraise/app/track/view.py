"""The Track record screen: read from the log by a worker, shown as a page."""

from __future__ import annotations

from appraise.app.lines import Line, fold
from appraise.app.page import Page, document_rows
from appraise.app.work import start_long
from appraise.documents.track import Track, track_document


class TrackRecord(Page):
    """How good estimates and beliefs have been."""

    AREA = "track"
    PRIVATE = False  # its figures are counts and shares

    def __init__(self) -> None:
        super().__init__("Track record", self.lines)
        self._track: Track | None = None

    def lines(self, width: int) -> list[Line]:
        if self._track is None:
            return fold("The log is being read ...", width, role="quiet")
        return document_rows(track_document(self._track), width, self.session.marks)

    def on_mount(self) -> None:
        self._read(again=False)

    def _read(self, again: bool) -> None:
        """Score the log: a second for a thousand entries; `again`, prices estimated anew, some."""
        session = self.session
        session.read_book()
        start_long(self, "track", "Back-test", lambda step: session.track(again, step), self.scored)

    def scored(self, track: Track) -> None:
        self._track = track
        self.hush()
        self.redraw()

    def action_again(self) -> None:
        self.say("The log is being read ...")
        self._read(again=self._track is not None and not self._track.replayed)
