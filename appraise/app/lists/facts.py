"""A record told field by field."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from typing import Any

from appraise.app.lines import EMPTY, Line, fold
from appraise.app.marks import WARN
from appraise.app.session import Session
from appraise.app.widgets.reading import Write
from appraise.records.fields import filled
from appraise.records.stored import Stored

LABEL = 18  # cells of a name at most


def field_lines(texts: Mapping[str, str], notes: Sequence[str], width: int) -> list[Line]:
    """The fields of a record, and before them what has to be said of it."""
    out: list[Line] = []
    for note in notes:
        out += fold(note, width, f"{WARN} ", lead_role="warn")
    if notes:
        out.append(EMPTY)
    longest = max(map(len, texts), default=0) + 2
    label = min(LABEL, longest, max(4, width // 3))
    for name, text in texts.items():
        out += fold(text, width, f"{name[: label - 1]:<{label}}", lead_role="quiet")
    return out


def as_recorded(session: Session, one: Stored[Any]) -> Write:
    """The fields that say something, as they were typed."""
    return partial(field_lines, filled(one.thing), ())
