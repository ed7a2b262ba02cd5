"""The fields of a part in stock as a person writes them, as 'recess=73 x 86 mm'."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from appraise.base.errors import InputError
from appraise.base.spelling import did_you_mean
from appraise.keeping.fieldtext import (
    count_of,
    day_of,
    known_fields,
    list_of,
    money_of,
    word_of,
)
from appraise.keeping.stock import MADE, MEASURED, Part, Seen, Size
from appraise.knowledge.formerly import today
from appraise.knowledge.records import REGIONS, Knowledge

MEANING = {
    "title": "one line to know it by",
    "part": "what it is: case, half-case, mat, preserver, glass, pad ...",
    "material": "what it is made of: leather-wood, thermoplastic, brass ...",
    "format": "the plate that it was made for, as sixth",
    "outside": "its outside, as 83 x 95 mm or 3 1/4 x 3 3/4 in",
    "recess": "what a package goes into, as 73 x 86 mm",
    "opening": "the opening of a mat, as 53 x 68 mm",
    "seen": "what was seen: checks and answers, as mat.shape oval; hinge.tape 1",
    "made": "period, own-work, modern or reproduction",
    "maker": "its maker, or the mark on it",
    "motif": "what it shows",
    "region": "us, gb, eu or au",
    "cost": "what it cost",
    "from": "the id of the piece it was taken from, or words for that",
    "place": "where it lies",
    "count": "how many there are that are alike",
    "since": "the day it came into stock",
    "note": "anything else",
}
"""Every field of a part, and what may be written there."""
FIELDS = tuple(MEANING)
_PLAIN = {"title": "title", "maker": "maker", "motif": "motif", "from": "taken_from",
          "place": "place", "note": "note"}  # fmt: skip


def written(part: Part) -> dict[str, str]:
    """All fields that say something, as `changed` reads them."""
    found = {
        "part": part.part,
        "material": part.material,
        "format": part.format,
        **{one.what: one.text for one in part.sizes},
        "seen": "; ".join(f"{one.check} {one.answer}" for one in part.seen),
        "made": part.made,
        "region": part.region,
        "cost": str(part.cost) if part.cost else "",
        "count": str(part.count),
        "since": part.since.isoformat(),
        **{name: getattr(part, field) for name, field in _PLAIN.items()},
    }
    return {name: found[name] for name in FIELDS if found.get(name)}


def changed(part: Part, texts: Mapping[str, str], knowledge: Knowledge, currency: str) -> Part:
    """The part with some fields as written; an empty text takes a field back to nothing.

    Raises:
        InputError: for a field that is not known, or a text that does not fit it; its `where` is
            the field.
    """
    values: dict[str, Any] = {}
    sizes = {one.what: one for one in part.sizes}
    for name, text in known_fields(texts, FIELDS).items():
        if name in MEASURED:
            sizes.pop(name, None)
            if text:
                sizes[name] = Size(name, text)
        elif name in _PLAIN:
            values[_PLAIN[name]] = text
        else:
            values[name] = _read(name, text, knowledge, currency)
    return replace(part, sizes=tuple(sizes[one] for one in MEASURED if one in sizes), **values)


def _read(name: str, text: str, knowledge: Knowledge, currency: str) -> Any:
    if name == "seen":
        return tuple(_seen(one, knowledge) for one in list_of(text))
    if name == "cost":
        return money_of(name, text, currency)
    if name == "count":
        return count_of(name, text or "1")
    if name == "since":
        return day_of(name, text)
    if name == "material":
        return "-".join(text.lower().split())
    known = {"part": knowledge.spares, "format": knowledge.formats, "made": MADE}
    return word_of(name, text, known.get(name, REGIONS))


def _seen(text: str, knowledge: Knowledge) -> Seen:
    """A check with one of its answers, as 'mat.shape oval'."""
    name, _, answer = text.partition(" ")
    name, answer = today(knowledge.former, name, answer.strip()).split(" ", 1)
    check = knowledge.checks.get(name)
    if check is None:
        mend = did_you_mean(name, knowledge.checks)
        raise InputError(f"'{name}' is no check", "seen", mend or "Write mat.shape oval.")
    known = [one.id for one in check.answers]
    if answer not in known:
        mend = did_you_mean(answer, known)
        raise InputError(f"'{answer}' is no answer of {name}", "seen", mend)
    return Seen(name, answer)
