"""What the screens of a piece under review share: how its verdict is drawn, undo and redo."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Callable, Sequence
from typing import Any, Protocol

from appraise.app.examine.screen import tone_of
from appraise.app.examine.shown import Shown, names_in
from appraise.app.lines import Line
from appraise.app.sheet import Sheet
from appraise.app.widgets.band import rows_for
from appraise.app.widgets.reading import Draw
from appraise.app.work import compute
from appraise.base.money import Money
from appraise.knowledge.records import Knowledge
from appraise.records.piece import Piece
from appraise.verdict import Verdict


class Reviewed(Protocol):
    """A piece under review, with its last verdict."""

    knowledge: Knowledge
    draft: str
    verdict: Verdict | None

    @property
    def piece(self) -> Piece:
        """The piece as it stands."""

    def change(self, piece: Piece) -> bool:
        """Let the piece stand as given; False when that is no change."""

    def undo(self) -> bool:
        """Take the last change back; False where there is none."""

    def redo(self) -> bool:
        """Make it again; False where there is none."""


class PieceScreen(Sheet[None]):
    """A screen with a piece under review and its verdict."""

    def __init__(self, knowledge: Knowledge) -> None:
        super().__init__(classes="sight")
        self._names = names_in(knowledge)
        self.own_worth: Money | None = None  # of its holder, as given on the bid page

    @property
    @abstractmethod
    def exam(self) -> Reviewed:
        """What is under review."""

    @abstractmethod
    def changed(self) -> None:
        """Save the piece as it stands, show it, and have it judged."""

    def photos(self, width: int, rows: int) -> Sequence[Line]:
        """The photos of the piece in so many cells and lines."""
        return ()

    def shown(self) -> Shown:
        session = self.session
        learnt, parts = session.learnt, tuple(self.exam.knowledge.parts)
        titles = learnt.titles if learnt else {}
        money, known = not session.discreet, learnt is not None
        return Shown(
            session.marks, parts, money, known, titles, self._names, self.photos, self.apart
        )

    @property
    def apart(self) -> bool:
        """Whether drawing, findings and similar sales stand in a pane of their own."""
        return False

    def judge(self, piece: Piece, turn: int, own: frozenset[str] = frozenset()) -> None:
        """Have a piece judged as it stood at a turn, though not by its `own` entries of the log."""
        session = self.session

        def job(knowledge: Knowledge) -> tuple[Verdict, str]:
            verdict = session.judge(piece, own)
            return verdict, session.aside(verdict, own)

        compute(self, "verdict", job, lambda found: self.judged(turn, *found))

    @abstractmethod
    def judged(self, turn: int, verdict: Verdict, aside: str) -> None:
        """Show a verdict, and what else is to be said; one of an earlier turn is dropped."""

    def drawn(self, draw: Callable[[Any, Shown, int, int], Sequence[Line]]) -> Draw:
        """What draws a pane of what is under review."""
        return lambda width, height: draw(self.exam, self.shown(), width, height)

    def share_out(self, **cells: int) -> None:
        """Give each pane so many cells, 0 where it is not shown, and the band its lines."""
        for name, across in cells.items():
            pane = self.query_one(f"#{name}")
            pane.set_class(not across, "away")
            pane.styles.width = across
        self.query_one("#band").styles.height = rows_for(self.size.height)

    def redraw(self) -> None:
        """Draw everything anew, the band on its ground."""
        verdict = self.exam.verdict
        self.tint(tone_of(verdict, self.shown()) if verdict else "")
        super().redraw()

    def action_undo(self) -> None:
        self._went(self.exam.undo, "Nothing to undo since you opened this piece.")

    def action_redo(self) -> None:
        self._went(self.exam.redo, "Nothing to redo.")

    def _went(self, go: Callable[[], bool], otherwise: str) -> None:
        if go():
            self.changed()
        else:
            self.say(otherwise)
