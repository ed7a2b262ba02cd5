"""How a typed line was understood, as lines: what was taken for what, and what was left out."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.cells import cell_len

from appraise.app.lines import EMPTY, Line, clip, fold, line
from appraise.app.marks import DOUBT, ORDER, Marks

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge

LEFT = 26  # cells for the words


def understood_lines(
    understood: Sequence[tuple[str, str]],
    not_understood: Sequence[str],
    knowledge: Knowledge | None,
    width: int,
    marks: Marks,
    notes: Sequence[str] = (),
) -> list[Line]:
    """A line for each stretch of words, then the motif, what was not understood, and notes."""
    from appraise.listing.summary import meanings, summary  # with the reader, 30 ms, first time

    found = meanings(understood)
    left = min(LEFT, width // 2, max((cell_len(words) for words, _ in found), default=0))
    rows = [EMPTY, line(" ", ("understood as", "quiet"))]
    for words, meaning in found:
        told = clip(in_words(meaning, knowledge), max(1, width - left - 6), marks)
        rows.append(
            line(f" {ORDER} ", (f"{clip(words, left, marks):<{left}}", "strong"), "  ", told)
        )
    for said in summary(understood, not_understood, notes):
        mark, role = (DOUBT, "doubt") if said.startswith("not understood") else (ORDER, "")
        rows += fold(said, max(1, width - 2), f" {mark} ", lead_role=role)
    return rows


def in_words(meaning: str, knowledge: Knowledge | None) -> str:
    """What words were taken for, as the screen says it."""
    from appraise.documents.claimed import meaning_words

    return meaning_words(meaning, knowledge) if knowledge else meaning
