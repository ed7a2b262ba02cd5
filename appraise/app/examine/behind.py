"""The page behind the verdict; what is behind each figure follows as soon as it is worked out."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual import on

from appraise.app import work
from appraise.app.lines import EMPTY, Line, fold, line
from appraise.app.marks import WARN
from appraise.app.messages import Explained
from appraise.app.page import Page, document_rows
from appraise.documents.verdict import why_document
from appraise.verdict import next_steps

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.verdict import Verdict
    from appraise.verdict.behind import Behind

WORKING = "Working out the evidence behind each figure ..."


class WhyPage(Page):
    """Everything behind the verdict."""

    def __init__(self, verdict: Verdict, knowledge: Knowledge) -> None:
        super().__init__("Why", self._lines)
        self._verdict = verdict
        self._knowledge = knowledge
        self._told: tuple[Behind, ...] | None = None

    def on_mount(self) -> None:
        work.explain(self, self.session, self._verdict.reading)

    @on(Explained)
    def explained(self, message: Explained) -> None:
        message.stop()
        self._told = message.told
        self.redraw()

    def _lines(self, width: int) -> Sequence[Line]:
        priced = not self.session.discreet
        steps = next_steps(self._verdict, self._knowledge)
        page = why_document(self._verdict, self._knowledge, steps, priced, self._told or ())
        wait = [line((WORKING, "quiet")), EMPTY] if self._told is None else []
        return [*wait, *document_rows(page, width, self.session.marks)]


def care_lines(texts: Sequence[str], width: int) -> list[Line]:
    """Cautions, one under the other, with a line between."""
    if not texts:
        return [line("No cautions for this check.")]
    return [
        row for text in texts for row in (*fold(text, width, f"{WARN} ", lead_role="warn"), EMPTY)
    ]
