"""The base of every screen: a pane that a pure function draws, and the line of keys."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, ClassVar, Generic, Protocol, TypeVar, cast

from textual import events, on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.screen import ModalScreen, Screen

from appraise.app.actions import bindings_of
from appraise.app.lines import Line, clip, does, ends, fold_to, line
from appraise.app.marks import Marks
from appraise.app.pane import Foot, Pane
from appraise.app.session import READING, Session
from appraise.app.widgets.drawn import Told
from appraise.base.errors import AppraiseError

Result = TypeVar("Result")
Given = TypeVar("Given")
MOST_ASKED = 4  # lines of a question


class Host(Protocol):
    """The app, as far as a screen needs it."""

    session: Session

    def learn_prices(self) -> None:
        """Learn the log as it stands."""


class Sheet(Screen[Result], Generic[Result], inherit_bindings=False):
    """A screen of lines. Subclasses name their `AREA`, whose keys are theirs, and draw."""

    AREA: str = ""
    heading: str = ""
    AUTO_FOCUS: ClassVar[str | None] = None
    _awaiting: Callable[[], object] | None = None

    def __init_subclass__(cls, **how: Any) -> None:
        """The keys of its place alone."""
        cls.BINDINGS = bindings_of(cls.AREA)
        super().__init_subclass__(inherit_bindings=False, **how)

    def compose(self) -> ComposeResult:
        yield Pane(self.draw_head, id="head", classes="bar")
        yield from self.middle()
        yield Foot(self.AREA)

    def middle(self) -> ComposeResult:
        """What stands between the title and the keys."""
        yield Pane(self.draw, id="body")

    def draw_head(self, width: int, height: int) -> Sequence[Line]:
        return self.head(self.heading, "", width)

    def draw(self, width: int, height: int) -> Sequence[Line]:
        """The lines of the screen, the line of keys left out; an empty sheet has none."""
        return ()

    @property
    def session(self) -> Session:
        """What all screens share."""
        return cast(Host, self.app).session

    def learn_prices(self) -> None:
        """Have the log learnt as it stands, unless that was begun already."""
        cast(Host, self.app).learn_prices()

    def ready(self) -> None:
        """Knowledge or prices have come, so that what is shown may be more now."""
        waits, self._awaiting = self._awaiting, None
        if waits is not None and self.session.knowledge is not None:
            self.hush()
            waits()

    def once_known(self, job: Callable[[], object]) -> None:
        """Do a job that needs the trade's knowledge, as soon as it has been read."""
        if self.session.knowledge is not None:
            job()
        else:
            self._awaiting = job
            self.say(READING)

    def on_screen_resume(self) -> None:
        """It is shown again: prices that another program wrote meanwhile are learnt."""
        self.look_outside()

    def look_outside(self) -> None:
        """Learn the log anew where another program wrote to it, if it was learnt at all."""

        def look() -> None:
            if self.session.changed_outside() and self.session.learning >= 0:
                self.learn_prices()

        self.attempt(look)

    def redraw(self) -> None:
        """Draw everything anew; lines that stay as they were are not painted."""
        for one in self.walk_children(Told):
            one.renew()

    def tint(self, tone: str) -> None:
        """The band on the ground of its tone, where that is another one."""
        band = self.query_one("#band")
        if not band.has_class(tone or "plain"):
            band.set_classes(tone or "plain")

    def say(self, message: str, role: str = "doubt") -> None:
        """Show a line in place of the keys until the next key."""
        self.query_one(Foot).say(message, role)

    def hush(self) -> None:
        """Show the keys again."""
        for foot in self.query(Foot):
            foot.hush()

    def open(
        self, screen: Screen[Given], then: Callable[[Given], object] = lambda given: None
    ) -> None:
        """Show another screen; what it hands back is taken, unless one left it without."""

        def back(given: Given | None) -> None:
            if given is not None and given is not False:
                then(given)

        self.app.push_screen(screen, back)

    def confirm(self, asks: str, then: Callable[[], object]) -> None:
        """Ask; yes goes on."""
        self.open(Question(asks, self.session.marks), lambda yes: then())

    def tried(self, job: Callable[[], Given]) -> Given | None:
        """What a job finds; None, with one line on the screen, where it cannot be found."""
        found: list[Given] = []
        self.attempt(lambda: found.append(job()))
        return found[0] if found else None

    def attempt(self, job: Callable[[], object]) -> bool:
        """Do a job; a mistake becomes one line on the screen."""
        try:
            job()
        except AppraiseError as error:
            self.say(str(error), "warn")
            return False
        return True

    def head(self, left: str, right: str, width: int) -> list[Line]:
        """The first line of a screen, which stands on a ground of its own."""
        marks = self.session.marks
        title = line(" ", (clip(left, max(4, width - len(right) - 4), marks), "head"))
        return [ends(title, line((right, "quiet"), " "), width)]

    def trouble(self, says: str) -> None:
        self.say(says, "warn")

    def progress(self, says: str, done: int, of: int) -> None:
        """Tell how far a long job has come, with the way to end it."""
        self.query_one(Foot).progress(says, done, of)

    @on(events.TextSelected)
    def copy_selected(self) -> None:
        """What was selected with the mouse is copied."""
        text = self.get_selected_text()
        if text and text.strip():
            self.app.copy_to_clipboard(text)
            self.say("Copied.", "good")

    def action_close(self) -> None:
        self.dismiss(None)


class Question(ModalScreen[bool], inherit_bindings=False):
    """A question at the foot of the screen, answered by y or n."""

    BINDINGS: ClassVar[list[BindingType]] = bindings_of("ask")
    AUTO_FOCUS = None

    def __init__(self, asks: str, marks: Marks) -> None:
        super().__init__()
        self._asks = asks
        self._marks = marks

    def compose(self) -> ComposeResult:
        yield Pane(self.draw)

    def draw(self, width: int, height: int) -> Sequence[Line]:
        """The question and its two keys, which stay when the question is cut."""
        yes, no = does(line(("y", "key"), " yes"), "yes"), does(line(("n", "key"), " no"), "no")
        keys = line("  ", *yes, "  ", *no, " ")
        *above, last = self._rows(width)
        return [*above, ends(last, keys, width)]

    def _rows(self, width: int) -> list[Line]:
        room = max(1, width - 17)
        told = fold_to(self._asks, room, MOST_ASKED, self._marks)
        return [line(" ", (row, "warn")) for row in told]

    def on_mount(self) -> None:
        self._fit()

    def on_resize(self) -> None:
        self._fit()

    def _fit(self) -> None:
        self.query_one(Pane).styles.height = len(self._rows(self.app.size.width))

    def action_yes(self) -> None:
        self.dismiss(True)

    def action_no(self) -> None:
        self.dismiss(False)

    def hush(self) -> None:
        """Nothing stands in the way of the question."""
