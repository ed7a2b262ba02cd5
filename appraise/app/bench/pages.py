"""The page of what fits what."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, ClassVar

from textual import on
from textual.binding import BindingType
from textual.message import Message
from textual.worker import get_current_worker

from appraise.app.actions import bindings_of
from appraise.app.lines import EMPTY, Line, fold, line
from appraise.app.marks import WARN
from appraise.app.messages import Trouble
from appraise.app.page import Page
from appraise.base.errors import AppraiseError

if TYPE_CHECKING:
    from appraise.app.session import Session
    from appraise.collection.fits import Fit

SHOWN = 20  # of what fits

Seek = Callable[[], "Sequence[Fit]"]
"""Works out what fits; some milliseconds for each part or plate."""


class FitChosen(Message):
    """To the page that asked: what fits."""

    def __init__(self, fits: Sequence[Fit], told: Sequence[str]) -> None:
        super().__init__()
        self.fits = tuple(fits)
        self.told = tuple(told)


class FitsPage(Page, inherit_bindings=False):
    """What goes with a plate, or which plates go with a part; worked out away from the keys."""

    BINDINGS: ClassVar[list[BindingType]] = bindings_of("page")

    def __init__(self, title: str, seek: Seek, *, plates: bool, empty: str) -> None:
        super().__init__(title, self.lines)
        self._seek = seek
        self._plates = plates
        self._empty = empty
        self._found: FitChosen | None = None

    def on_mount(self) -> None:
        """Begin to work it out."""
        session = self.session

        def job() -> None:
            message = _found(session, self._seek)
            if message is not None and not get_current_worker().is_cancelled:
                self.post_message(message)

        run: Any = self.run_worker
        run(job, thread=True, exclusive=True, group="fits", exit_on_error=False)

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


def _found(session: Session, seek: Seek) -> Message | None:
    from appraise.collection.fits import conduct  # 10 ms

    with session.bench:
        if session.knowledge is None:
            return None
        try:
            return FitChosen(seek(), conduct(session.knowledge))
        except AppraiseError as error:
            return Trouble(str(error))


def _fit_lines(fit: Fit, plates: bool, width: int) -> list[Line]:
    """One fit: what it is, then size and years in words."""
    from appraise.documents.bench import size_says, years_say

    title = fit.plate if plates else fit.part.title
    out = fold(title, width, role="strong")
    for name, says in (("size", size_says(fit.size)), ("years", years_say(fit))):
        out += fold(says, width, f"  {name:<6} ", lead_role="quiet")
    return out
