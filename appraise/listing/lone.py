"""A typed line that names no photograph: a part by itself, or nothing that is known at all."""

from collections.abc import Sequence
from dataclasses import replace

from appraise.listing.draft import LineDraft
from appraise.listing.vocabulary import Hit
from appraise.reading.matter import bare

LONE = ("mat", "preserver", "glass", "pad", "clasp", "hinge")
"""Parts that are met by themselves."""
CALLED = ("part", "parts", "spare", "loose")
"""Words before a part that say no more than that it is one."""
OF_A_PIECE = ("process", "case.material", "kind", "subject", "shows", "state", "defect")
"""Fields of terms that are said of an image, of its housing, or of damage to either."""


def set_lone_part(draft: LineDraft, hits: Sequence[Hit]) -> None:
    """Take a line for one of a part where it names a part of a package or case, and no more.

    Sizes, materials and shapes are said of a part as of a piece; a process, a housing, a sitter or
    damage is said of a piece.
    """
    told = [hit for hit in hits if draft.passage.scope.claims(hit.first, hit.last)]
    parts = [hit for hit in told if _part(draft, hit) in LONE]
    if not parts or draft.kind_told or any(_of_a_piece(draft, hit) for hit in told):
        return
    for hit in parts:
        first = hit.first
        while first and draft.words[first - 1].norm in CALLED:
            first -= 1
        draft.take_words(first, hit.last, "kind part")
    draft.piece = replace(draft.piece, kind="part")


def _part(draft: LineDraft, hit: Hit) -> str:
    """The part that a term names, or to which its check belongs; empty for any other term."""
    if hit.term.field == "part":
        return hit.term.value
    asked = draft.passage.knowledge.checks.get(hit.term.value.partition(" ")[0])
    return asked.part if hit.term.field == "check" and asked is not None else ""


def _of_a_piece(draft: LineDraft, hit: Hit) -> bool:
    field = hit.term.field
    return field in OF_A_PIECE or (field == "check" and _part(draft, hit) not in LONE)


def names_it(draft: LineDraft) -> bool:
    """Whether a word of the line says what it is about."""
    return draft.kind_told or bool(draft.piece.subjects) or not bare(draft.piece)
