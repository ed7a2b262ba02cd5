"""The pages behind the verdict: what is behind each figure, once it is worked out, and cautions."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from appraise.app.lines import EMPTY, Line, fold, line
from appraise.app.marks import WARN
from appraise.app.page import FoundPage, document_rows
from appraise.documents.verdict import why_document
from appraise.verdict import next_steps

if TYPE_CHECKING:
    from appraise.app.session import Session
    from appraise.knowledge.records import Knowledge
    from appraise.verdict import Verdict
    from appraise.verdict.behind import Behind

WORKING = "Working out the evidence behind each figure ..."
Told = tuple["Behind", ...]


def why_page(session: Session, verdict: Verdict, knowledge: Knowledge) -> FoundPage[Told]:
    """Everything behind the verdict; each figure's follows, which takes 300 to 600 ms."""

    def seek(knowledge: Knowledge) -> Told:
        from appraise.verdict.behind import behind

        return behind(verdict.reading, knowledge)

    def write(told: Told | None, width: int) -> Sequence[Line]:
        steps = next_steps(verdict, knowledge)
        page = why_document(verdict, knowledge, steps, not session.discreet, told or ())
        wait = [line((WORKING, "quiet")), EMPTY] if told is None else []
        return [*wait, *document_rows(page, width, session.marks)]

    return FoundPage("Why", seek, write)


def care_lines(texts: Sequence[str], width: int) -> list[Line]:
    """Cautions, one under the other, with a line between."""
    if not texts:
        return [line("No cautions for this check.")]
    return [
        row for text in texts for row in (*fold(text, width, f"{WARN} ", lead_role="warn"), EMPTY)
    ]
