"""JSON Schemas of the files that a user writes, made of the fields by which they are read.

An editor that knows them completes a piece file and marks a slip. Draft 7 is what editors read. A
YAML editor takes `no`, `1` and `45.00` for a flag and numbers, so that a word which looks like one
may be either.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import fields
from typing import Any

from appraise.base.money import EXPONENTS
from appraise.base.settings import REGIONS, THEMES, Settings
from appraise.knowledge.basics import KNOWN
from appraise.knowledge.inquiry import Check
from appraise.knowledge.records import Knowledge
from appraise.records.fields import Field
from appraise.records.lot_file import FIELDS_OF_ITEM, FIELDS_OF_LOT
from appraise.records.piece import MEASURED, UNTOLD, WRITTEN_ON
from appraise.records.piece_file import FIELDS_OF_ORIGIN, FIELDS_OF_PIECE
from appraise.records.quantities import AmountKind, CountKind, NumberKind, PercentKind
from appraise.records.values import CodeKind, FlagKind, Kind, SeveralKind

Schema = dict[str, Any]
DRAFT = "http://json-schema.org/draft-07/schema#"
TEXT: Schema = {"type": "string"}
SCALAR: Schema = {"type": ["string", "number", "boolean"]}


def schema(name: str, knowledge: Knowledge) -> Schema:
    """The schema of a sort of file: 'piece', 'lot' or 'settings'."""
    return {
        "piece": lambda: piece_schema(knowledge),
        "lot": lambda: lot_schema(knowledge),
        "settings": settings_schema,
    }[name]()


def piece_schema(knowledge: Knowledge) -> Schema:
    """A piece file, with every check and answer of the knowledge."""
    told = {"piece": _words(["1"], "the format's version"), **_piece(knowledge)}
    return _headed("A piece as a buyer describes it", told, knowledge)


def lot_schema(knowledge: Knowledge) -> Schema:
    """A lot file: what is sold together, each piece in full or in a file of its own."""
    item = {**_properties(FIELDS_OF_ITEM, knowledge), **_piece(knowledge), "file": TEXT}
    pieces = {"type": "array", "minItems": 1, "items": _object(item)}
    told = {
        "lot": _words(["1"], "the format's version"),
        "currency": _words(EXPONENTS, "currency of the bids"),
        **_properties(FIELDS_OF_LOT, knowledge),
        "pieces": pieces,
    }
    return _headed("A lot of a sale", told, knowledge, ("lot", "pieces"))


def settings_schema() -> Schema:
    """The settings file; every field may be left out."""
    special = {
        "currency": _words(EXPONENTS, "your own currency"),
        "theme": _words(THEMES, "colours of the screen"),
        "region": _words(REGIONS, "where you are at home"),
        "ascii": _flag("draw with plain ASCII only"),
        "bidders": {"type": "integer", "minimum": 1, "maximum": 50},
        "opening": {"type": "number", "minimum": 0.05, "maximum": 1},
        "backup_days": {"type": "integer", "minimum": 1, "maximum": 100_000},
        "backup_size": {"type": "integer", "minimum": 1, "maximum": 10_000_000},
    }
    amount = {"type": ["number", "string"], "minimum": 0}
    told = {each.name: special.get(each.name, amount) for each in fields(Settings)}
    return _headed("Settings", told)


def _headed(
    title: str,
    properties: Mapping[str, Schema],
    knowledge: Knowledge | None = None,
    required: Sequence[str] = (),
) -> Schema:
    made: Schema = {"$schema": DRAFT, "title": title, **_object(properties, required)}
    if knowledge:
        found = {one.id: _finding(one) for one in knowledge.checks.values()}
        made["definitions"] = {"findings": _object(found), "told": TOLD}
    return made


def _object(properties: Mapping[str, Schema], required: Sequence[str] = ()) -> Schema:
    made: Schema = {
        "type": "object",
        "properties": dict(properties),
        "additionalProperties": False,
    }
    return {**made, "required": list(required)} if required else made


def _piece(knowledge: Knowledge) -> dict[str, Schema]:
    """What may be told of a piece, by key."""
    findings = {"$ref": "#/definitions/findings"}
    writing = _object({"text": TEXT, "date": SCALAR, "where": _words(WRITTEN_ON)})
    image = _object({"side": TEXT, "findings": findings}, ("side",))
    photo = _object({"sha256": TEXT, "name": TEXT}, ("sha256", "name"))
    return {
        **_properties(FIELDS_OF_PIECE, knowledge),
        "measured": _object(dict.fromkeys(MEASURED, TEXT)),
        "inscription": {"anyOf": [writing, {"type": "array", "items": writing}]},
        "sitter": _object({"age": SCALAR}, ("age",)),
        "from": _object(_properties(FIELDS_OF_ORIGIN, knowledge)),
        "not_shown": _list(TEXT),
        "findings": findings,
        "images": {"type": "array", "items": image},
        "photos": {"type": "array", "items": photo},
    }


def _finding(check: Check) -> Schema:
    """An answer alone, or with how it is known and whether a seller admitted it."""
    answer = _words([*(one.id for one in check.answers), UNTOLD])
    said = "\n".join(f"{one.id}: {one.says}" for one in check.answers)
    asked = f"{check.ask}\n{said}\nAsked of: {', '.join(check.kinds)}."
    return {"description": asked, "anyOf": [answer, {"$ref": "#/definitions/told"}]}


def _properties(of: Iterable[Field], knowledge: Knowledge) -> dict[str, Schema]:
    return {each.name: _described(_value(each.kind, knowledge), each.says) for each in of}


def _value(kind: Kind, knowledge: Knowledge) -> Schema:
    """What may stand for a kind of value."""
    match kind:
        case FlagKind():
            return _flag()
        case AmountKind() | NumberKind() | PercentKind():
            return {"type": ["number", "string"], "minimum": 0}
        case CountKind(low=low, high=high):
            return {"type": ["integer", "string"], "minimum": low, "maximum": high}
        case CodeKind():
            return _words(EXPONENTS)
        case SeveralKind(of=inner):
            return {"anyOf": [*_list(_value(inner, knowledge))["anyOf"], TEXT]}
    words = kind.words(knowledge)
    return _words(words) if words else SCALAR


def _list(item: Schema) -> Schema:
    """One value, or a list of them."""
    return {"anyOf": [item, {"type": "array", "items": item}]}


def _flag(says: str = "") -> Schema:
    return _words(("yes", "no", "true", "false"), says)


def _words(words: Iterable[str], says: str = "") -> Schema:
    """One of some words, however an editor takes them."""
    listed = list(dict.fromkeys(words))
    taken = {"yes": True, "true": True, "no": False, "false": False}
    other: list[Any] = [int(one) for one in listed if one.isdecimal()]
    other += dict.fromkeys(taken[one] for one in listed if one in taken)
    return _described({"enum": [*listed, *other]}, says)


def _described(made: Schema, says: str) -> Schema:
    return {"description": says, **made} if says else made


TOLD = _object(
    {"answer": SCALAR, "known": _words(KNOWN), "admitted": _flag("said against the sale")},
    ("answer",),
)
"""A finding with how it is known and whether a seller admitted it."""
