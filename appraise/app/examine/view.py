"""The Examine screen: keys in, lines out; the verdict comes from a worker after each answer."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from typing import ClassVar, Protocol, cast

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.message import Message
from textual.widgets import Input

from appraise.app import photos, reports, work
from appraise.app.actions import actions_of
from appraise.app.examine import doors, screen
from appraise.app.examine.figure import draw_ahead
from appraise.app.examine.found import beside
from appraise.app.examine.parts import rail_lines
from appraise.app.examine.rooms import Rooms, rooms_for
from appraise.app.examine.sight import PieceScreen
from appraise.app.examine.state import NUMBERED, Examination
from appraise.app.lines import Line
from appraise.app.pane import Foot, Pane
from appraise.app.photos import Album, Pictures
from appraise.app.widgets.drawn import Told
from appraise.app.widgets.reading import Tall
from appraise.knowledge.records import Knowledge
from appraise.records.piece import Piece
from appraise.verdict import NextSteps, Verdict

PATIENCE = 1.5  # seconds after which a question is asked although a better one may be found
TYPE = "type to narrow the answers; enter takes the first, esc ends"


NOT_YET = ("", "", False)
ASKS = ("rail", "ask", "more", "strip")
"""The panes that tell of the question one is at."""


class Keyboard(Protocol):
    """The app, as far as it knows when keys were pressed."""

    pressed: float


class Narrow(Input):
    """The line in which one types to narrow the answers; digits still answer."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(key, f"screen.{one.do.format(key=key)}", priority=True)
        for one in actions_of("piece")
        for key in one.keys.split()
        if key.isdigit()
    ]


class Examine(PieceScreen):
    """One piece: a question on the left, what it all means on the right."""

    AREA = "piece"

    def __init__(self, piece: Piece, knowledge: Knowledge, draft: str) -> None:
        super().__init__(knowledge)
        self._exam = Examination(piece, knowledge, draft)
        self._drawn = self._seen = NOT_YET
        self._seen_at = 0.0
        self.own: frozenset[str] = frozenset()
        self._claimed: tuple[Pictures, str] = ((), "")
        self._unsaved = False

    def compose(self) -> ComposeResult:
        """Head and band; rail, question, verdict and more side by side; strip and keys."""
        yield Pane(self.drawn(screen.head), id="head")
        yield Pane(self.drawn(screen.answer), id="band")
        with Horizontal(id="panes"):
            yield Pane(self.drawn(rail_lines), id="rail")
            yield Tall(self._ask, id="ask")
            yield Tall(self.drawn(screen.right), id="panel")
            yield Tall(self.drawn(beside), id="more")
        yield Pane(self.drawn(screen.foot), id="strip")
        yield Narrow(placeholder=TYPE, classes="away", disabled=True)
        yield Foot(self.AREA)

    @property
    def rooms(self) -> Rooms:
        return rooms_for(*self.size)

    @property
    def apart(self) -> bool:
        return bool(self.rooms.more)

    def on_resize(self) -> None:
        rooms = self.rooms
        self.share_out(rail=rooms.rail, panel=rooms.panel, more=rooms.more)
        self.query_one("#strip").set_class(not rooms.strip, "away")

    @property
    def exam(self) -> Examination:
        return self._exam

    def photos(self, width: int, rows: int) -> Sequence[Line]:
        return photos.thumbnails(self.session, self.album, width, rows)

    @property
    def album(self) -> Album:
        def save(pictures: Pictures) -> None:
            self.exam.change(replace(self.exam.piece, pictures=pictures))

        return Album(self.exam.piece.pictures, save, *self._claimed)

    def _ask(self, width: int, height: int) -> Sequence[Line]:
        """The question; once it is painted it can be answered."""
        if self._drawn != self._question:
            self._drawn = self._question
            self.call_after_refresh(self._painted, self._drawn)
        return screen.left(self.exam, self.shown(), self.rooms, width, height)

    def moved(self) -> None:
        """Draw anew what another question changes; the verdict stays as it stands."""
        for name in ASKS:
            self.query_one(f"#{name}", Told).renew()

    @property
    def _question(self) -> tuple[str, str, bool]:
        """What decides which answer a digit stands for."""
        return self.exam.at, self.exam.typed, self.exam.asked

    def _painted(self, question: tuple[str, str, bool]) -> None:
        self._seen, self._seen_at = question, Message().time

    def _legible(self) -> bool:
        """Whether what is asked stood on the screen when the key was pressed."""
        pressed = cast(Keyboard, self.app).pressed
        return self._seen == self._question and self._seen_at <= pressed

    def on_mount(self) -> None:
        """Judge the piece as it comes; where a seller looks on, hide amounts."""
        self.session.meet(self.exam.draft, self.exam.piece.channel)
        self.learn_prices()
        self._judge()

    def judged(self, turn: int, verdict: Verdict, aside: str) -> None:
        """Show a verdict; once it is painted, have worked out what to look at next."""
        if self.exam.judged(turn, verdict, aside):
            self.redraw()
            self.call_after_refresh(self._plan, verdict, turn)

    def _plan(self, verdict: Verdict, turn: int) -> None:
        def job(knowledge: Knowledge) -> NextSteps:
            from appraise.verdict import next_steps  # 50 to 200 ms

            return next_steps(verdict, knowledge)

        work.compute(self, "plan", job, partial(self.planned, turn))

    def planned(self, turn: int, steps: NextSteps) -> None:
        """Offer what tells most; a plan of an earlier state of the piece is dropped."""
        if self.exam.planned(turn, steps):
            self.moved()
            work.start(self, "drawings", partial(draw_ahead, self.exam.checks, self.session.marks))

    def ready(self) -> None:
        self._judge()

    def action_answer(self, number: int) -> None:
        if self._legible() and self.exam.answer(number):
            self._end_narrowing()
            self.changed()

    def action_untold(self) -> None:
        if self._legible() and self.exam.untold():
            self.changed()

    def action_again(self) -> None:
        if self.exam.back():
            self.moved()
        else:
            self.say("There is no earlier answer.")

    def action_step(self, by: int) -> None:
        self.exam.step(by)
        self.moved()

    def action_part(self, by: int) -> None:
        self.exam.step_part(by)
        self.moved()

    def action_point(self, by: int) -> None:
        self.exam.pointed += by
        self.moved()

    def action_go_to_part(self, part: str) -> None:
        self.exam.go_to_part(part)
        self.moved()

    def action_go_to_check(self, check: str) -> None:
        self.exam.go(check)
        self.moved()

    def action_scroll(self, by: int) -> None:
        asked = self.query_one("#ask", Tall)
        asked.scroll_relative(y=by * max(1, asked.size.height - 1), animate=False)

    def action_suggested(self) -> None:
        self.exam.go_best()
        self.moved()

    def action_known(self) -> None:
        self.exam.turn_known()
        self.redraw()

    def action_narrow(self) -> None:
        if not self.exam.asked or len(self.exam.check.answers) <= NUMBERED:
            return
        typed = self.query_one(Narrow)
        typed.disabled = False
        typed.remove_class("away")
        self.query_one(Foot).add_class("away")
        typed.focus()

    @on(Input.Changed)
    def narrowed(self, event: Input.Changed) -> None:
        self.exam.typed = event.value
        self.moved()

    @on(Input.Submitted)
    def take_first(self, event: Input.Submitted) -> None:
        self.action_answer(1)

    def _end_narrowing(self) -> None:
        typed = self.query_one(Narrow)
        typed.value = self.exam.typed = ""
        typed.disabled = True
        typed.add_class("away")
        self.query_one(Foot).remove_class("away")
        self.set_focus(None)

    def action_open(self, door: str) -> None:
        self.save()
        doors.DOORS[door](self)

    def action_report(self) -> None:
        reports.tell_piece(self, self.exam.piece)

    def action_fits(self) -> None:
        from appraise.app.bench.fits import fits_piece  # 10 ms

        fits_piece(self, self.exam.piece, self.exam.knowledge)

    def action_photo(self) -> None:
        photos.ask(self, self.album, self.changed)

    def action_open_photo(self) -> None:
        photos.open_one(self, self.album)

    def on_paste(self, event: events.Paste) -> None:
        """A photo that is dropped here is one of the piece."""
        photos.drop_on(self, self.album, event.text, self.changed)

    def action_close(self) -> None:
        self.save()
        if self.query_one(Narrow).disabled:
            self.dismiss(None)
        else:
            self._end_narrowing()
            self.moved()

    def changed(self) -> None:
        """Show the piece as it stands; as soon as it is painted it is saved, then judged."""
        self._unsaved = True
        self.query_one("#head", Told).renew()
        self.moved()
        self.call_after_refresh(self._painted_anew)

    def _painted_anew(self) -> None:
        self.save()
        self._judge()

    def save(self) -> None:
        """Save the piece, if what was done to it last is not saved yet."""
        if self._unsaved:
            self._unsaved = False
            self.attempt(lambda: self.session.keep(self.exam.draft, self.exam.piece))

    def on_screen_suspend(self) -> None:
        """Another screen comes over it, or it is left."""
        self.save()

    def on_unmount(self) -> None:
        self.save()

    def _judge(self) -> None:
        self.judge(self.exam.piece, self.exam.turn, self.own)
        if not self.exam.asked:
            self.set_timer(PATIENCE, partial(self._waited, self.exam.turn))

    def _waited(self, turn: int) -> None:
        """The next question took long to choose: ask what seems best by what is known."""
        if self.exam.waited(turn):
            self.moved()
