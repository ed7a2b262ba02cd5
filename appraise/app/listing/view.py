"""The Listing screen: keys in, lines out; text and verdict come from workers."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from typing import ClassVar

from textual import events, on
from textual.binding import BindingType

from appraise.app import work
from appraise.app.actions import bindings_of
from appraise.app.examine.shown import Shown, names_in
from appraise.app.lines import Line
from appraise.app.listing import doors
from appraise.app.listing.job import TextRead, read_text
from appraise.app.listing.layout import Sizes, screen, sizes_for
from appraise.app.listing.review import Review
from appraise.app.listing.sidessheet import Sides
from appraise.app.listing.text import cleaned, kept_line
from appraise.app.messages import Judged, Ready
from appraise.app.sheet import Sheet
from appraise.base.errors import AppraiseError
from appraise.records.piece import Piece


class ListingScreen(Sheet[None], inherit_bindings=False):
    """One listing: the seller's text, what it comes to, and the verdict."""

    AREA = "listing"
    BINDINGS: ClassVar[list[BindingType]] = bindings_of("listing")

    def __init__(self, review: Review) -> None:
        super().__init__()
        self.review = review
        self.opened: dict[int, tuple[str, Piece]] = {}
        self._top = (0, 0)
        self._verdict = self._sized = False
        self._names = names_in(review.knowledge)

    @property
    def exam(self) -> Review:
        """What holds the piece, for the pages that change it."""
        return self.review

    def draw(self, width: int, height: int) -> Sequence[Line]:
        """The whole screen."""
        session = self.session
        titles = session.learnt.titles if session.learnt else {}
        parts = tuple(self.review.knowledge.parts)
        money, learnt = not session.discreet, session.learnt is not None
        shown = Shown(session.marks, parts, money, learnt, titles, self._names)
        return screen(self.review, shown, self._top, self._verdict, width, height)

    def on_mount(self) -> None:
        """Keep the text, and have it read."""
        work.learn_prices(self.app, self.session)
        self._keep()
        self._read()

    def on_resize(self, event: events.Resize) -> None:
        """The lines of the text are others now; at the first size the text stands at its top."""
        if self._sized:
            self.call_after_refresh(self.follow)
        self._sized = True

    def on_paste(self, event: events.Paste) -> None:
        """More of the listing: it is added to the text."""
        event.stop()
        more = cleaned(event.text)
        if more:
            self.take_text(f"{self.review.text}\n{more}")
            self.say("Added to the text. u: undo.")

    def take_text(self, text: str) -> None:
        """Let another text stand."""
        if self.review.take_text(cleaned(text)):
            self._top = (0, 0)
            self._keep()
            self.redraw()
            self._read()

    def _read(self) -> None:
        review = self.review
        read_text(self, self.session, review.text, review.turn, review.unknown)

    @on(TextRead)
    def text_read(self, message: TextRead) -> None:
        """Show what was read; of an earlier text it is dropped."""
        message.stop()
        if self.review.read(message.turn, message.listing, message.marked, message.before):
            self.changed()
            if self.review.offers:
                self.say(f"{self.review.offers[0].upper()}{self.review.offers[1:]}.")

    @on(Judged)
    def judged(self, message: Judged) -> None:
        """Show a verdict; one of an earlier state of the piece is dropped."""
        message.stop()
        if self.review.judged(message.turn, message.verdict, message.aside):
            self.redraw()

    @on(Ready)
    def ready(self, message: Ready) -> None:
        """Prices have come: judge again."""
        self._judge()

    def changed(self) -> None:
        """Keep the listing as it stands, show it, and have it judged."""
        self._keep()
        self.redraw()
        self._judge()

    def _keep(self) -> None:
        from appraise.records.piece_file import write_piece  # 10 ms, first time

        review = self.review
        text = write_piece(review.piece) + kept_line(review.text, review.basis)
        self.attempt(lambda: self.session.log.save_draft(review.draft, text))

    def _judge(self) -> None:
        review = self.review
        if not review.reading and not review.unrelated:
            work.judge(self, self.session, review.subject, review.judging)

    def _sizes(self) -> Sizes:
        return sizes_for(self.size.width, self.size.height - 1, self._verdict)

    def follow(self) -> None:
        """Bring the place that one is at into sight, if it is not."""
        review, marks = self.review, self.session.marks
        sizes = self._sizes()
        if review.place >= 0 and sizes.text_rows:
            wide = max(1, sizes.text - 2)
            place = review.marked.places[review.place]
            at = review.marked.position(place.start, wide, marks)
            if not review.marked.shows(self._top, sizes.text_rows, wide, at, marks):
                top = review.marked.moved(at, -(sizes.text_rows // 3), wide, marks)
                self._top = review.marked.filled(top, sizes.text_rows, wide, marks)
        self.redraw()

    # Moving

    def _moved(self, judging: int) -> None:
        doors.waits(self)
        self.follow()
        if self.review.judging != judging:
            self._judge()

    def on_mouse_scroll_down(self) -> None:
        """The wheel goes through the list."""
        self.action_step(1)

    def on_mouse_scroll_up(self) -> None:
        """The wheel goes through the list."""
        self.action_step(-1)

    def action_step(self, by: int) -> None:
        """Another line of the list; the text follows."""
        judging = self.review.judging
        self.review.step(by)
        self._moved(judging)

    def action_section(self, by: int) -> None:
        """Another section of the list."""
        judging = self.review.judging
        self.review.section(by)
        self._moved(judging)

    def action_along(self, by: int) -> None:
        """Another place of the text; the list follows."""
        self.review.along(by)
        doors.waits(self)
        self.follow()

    def action_leap(self, by: int) -> None:
        """Another page of the text; the list follows to the first place in sight."""
        review, marks = self.review, self.session.marks
        sizes = self._sizes()
        if not sizes.text_rows:
            return
        wide = max(1, sizes.text - 2)
        top = review.marked.moved(self._top, by * (sizes.text_rows - 1), wide, marks)
        self._top = review.marked.filled(top, sizes.text_rows, wide, marks)
        first = review.marked.start_of(self._top, wide, marks)
        place = bisect_left(review.marked.places, first, key=lambda one: one.start)
        if place < len(review.marked.places):
            at = review.marked.position(review.marked.places[place].start, wide, marks)
            if review.marked.shows(self._top, sizes.text_rows, wide, at, marks):
                review.go_place(place)
        self.redraw()

    # Answering from the pictures

    def action_answer(self, number: int) -> None:
        """What the pictures show, by number."""
        self._seen(self.review.answer(number))

    def action_confirm(self) -> None:
        """The photos confirm it; once more, only the seller says so."""
        self._seen(self.review.confirm())

    def _seen(self, done: bool) -> None:
        if done:
            self.changed()
        elif not doors.waits(self) and not self.review.checked:
            self.say(doors.PIECEWISE if self.review.lot else doors.UNCHECKED)

    def action_sides(self) -> None:
        """Which sides the pictures show."""
        if doors.waits(self):
            return

        def keep(piece: Piece) -> None:
            if self.review.change(piece):
                self.changed()

        self.app.push_screen(Sides(self.review.piece, keep))

    def action_undo(self) -> None:
        """Undo the last change."""
        self._went(self.review.undo(), "Nothing to undo since you opened this piece.")

    def action_redo(self) -> None:
        """Redo."""
        self._went(self.review.redo(), "Nothing to redo.")

    def _went(self, done: bool, otherwise: str) -> None:
        if not done:
            self.say(otherwise)
            return
        self.changed()
        if not self.review.items:
            self._top = (0, 0)
            self._read()

    # Doors

    def action_verdict(self) -> None:
        """The verdict in place of the text, and back."""
        self._verdict = not self._verdict
        self.follow()

    def action_open(self, door: str) -> None:
        """Why, the bid, details, all answers, the questions, the text, or dropping it all."""
        doors.DOORS[door](self)

    def action_examine(self) -> None:
        """The piece, in Examine."""
        if doors.waits(self):
            return
        if self.review.unrelated:
            self.say("There is no piece to examine.")
            return
        try:
            doors.examine(self)
        except AppraiseError as error:
            self.say(str(error), "warn")
