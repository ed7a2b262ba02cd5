"""The Listing screen: keys in, lines out; text and verdict come from workers."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Mapping, Sequence
from types import MappingProxyType

from textual import events
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical

from appraise.app.examine.sight import PieceScreen
from appraise.app.lines import Line, line
from appraise.app.listing import doors, layout
from appraise.app.listing.items import amounts_in, places_of
from appraise.app.listing.marked import Marked
from appraise.app.listing.review import Review
from appraise.app.listing.sides import Sides
from appraise.app.listing.text import cleaned, kept_line, opened_line
from appraise.app.pane import Foot, Pane
from appraise.app.work import compute
from appraise.base.errors import AppraiseError
from appraise.knowledge.records import Knowledge
from appraise.listing.records import Listing
from appraise.records.piece import Piece
from appraise.verdict import Verdict

NONE_OPENED: Mapping[int, str] = MappingProxyType({})


TextRead = tuple["Listing", Marked, "Piece | None"]


def read_text(view: ListingScreen, text: str, turn: int, earlier: str) -> None:
    """Have a text read, the one of a turn; 10 ms for a usual one, 100 the first time.

    `earlier`: another text, of which only the piece is wanted; empty: none.
    """
    currency = view.session.settings.currency

    def job(knowledge: Knowledge) -> TextRead:
        from appraise.listing.reader import read  # 20 ms, first time

        listing = read(text, knowledge, currency)
        marked = Marked(text, places_of(listing), amounts_in(text, listing))
        return listing, marked, read(earlier, knowledge, currency).piece if earlier else None

    compute(view, "listing", job, lambda found: view.text_read(turn, *found))


class ListingScreen(PieceScreen):
    """One listing: the seller's text, what it comes to, and the verdict."""

    AREA = "listing"

    def __init__(self, review: Review, opened: Mapping[int, str] = NONE_OPENED) -> None:
        """`opened`: the drafts of the pieces that were opened from it before, by part."""
        super().__init__(review.knowledge)
        self.review = review
        self.opened: dict[int, tuple[str, Piece | None]] = {
            part: (draft, None) for part, draft in opened.items()
        }
        self._top = (0, 0)
        self._verdict = self._sized = False

    @property
    def exam(self) -> Review:
        """What holds the piece, for the pages that change it."""
        return self.review

    def compose(self) -> ComposeResult:
        """Head and band; the text, the list over what it says, the verdict; what is in passing."""
        yield Pane(self.drawn(layout.head), id="head")
        yield Pane(self.drawn(layout.answer), id="band")
        with Horizontal(id="panes"):
            yield Pane(self._text, id="text")
            with Vertical(id="said"):
                yield Pane(self.drawn(layout.listed), id="list")
                yield Pane(self.drawn(layout.said), id="detail")
            yield Pane(self.drawn(layout.told), id="panel")
        yield Pane(lambda width, _: [line((self.review.aside, "good"))], id="strip", classes="away")
        yield Foot(self.AREA)

    def _text(self, width: int, height: int) -> Sequence[Line]:
        review, marks = self.review, self.session.marks
        review.marked.hides = self.session.discreet
        return review.marked.window(self._top, height, width, review.place, marks)

    def _divide(self) -> None:
        sizes = layout.sizes_for(*self.size, self._verdict)
        self.share_out(text=sizes.text, said=sizes.list, panel=sizes.panel)
        self.query_one("#panes").styles.layout = "vertical" if sizes.above else "horizontal"
        self.query_one("#text").styles.height = sizes.above or "1fr"
        self.query_one("#detail").styles.height = sizes.below

    def redraw(self) -> None:
        """Draw everything anew; what is said in passing has a line where there is any."""
        self.query_one("#strip").set_class(not self.review.aside, "away")
        super().redraw()

    def on_mount(self) -> None:
        """Keep the text, and have it read."""
        self.learn_prices()
        self.keep()
        self._read()

    def on_resize(self, event: events.Resize) -> None:
        """The lines of the text are others now; at the first size the text stands at its top."""
        self._divide()
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
        if self.review.take_text(cleaned(text)):
            self._top = (0, 0)
            self.keep()
            self.redraw()
            self._read()

    def _read(self) -> None:
        review = self.review
        read_text(self, review.text, review.turn, review.unknown)

    def text_read(
        self, turn: int, listing: Listing, marked: Marked, before: Piece | None = None
    ) -> None:
        """Show what was read; of an earlier text it is dropped."""
        if self.review.read(turn, listing, marked, before):
            self.changed()
            if self.review.offers:
                self.say(f"{self.review.offers[0].upper()}{self.review.offers[1:]}.")

    def judged(self, turn: int, verdict: Verdict, aside: str) -> None:
        if self.review.judged(turn, verdict, aside):
            self.redraw()

    def ready(self) -> None:
        self._judge()

    def changed(self) -> None:
        """Keep the listing as it stands, show it, and have it judged."""
        self.keep()
        self.redraw()
        self._judge()

    def keep(self) -> None:
        from appraise.records.piece_file import write_piece  # 10 ms, first time

        review = self.review
        drafts = {part: draft for part, (draft, _) in self.opened.items()}
        text = write_piece(review.piece) + kept_line(review.text, review.basis)
        text += opened_line(drafts)
        self.attempt(lambda: self.session.log.save_draft(review.draft, text))

    def _judge(self) -> None:
        review = self.review
        if not review.reading and not review.unrelated:
            self.judge(review.subject, review.judging)

    def follow(self) -> None:
        """Bring the place that one is at into sight, if it is not."""
        review, marks = self.review, self.session.marks
        wide, rows = self.query_one("#text").size
        if review.place >= 0 and rows:
            place = review.marked.places[review.place]
            at = review.marked.position(place.start, wide, marks)
            if not review.marked.shows(self._top, rows, wide, at, marks):
                top = review.marked.moved(at, -(rows // 3), wide, marks)
                self._top = review.marked.filled(top, rows, wide, marks)
        self.redraw()

    # Moving

    def _go(self, move: Callable[[int], None], by: int) -> None:
        """Move; of another piece of a lot there is another verdict."""
        judging = self.review.judging
        move(by)
        doors.waits(self)
        self.follow()
        if self.review.judging != judging:
            self._judge()

    def on_mouse_scroll_down(self) -> None:
        self.action_step(1)

    def on_mouse_scroll_up(self) -> None:
        self.action_step(-1)

    def action_step(self, by: int) -> None:
        self._go(self.review.step, by)

    def action_section(self, by: int) -> None:
        self._go(self.review.section, by)

    def action_along(self, by: int) -> None:
        self._go(self.review.along, by)

    def action_leap(self, by: int) -> None:
        review, marks = self.review, self.session.marks
        wide, rows = self.query_one("#text").size
        if not rows:
            return
        top = review.marked.moved(self._top, by * (rows - 1), wide, marks)
        self._top = review.marked.filled(top, rows, wide, marks)
        first = review.marked.start_of(self._top, wide, marks)
        place = bisect_left(review.marked.places, first, key=lambda one: one.start)
        if place < len(review.marked.places):
            at = review.marked.position(review.marked.places[place].start, wide, marks)
            if review.marked.shows(self._top, rows, wide, at, marks):
                review.go_place(place)
        self.redraw()

    # Answering from the pictures

    def action_answer(self, number: int) -> None:
        self._seen(self.review.answer(number))

    def action_confirm(self) -> None:
        self._seen(self.review.confirm())

    def _seen(self, done: bool) -> None:
        if done:
            self.changed()
        elif not doors.waits(self) and not self.review.checked:
            self.say(doors.PIECEWISE if self.review.lot else doors.UNCHECKED)

    def action_sides(self) -> None:
        if doors.waits(self):
            return

        def keep(piece: Piece) -> None:
            if self.review.change(piece):
                self.changed()

        self.open(Sides(self.review.piece, keep))

    def _went(self, go: Callable[[], bool], otherwise: str) -> None:
        text = self.review.text
        super()._went(go, otherwise)
        if self.review.text != text:
            self._top = (0, 0)
            self._read()

    # Doors

    def action_verdict(self) -> None:
        self._verdict = not self._verdict
        self._divide()
        self.call_after_refresh(self.follow)

    def action_open(self, door: str) -> None:
        doors.DOORS[door](self)

    def action_examine(self) -> None:
        if doors.waits(self):
            return
        if self.review.unrelated:
            self.say("There is no piece to examine.")
            return
        try:
            doors.examine(self)
        except AppraiseError as error:
            self.say(str(error), "warn")
