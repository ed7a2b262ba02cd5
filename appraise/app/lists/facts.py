"""A record told field by field, and what many specs share in telling one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from typing import TYPE_CHECKING, Any

from appraise.app.lines import EMPTY, Line, fold, line
from appraise.app.lists.spec import ListView, Writer
from appraise.app.marks import WARN
from appraise.records.fields import filled

if TYPE_CHECKING:
    from appraise.app.session import Session
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


def counted(view: ListView, one: str, several: str) -> str:
    """How many are shown, and of how many where a filter hides some."""
    many = len(view.shown)
    told = f"{many:,} {one if many == 1 else several}"
    return f"{told} of {len(view.known):,}" if view.query else told


def more(view: ListView, says: str) -> str:
    """How many are not shown unless one asks for all."""
    hidden = 0 if view.every or view.query else len(view.known) - len(view.shown)
    return f"   {hidden} {says}: a shows them" if hidden else ""


def as_recorded(session: Session, one: Stored[Any]) -> Writer:
    """The fields that say something, as they were typed."""
    return partial(field_lines, filled(one.thing), ())


def totals_line(*parts: str) -> Line:
    """The line below a table, of parts that say something."""
    return line(" ", ("".join(parts), "quiet"))
