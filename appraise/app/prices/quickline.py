"""A price logged in one line, shown as it was understood before it is kept."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.widgets import Input

from appraise.app.actions import bindings_of
from appraise.app.lines import EMPTY, Line, fold, line
from appraise.app.messages import Ready
from appraise.app.pane import Foot, Pane
from appraise.app.sheet import Sheet
from appraise.app.understood import understood_lines
from appraise.log.entries import Entry

if TYPE_CHECKING:
    from appraise.listing.quick import QuickEntry

EXAMPLES = (
    "sixth ambrotype thermoplastic vine 38 + 6 post, quay market, yesterday",
    "ninth dag leather, asked 60 offered 45 pass, 12 May",
    "sold quarter tintype 55, online, last saturday",
)
HELP = (
    "Write what it was, what happened, the amounts, where and when, in any order. Bought today "
    "unless said."
)


class QuickLine(Sheet[Entry], inherit_bindings=False):
    """One line in, an entry out."""

    AREA = "line"
    AUTO_FOCUS = "Input"
    BINDINGS: ClassVar[list[BindingType]] = bindings_of("line")

    def __init__(self) -> None:
        super().__init__()
        self._quick: QuickEntry | None = None

    def compose(self) -> ComposeResult:
        """Title, the line one types in, what was understood, the keys."""
        head = Pane(self.draw_head, id="head")
        head.styles.height = 3
        yield head
        yield Input(placeholder=EXAMPLES[0])
        yield Pane(self.draw, id="body")
        yield Foot(self.AREA)

    def draw_head(self, width: int, height: int) -> Sequence[Line]:
        """The title."""
        return [*self.head("Log a price", "", width), EMPTY]

    def draw(self, width: int, height: int) -> Sequence[Line]:
        """How the line was understood and what will be kept, or how to write one."""
        session, quick = self.session, self._quick
        if quick is None:
            told = "The knowledge is being read ..." if session.knowledge is None else HELP
            rows = [EMPTY, *fold(told, max(1, width - 2), " "), EMPTY]
            return [*rows, *(line("   ", (one, "quiet")) for one in EXAMPLES)]
        shown = quick.understood, quick.not_understood
        rows = understood_lines(*shown, session.knowledge, width, session.marks)
        return [*rows, EMPTY, *fold(_kept_as(quick.entry), max(1, width - 2), " ")]

    @on(Input.Changed)
    def understand(self, event: Input.Changed) -> None:
        """Understand the line as it stands."""
        session = self.session
        self._quick = None
        if session.knowledge is not None and event.value.strip():
            from appraise.listing.quick import understand_entry  # 30 ms, first time

            self._quick = understand_entry(
                event.value, session.knowledge, session.settings.currency, session.as_of
            )
        self.redraw()

    @on(Ready)
    def ready(self, message: Ready) -> None:
        """The knowledge has come: understand what was typed meanwhile."""
        typed = self.query_one(Input)
        self.understand(Input.Changed(typed, typed.value))

    @on(Input.Submitted)
    def submitted(self, event: Input.Submitted) -> None:
        """Enter keeps."""
        self.action_keep()

    def action_keep(self) -> None:
        """Keep the entry; a line without an amount is asked for one first."""
        if self._quick is None:
            self.say("Nothing is written yet; esc goes back.")
            return
        entry, kept = self._quick.entry, list[Entry]()
        if entry.price is None and entry.record not in ("gift", "swap"):
            self.say("It names no amount: write one, such as 45.")
        elif self.attempt(lambda: kept.append(self.session.log.add(entry))):
            self.session.changes += 1
            self.dismiss(kept[0])


def _kept_as(entry: Entry) -> str:
    """What will be kept, in one sentence."""
    price = f" {entry.price}" if entry.price else ""
    where = entry.venue or entry.channel
    told = f"To be kept as {entry.record}{price} on {entry.date.isoformat()}"
    return f"{told}{f', {where}' if where else ''}."
