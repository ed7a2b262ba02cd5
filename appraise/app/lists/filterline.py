"""The line in which a filter is typed."""

from __future__ import annotations

from collections.abc import Callable
from typing import ClassVar

from textual.binding import BindingType
from textual.widgets import Input

from appraise.app.actions import bindings_of


class FilterLine(Input):
    """The filter; coming and leaving are calls: what is typed behind must not come before them."""

    BINDINGS: ClassVar[list[BindingType]] = bindings_of("filter")

    def __init__(
        self, leave: Callable[[bool], None], come: Callable[[], None], placeholder: str
    ) -> None:
        super().__init__(placeholder=placeholder, id="filter")
        self._leave = leave
        self._come = come

    def on_focus(self) -> None:
        """One is in it, by key or click."""
        self._come()

    def action_leave(self, clears: bool) -> None:
        self._leave(clears)
