"""The fields of a wish as a person writes them: 'formats=sixth, ninth', 'years=1855..1862'."""

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from appraise.base.errors import InputError
from appraise.keeping.fieldtext import day_of, known_fields, list_of, money_of, word_of
from appraise.keeping.wants import Want
from appraise.knowledge.records import KINDS, Knowledge
from appraise.piece.records import SUBJECTS

MEANING = {
    "title": "one line to know it by",
    "kind": "cased, loose-plate, card, lantern-slide or cyanotype",
    "process": "a process or a family of them, as tintype",
    "housing": "what the case is made of, as thermoplastic",
    "formats": "any of these will do: sixth, ninth",
    "motif": "what case or picture should show",
    "subject": "whom the picture shows, as soldier",
    "years": "when the picture was taken: 1855..1862, 1855.. or ..1862",
    "most": "the most it may cost in all",
    "since": "the day it was wished for first",
    "note": "anything else",
}
"""Every field of a wish, and what may be written there."""
FIELDS = tuple(MEANING)
_YEARS = re.compile(r"(\d{4})?\s*(?:\.\.|-|–|to)\s*(\d{4})?|(\d{4})")


def written(want: Want) -> dict[str, str]:
    """All fields that say something, as `changed` reads them."""
    years = ""
    if want.first is not None or want.last is not None:
        years = f"{want.first or ''}..{want.last or ''}"
    found = {
        **{name: getattr(want, name) for name in FIELDS if hasattr(want, name)},
        "formats": ", ".join(want.formats),
        "years": years,
        "most": str(want.most) if want.most else "",
        "since": want.since.isoformat(),
    }
    return {name: found[name] for name in FIELDS if found[name]}


def changed(want: Want, texts: Mapping[str, str], knowledge: Knowledge, currency: str) -> Want:
    """The wish with some fields as written; an empty text takes a field back to nothing.

    Raises:
        InputError: for a field that is not known, or a text that does not fit it; its `where` is
            the field.
    """
    values: dict[str, Any] = {}
    for name, text in known_fields(texts, FIELDS).items():
        if name == "years":
            values["first"], values["last"] = years_of(text)
        elif name in ("title", "motif", "note"):
            values[name] = text
        else:
            values[name] = _read(name, text, knowledge, currency)
    return replace(want, **values)


def _read(name: str, text: str, knowledge: Knowledge, currency: str) -> Any:
    if name == "most":
        return money_of(name, text, currency)
    if name == "since":
        return day_of(name, text)
    if name == "formats":
        return tuple(word_of(name, one, knowledge.formats) for one in list_of(text))
    processes = knowledge.processes
    known = {
        "kind": KINDS,
        "process": [*processes, *(one.family for one in processes.values())],
        "housing": knowledge.housings,
        "subject": SUBJECTS,
    }
    return word_of(name, text, known[name])


def years_of(text: str) -> tuple[int | None, int | None]:
    """First and last year of '1855..1862', '1855..', '..1862' or '1858'; None for what is open.

    Raises:
        InputError: when it is none of these.
    """
    if not text:
        return None, None
    match = _YEARS.fullmatch(text)
    if match is None or not any(match.groups()):
        raise InputError(f"'{text}' is no span of years", "years", "Write 1855..1862.")
    if match[3]:
        return int(match[3]), int(match[3])
    return (int(match[1]) if match[1] else None), (int(match[2]) if match[2] else None)
