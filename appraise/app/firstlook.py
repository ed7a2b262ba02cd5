"""The first look: one line about a piece, and how it was understood, before going on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.widgets import Input

from appraise.app import work
from appraise.app.actions import bindings_of
from appraise.app.lines import EMPTY, Line, fold, line
from appraise.app.messages import Ready
from appraise.app.pane import Foot, Pane
from appraise.app.sheet import Sheet
from appraise.app.understood import understood_lines
from appraise.piece.records import Piece

if TYPE_CHECKING:
    from appraise.listing.first_look import Look

EXAMPLES = (
    "sixth ambro thermo vine 45 hinge taped",
    "ninth dag leather case, girl with a basket, 60",
    "cdv albumen soldier 12 online",
)
HELP = (
    "Write what you saw in five seconds: size, process, case, motif, price, damage, in any order. "
    "An empty line begins a piece of which nothing is known yet."
)


class FirstLook(Sheet[Piece], inherit_bindings=False):
    """One line in, a piece out."""

    AREA = "look"
    AUTO_FOCUS = "Input"
    BINDINGS: ClassVar[list[BindingType]] = bindings_of("look")

    def __init__(self) -> None:
        super().__init__()
        self._look: Look | None = None
        self._wanted = False

    def compose(self) -> ComposeResult:
        """Title, the line, what became of it, the keys."""
        head = Pane(self.draw_head, id="head")
        head.styles.height = 3
        yield head
        yield Input(placeholder=EXAMPLES[0])
        yield Pane(self.draw, id="body")
        yield Foot(self.AREA)

    def on_mount(self) -> None:
        """Have the prices learnt while one types."""
        work.learn_prices(self.app, self.session)

    def draw_head(self, width: int, height: int) -> Sequence[Line]:
        """The title."""
        return [*self.head("First look", "", width), EMPTY]

    def draw(self, width: int, height: int) -> Sequence[Line]:
        """How the line was understood, or how to write one."""
        if self._look is None:
            return self._guide(width)
        session, look = self.session, self._look
        rows = understood_lines(
            look.understood, look.not_understood, session.knowledge, width, session.marks
        )
        if not look.understood and not look.not_understood:
            rows.append(line("   nothing yet: the piece begins empty"))
        return rows

    def _guide(self, width: int) -> list[Line]:
        waits = self.session.knowledge is None
        told = "The knowledge is being read ..." if waits else HELP
        rows = [EMPTY, *fold(told, max(1, width - 2), " "), EMPTY]
        return [*rows, *(line("   ", (one, "quiet")) for one in EXAMPLES)]

    @on(Input.Changed)
    def understand(self, event: Input.Changed) -> None:
        """Understand the line as it stands."""
        knowledge = self.session.knowledge
        if knowledge is None or not event.value.strip():
            self._look = None
        else:
            from appraise.listing.first_look import understand  # 30 ms with rapidfuzz, first time

            currency = self.session.settings.currency
            self._look = understand(event.value, knowledge, currency)
        self.redraw()

    @on(Ready)
    def ready(self, message: Ready) -> None:
        """The knowledge has come: understand what was typed meanwhile."""
        typed = self.query_one(Input)
        self.understand(Input.Changed(typed, typed.value))
        if self._wanted:
            self.action_begin()

    @on(Input.Submitted)
    def submitted(self, event: Input.Submitted) -> None:
        """Enter begins the piece."""
        self.action_begin()

    def action_begin(self) -> None:
        """Hand the piece back, as soon as there is knowledge to read it by."""
        if self.session.knowledge is None:
            self._wanted = True
            self.say("The knowledge is being read ...")
            return
        self.dismiss(piece_of(self._look) if self._look else Piece())


def piece_of(look: Look) -> Piece:
    """The piece of a first look, its price left out of the title, which a seller may read."""
    title = f" {look.piece.title} "
    for words, meaning in look.understood:
        if meaning.startswith("asking "):
            title = title.replace(f" {words} ", " ", 1)
    return replace(look.piece, title=" ".join(title.split()))
