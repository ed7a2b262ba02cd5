"""Entries told field by field: what one says, what an edit changed, where versions disagree."""

import json
from collections.abc import Mapping, Sequence

from appraise.log.codec import from_text
from appraise.log.entries import FIELDS, Entry, Estimate, Picture
from appraise.log.revisions import Revision

NAMES: Mapping[str, str] = {
    "condition_factor": "condition",
    "maker_known": "maker known",
    "own_work": "own work",
    "piece": "piece file",
}
"""What fields are called where their own name does not do."""

REMOVED = "removed"
NOTHING = "nothing"
LONGEST = 60  # characters of one value, where several stand in a line
_FIELDS = tuple(name for name in FIELDS if name != "id")


def name_of(field: str) -> str:
    """What a field is called."""
    return NAMES.get(field, field)


def told(value: object) -> str:
    """A field's value in words; empty when it was not recorded."""
    if value is None or value in ("", False, ()) or value == {}:
        return ""
    if value is True:
        return "yes"
    if isinstance(value, Estimate):
        return f"{value.low.plain} .. {value.median} .. {value.high.plain}"
    if isinstance(value, Mapping):
        return json.dumps(value, ensure_ascii=False, sort_keys=True)
    if isinstance(value, tuple):
        return ", ".join(map(_part, value))
    return str(value)


def _part(value: object) -> str:
    if isinstance(value, Picture):
        return value.name or value.sha256[:8]
    if isinstance(value, tuple):
        state, chance = value
        return f"{state} {round(100 * chance)} in 100"
    return str(value)


def changes(before: Entry, after: Entry) -> tuple[str, ...]:
    """What an edit changed: 'paid 45.00 USD to 40.00 USD', one text a field."""
    return tuple(
        f"{name_of(name)} {_short(getattr(before, name))} to {_short(getattr(after, name))}"
        for name in _FIELDS
        if getattr(before, name) != getattr(after, name)
    )


def disagreement(versions: Sequence[Revision]) -> tuple[str, ...]:
    """Of each version the fields in which it differs from some other: 'paid 40.00 USD, ...'.

    Raises:
        InputError: when a version cannot be read.
    """
    entries = [None if each.body is None else from_text(each.body) for each in versions]
    kept = [entry for entry in entries if entry is not None]
    open_fields = [
        name for name in _FIELDS if any(_value(one, name) != _value(kept[0], name) for one in kept)
    ]
    return tuple(_version(entry, open_fields) for entry in entries)


def _version(entry: Entry | None, fields: Sequence[str]) -> str:
    if entry is None:
        return REMOVED
    said = (f"{name_of(name)} {_short(getattr(entry, name))}" for name in fields)
    return ", ".join(said) or "kept as it is"


def _value(entry: Entry, name: str) -> object:
    return getattr(entry, name)


def _short(value: object) -> str:
    text = " ".join(told(value).split())
    return (text if len(text) <= LONGEST else f"{text[: LONGEST - 2]}..") or NOTHING
