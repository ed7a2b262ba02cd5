"""The page behind the verdict; what is behind each figure follows as soon as it is worked out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from textual import on

from appraise.app import work
from appraise.app.examine.why import why_lines
from appraise.app.lines import EMPTY, Line, fold, line
from appraise.app.messages import Explained
from appraise.app.page import Page
from appraise.documents.behind import NOTHING, found, heading, weight, would_change
from appraise.documents.words import PURPOSE

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.verdict import Verdict
    from appraise.verdict.behind import Behind

MOST = 5  # findings told of each figure


class WhyPage(Page, inherit_bindings=False):
    """Everything behind the verdict."""

    BINDINGS = Page.BINDINGS

    def __init__(self, verdict: Verdict, knowledge: Knowledge) -> None:
        super().__init__("Why", self._lines)
        self._verdict = verdict
        self._knowledge = knowledge
        self._told: tuple[Behind, ...] | None = None

    def on_mount(self) -> None:
        """Have it worked out."""
        work.explain(self, self.session, self._verdict.reading)

    @on(Explained)
    def explained(self, message: Explained) -> None:
        """Show it."""
        message.stop()
        self._told = message.told
        self.redraw()

    def _lines(self, width: int) -> Sequence[Line]:
        rows = why_lines(self._verdict, self._knowledge, not self.session.discreet, width)
        if self._told is None:
            told = [line(("Working out the evidence behind each figure ...", "quiet")), EMPTY]
        else:
            told = behind_lines(self._told, self._knowledge, width)
        return [*rows, *told, *fold(PURPOSE, width, role="quiet")]


def behind_lines(told: Sequence[Behind], knowledge: Knowledge, width: int) -> list[Line]:
    """Every figure with what moved it and what would change it."""
    rows = [line(("Evidence behind each figure, and what would change it", "head"))]
    for one in told:
        rows += [*_figure(one, knowledge, width), EMPTY]
    return rows


def _figure(one: Behind, knowledge: Knowledge, width: int) -> Iterator[Line]:
    yield line((heading(one), "strong"))
    for moved in one.moved[:MOST]:
        yield from fold(found(moved, knowledge), width, "  ")
        yield from fold(weight(moved), width, "      ", role="quiet")
    if not one.moved:
        yield line((f"  {NOTHING}", "quiet"))
    for turn in one.turns:
        yield from fold(would_change(turn, knowledge), width, "  ? ", lead_role="doubt")
