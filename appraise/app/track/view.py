"""The Track record screen: read from the log by a worker, shown as a page."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.binding import BindingType

from appraise.app import work
from appraise.app.actions import bindings_of
from appraise.app.messages import Tracked
from appraise.app.page import Page
from appraise.app.track.tracklines import track_page
from appraise.documents.track import Track


class TrackRecord(Page, inherit_bindings=False):
    """How good estimates and beliefs have been."""

    AREA = "track"
    BINDINGS: ClassVar[list[BindingType]] = bindings_of("track")

    def __init__(self) -> None:
        super().__init__(
            "Track record", lambda width: track_page(self._track, width, self.session.marks)
        )
        self._track: Track | None = None

    def on_mount(self) -> None:
        """Have the log read."""
        work.read_track(self, self.session)

    @on(Tracked)
    def tracked(self, message: Tracked) -> None:
        """Show the record."""
        message.stop()
        self._track = message.track
        self.hush()
        self.redraw()

    def action_again(self) -> None:
        """Play the log again, or go back to what was stored."""
        again = self._track is not None and not self._track.replayed
        self.say("The log is being read ...")
        work.read_track(self, self.session, again)
