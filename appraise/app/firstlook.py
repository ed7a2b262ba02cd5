"""The first look: one line about a piece, and how it was understood, before going on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from textual import on

from appraise.app import work
from appraise.app.lines import Line, line
from appraise.app.messages import Ready
from appraise.app.oneline import OneLine
from appraise.app.understood import understood_lines
from appraise.knowledge.records import Knowledge
from appraise.records.piece import Piece

if TYPE_CHECKING:
    from appraise.listing.first_look import Look


class FirstLook(OneLine[Piece]):
    """One line in, a piece out."""

    AREA = "look"
    heading = "First look"
    EXAMPLES = (
        "sixth ambro thermo vine 45 hinge taped",
        "ninth dag leather case, girl with a basket, 48",
        "cdv albumen soldier 12 online",
    )
    GUIDE = (
        "Write what you saw in five seconds: size, process, case, motif, price, damage, in any "
        "order. An empty line starts a piece with nothing recorded."
    )

    def __init__(self) -> None:
        super().__init__()
        self._look: Look | None = None
        self._wanted = False

    def on_mount(self) -> None:
        """Have the prices learnt while one types."""
        work.learn_prices(self.app, self.session)

    def understood_lines(self, width: int) -> Sequence[Line] | None:
        """How the line was understood."""
        session, look = self.session, self._look
        if look is None:
            return None
        shown = look.understood, look.not_understood
        rows = understood_lines(*shown, session.knowledge, width, session.marks, look.notes)
        if not look.understood and not look.not_understood:
            rows.append(line("   nothing yet: the piece starts empty"))
        return rows

    def understand(self, text: str, knowledge: Knowledge) -> None:
        """Understand the line as it stands."""
        from appraise.listing.first_look import understand  # 30 ms with rapidfuzz, first time

        session = self.session
        self._look = understand(
            text,
            knowledge,
            session.settings.currency,
            today=session.as_of,
            region=session.settings.region,
        )

    def forget(self) -> None:
        """Nothing is typed yet."""
        self._look = None

    @on(Ready)
    def begin_as_wanted(self, message: Ready) -> None:
        """The knowledge has come: begin, if that was asked for meanwhile."""
        if self._wanted:
            self.ready(message)
            self.action_take()

    def action_take(self) -> None:
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
