"""Records told field by field: what one says, what an edit changed, where versions disagree."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import fields, is_dataclass

from appraise.base.money import Money
from appraise.base.percents import percent
from appraise.knowledge.statewords import STATES
from appraise.records.entry import LoggedEstimate
from appraise.records.fields import Field, Record
from appraise.records.picture_file import PictureFile
from appraise.records.record_types import from_text
from appraise.records.values import PageKind
from appraise.store.revisions import Revision

REST = Field("rest", label="what this version does not know", typed=False)
REMOVED = "removed"
NOTHING = "nothing"
LONGEST = 60  # characters of one value, where several stand in a line


def words(thing: Record, field: Field) -> str:
    """What a record holds in a field, as it is typed; empty where nothing was recorded.

    A text of several lines stands as it is, and what nobody types in words.
    """
    value = _value(thing, field)
    if value is None or not field.told(thing):
        return ""
    if field.typed and not isinstance(field.kind, PageKind):
        return field.kind.write(value)
    return _told(value)


def _told(value: object) -> str:
    if isinstance(value, LoggedEstimate):
        return f"{value.low.plain} .. {value.median} .. {value.high.plain}"
    if isinstance(value, Mapping):
        return json.dumps(value, ensure_ascii=False, sort_keys=True) if value else ""
    return ", ".join(map(_part, value)) if isinstance(value, tuple) else _part(value)


def _part(value: object) -> str:
    if isinstance(value, PictureFile):
        return value.name or value.sha256[:8]
    if isinstance(value, tuple):
        state, chance = value
        return f"{STATES.get(state, state)} {percent(chance)}"
    if is_dataclass(value) and not isinstance(value, Money):
        parts = (getattr(value, each.name) for each in fields(value))
        return " ".join(_told(part) for part in parts if part)
    return str(value)


def changes(before: Record, after: Record) -> tuple[str, ...]:
    """What an edit changed: 'paid 45.00 USD to 40.00 USD', one text a field."""
    return tuple(
        _changed(each, _short(before, each), _short(after, each))
        for each in _fields(after)
        if _value(before, each) != _value(after, each)
    )


def _changed(field: Field, before: str, after: str) -> str:
    """What an edit did to a field; a whole piece file is told by its name alone."""
    if not field.typed and isinstance(field.kind, PageKind):
        return f"{field.title} changed"
    if before == NOTHING:
        return f"{field.title} set to {after}"
    if after == NOTHING:
        return f"{field.title} {before} {REMOVED}"
    return f"{field.title} {before} to {after}"


def disagreement(versions: Sequence[Revision]) -> tuple[str, ...]:
    """Of each version the fields in which it differs from some other: 'paid 40.00 USD, ...'.

    Raises:
        InputError: when a version cannot be read.
    """
    things = [None if each.body is None else from_text(each.body) for each in versions]
    kept = [thing for thing in things if thing is not None]
    open_fields = [
        each
        for each in (_fields(kept[0]) if kept else ())
        if any(_value(one, each) != _value(kept[0], each) for one in kept)
    ]
    return tuple(_version(thing, open_fields) for thing in things)


def _fields(thing: Record) -> tuple[Field, ...]:
    return (*thing.FIELDS, REST)


def _version(thing: Record | None, fields: Sequence[Field]) -> str:
    if thing is None:
        return REMOVED
    said = (f"{each.title} {_short(thing, each)}" for each in fields)
    return ", ".join(said) or "left as it is"


def _value(thing: Record, field: Field) -> object:
    try:
        return field.value(thing)
    except AttributeError:  # another type of record, or one that cannot be read
        return None


def _short(thing: Record, field: Field) -> str:
    text = " ".join(words(thing, field).split())
    return (text if len(text) <= LONGEST else f"{text[: LONGEST - 2]}..") or NOTHING
