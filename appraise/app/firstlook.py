"""The first look: one line about a piece, and how it was understood, before going on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from appraise.app.lines import Line, line
from appraise.app.oneline import OneLine
from appraise.knowledge.records import Knowledge
from appraise.records.piece import Piece

if TYPE_CHECKING:
    from appraise.listing.first_look import Look


class FirstLook(OneLine[Piece, "Look"]):
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

    def on_mount(self) -> None:
        self.learn_prices()

    def told_after(self, read: Look, width: int) -> Sequence[Line]:
        """That a line of which nothing was taken starts an empty piece."""
        nothing = not read.understood and not read.not_understood
        return [line("   nothing yet: the piece starts empty")] if nothing else []

    def read_line(self, text: str, knowledge: Knowledge) -> Look:
        from appraise.listing.first_look import understand  # 20 ms, first time

        session = self.session
        code, region = session.settings.currency, session.settings.region
        return understand(text, knowledge, code, today=session.as_of, region=region)

    def action_take(self) -> None:
        self.once_known(self._begin)

    def _begin(self) -> None:
        """Go on with the piece; an empty line begins one of which nothing is known."""
        self.dismiss(piece_of(self.read) if self.read else Piece())


def piece_of(look: Look) -> Piece:
    """The piece of a first look, its price left out of the title, which a seller may read."""
    title = f" {look.piece.title} "
    for words, meaning in look.understood:
        if meaning.startswith("asking "):
            title = title.replace(f" {words} ", " ", 1)
    return replace(look.piece, title=" ".join(title.split()))
