"""A verdict as the user reads it: the parts of a report in short, and what is behind them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from appraise.documents.behind import behind_section
from appraise.documents.document import Document
from appraise.documents.reports.identity import NO_KIND
from appraise.documents.reports.readers import VERDICT, WHY, sections_for, title_of
from appraise.documents.reports.report_input import ReportInput
from appraise.documents.words import kind_name
from appraise.reading.matter import bare

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.verdict import NextSteps, Verdict
    from appraise.verdict.behind import Behind


def verdict_document(
    verdict: Verdict,
    knowledge: Knowledge,
    steps: NextSteps,
    behind: Sequence[Behind] = (),
) -> Document:
    """The whole verdict; every number says how much it stands on.

    `behind`: what is behind each figure; empty where that was not asked.
    """
    matter = ReportInput(verdict, knowledge, steps=steps, priced=True, brief=True)
    piece = verdict.piece
    kind = f"kind {NO_KIND}" if bare(piece) else kind_name(piece.kind)
    asked = f", asked {piece.asking}" if piece.asking else ""
    about, as_of = f"{kind}, {piece.channel}{asked}", verdict.as_of.isoformat()
    parts = (*sections_for(matter, VERDICT), *behind_section(behind, knowledge))
    return Document(title_of(matter), parts, about, as_of, VERDICT.purpose)


def why_document(
    verdict: Verdict,
    knowledge: Knowledge,
    steps: NextSteps,
    priced: bool = True,
    behind: Sequence[Behind] = (),
) -> Document:
    """What is behind a verdict; without amounts where they are hidden."""
    matter = ReportInput(verdict, knowledge, steps=steps, priced=priced, brief=True)
    parts = (*sections_for(matter, WHY), *behind_section(behind, knowledge))
    return Document(title_of(matter), parts, purpose=WHY.purpose)
