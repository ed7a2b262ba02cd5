"""The Track record screen: read from the log by a worker, shown as a page."""

from __future__ import annotations

from textual import on

from appraise.app import work
from appraise.app.lines import Line, fold
from appraise.app.messages import Tracked
from appraise.app.page import Page, document_rows
from appraise.documents.track import Track, track_document


class TrackRecord(Page):
    """How good estimates and beliefs have been."""

    AREA = "track"
    PRIVATE = False  # its figures are counts and shares

    def __init__(self) -> None:
        super().__init__("Track record", self.lines)
        self._track: Track | None = None

    def lines(self, width: int) -> list[Line]:
        """The page; while the log is being read it says so."""
        if self._track is None:
            return fold("The log is being read ...", width, role="quiet")
        return document_rows(track_document(self._track), width, self.session.marks)

    def on_mount(self) -> None:
        work.read_track(self, self.session)

    @on(Tracked)
    def tracked(self, message: Tracked) -> None:
        message.stop()
        self._track = message.track
        self.hush()
        self.redraw()

    def action_again(self) -> None:
        again = self._track is not None and not self._track.replayed
        self.say("The log is being read ...")
        work.read_track(self, self.session, again)
