"""The page of what fits what."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from textual import on
from textual.message import Message

from appraise.app.lines import EMPTY, Line, fold, line
from appraise.app.marks import WARN
from appraise.app.page import Page
from appraise.app.work import compute

if TYPE_CHECKING:
    from appraise.collection.fits import Fit
    from appraise.knowledge.records import Knowledge

SHOWN = 20  # of what fits

Seek = Callable[[], "Sequence[Fit]"]
"""Works out what fits; some milliseconds for each part or plate."""


class FitChosen(Message):
    """To the page that asked: what fits."""

    def __init__(self, fits: Sequence[Fit], told: Sequence[str]) -> None:
        super().__init__()
        self.fits = tuple(fits)
        self.told = tuple(told)


class FitsPage(Page):
    """What goes with a plate, or which plates go with a part; worked out away from the keys."""

    def __init__(self, title: str, seek: Seek, *, plates: bool, empty: str) -> None:
        super().__init__(title, self.lines)
        self._seek = seek
        self._plates = plates
        self._empty = empty
        self._found: FitChosen | None = None

    def on_mount(self) -> None:
        """Begin to work it out."""

        def job(knowledge: Knowledge) -> Message:
            from appraise.collection.fits import conduct  # 10 ms

            return FitChosen(self._seek(), conduct(knowledge))

        compute(self, self.session, "fits", job)

    @on(FitChosen)
    def fitted(self, message: FitChosen) -> None:
        """Show it."""
        message.stop()
        self._found = message
        self.redraw()

    def lines(self, width: int) -> list[Line]:
        """What fits, the best first, and what has to be said with it."""
        if self._found is None:
            return [line(("comparing ...", "quiet"))]
        out: list[Line] = []
        for one in self._found.fits[:SHOWN]:
            out += [*_fit_lines(one, self._plates, width), EMPTY]
        if not out:
            out = [*fold(self._empty, width), EMPTY]
        for text in self._found.told:
            out += fold(text, width, f"{WARN} ", lead_role="warn")
        return out


def _fit_lines(fit: Fit, plates: bool, width: int) -> list[Line]:
    """One fit: what it is, then size and years in words."""
    from appraise.documents.bench import size_says, years_say

    title = fit.plate if plates else fit.part.title
    out = fold(title, width, role="strong")
    for name, says in (("size", size_says(fit.size)), ("years", years_say(fit))):
        out += fold(says, width, f"  {name:<6} ", lead_role="quiet")
    return out
