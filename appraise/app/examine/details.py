"""The piece's details as a form: what is known of it beside the checks."""

from __future__ import annotations

from collections.abc import Mapping

from appraise.app.examine.state import of_another_kind
from appraise.app.form import FormField, fields_of
from appraise.base.errors import InputError
from appraise.base.spelling import did_you_mean
from appraise.knowledge.records import Knowledge
from appraise.records.fields import typed_fields
from appraise.records.piece import MEASURES, Piece, with_details
from appraise.records.values import Author


def formats_of(kind: str, knowledge: Knowledge) -> list[str]:
    """The formats of a kind of piece."""
    return [one.id for one in knowledge.formats.values() if kind in one.kinds]


def details_of(piece: Piece, knowledge: Knowledge, by: Author) -> list[FormField]:
    """The fields, filled in as the piece stands; of measures those of its kind."""
    sizes = [f"size-{what}" for what in MEASURES.get(piece.kind, ("mount",))]
    names = [name for name in typed_fields(Piece) if name in sizes or not name.startswith("size-")]
    return fields_of(piece, by, only=names, choices={"format": formats_of(piece.kind, knowledge)})


def piece_with(piece: Piece, texts: Mapping[str, str], knowledge: Knowledge, by: Author) -> Piece:
    """The piece with what was typed.

    Raises:
        InputError: one line; its `where` is the field.
    """
    now = with_details(piece, texts, by)
    known = formats_of(now.kind, knowledge)
    if now.named_format and now.named_format not in known:
        mend = did_you_mean(now.named_format, known)
        raise InputError(f"'{now.named_format}' is not known", "format", mend)
    return now if now.kind == piece.kind else of_another_kind(now, now.kind, knowledge)
