"""A kept piece with single fields as they were typed."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from appraise.base.errors import InputError
from appraise.base.spelling import did_you_mean
from appraise.keeping.kept import Kept
from appraise.knowledge.records import Knowledge

LINES = "|"
"""Stands between the lines of a text that is typed in one line."""
PAGES = ("provenance", "climate", "note")
EDITABLE = (
    "title", "number", "place", "status", "kind", "process", "housing", "format", "dated",
    "acquired", "return_by", "receipt", "provenance", "climate", "note",
)  # fmt: skip


def as_typed(kept: Kept, name: str) -> str:
    """A field as it is typed in one line."""
    value = getattr(kept, name)
    if value is None:
        return ""
    if name in PAGES:
        return f" {LINES} ".join(line.strip() for line in str(value).splitlines())
    return value.isoformat() if isinstance(value, dt.date) else str(value)


def edited(kept: Kept, typed: Mapping[str, str], knowledge: Knowledge | None = None) -> Kept:
    """The piece with fields as they were typed; an empty text empties a field.

    Args:
        kept: As it was.
        typed: Texts by field.
        knowledge: Words of the trade are to be among its own, so that care can go by them; None:
            any word will do.

    Raises:
        InputError: when there is no such field, or a value does not fit it; its `where` is the
            field.
    """
    changes: dict[str, Any] = {}
    for name, text in typed.items():
        if name not in EDITABLE:
            raise InputError(f"'{name}' is no field", mend=did_you_mean(name, EDITABLE))
        if text.strip() != as_typed(kept, name):
            changes[name] = _value(name, " ".join(text.split()))
            _check_word(name, str(changes[name]), knowledge)
    if changes.get("status") == "":
        changes["status"] = "kept"
    return replace(kept, **changes)


def known_words(name: str, knowledge: Knowledge) -> tuple[str, ...]:
    """The words that a field takes from the knowledge; none for any other field."""
    if name == "process":
        families = {one.family for one in knowledge.processes.values()}
        return tuple(dict.fromkeys((*sorted(families), *knowledge.processes)))
    if name == "housing":
        return tuple(knowledge.housings)
    return tuple(knowledge.formats) if name == "format" else ()


def _check_word(name: str, word: str, knowledge: Knowledge | None) -> None:
    known = known_words(name, knowledge) if knowledge else ()
    if known and word and word not in known:
        raise InputError(f"'{word}' is not known", name, did_you_mean(word, known))


def _value(name: str, text: str) -> Any:
    if name in PAGES:
        return "\n".join(line.strip() for line in text.split(LINES))
    if name == "return_by":
        return day_of(name, text) if text else None
    return text


def day_of(name: str, text: str) -> dt.date:
    """A day as 2026-11-25.

    Raises:
        InputError: when it is none.
    """
    try:
        return dt.date.fromisoformat(text.strip())
    except ValueError:
        raise InputError(f"'{text}' is not a day", name, "Write 2026-11-25.") from None
