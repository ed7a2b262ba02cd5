"""JSON Schemas of records as `--json` prints them and the log keeps them, made of their types."""

import datetime as dt
import types
from collections.abc import Mapping
from dataclasses import MISSING, fields, is_dataclass
from decimal import Decimal
from typing import Any, Union, get_args, get_origin, get_type_hints

from appraise.base.logday import LogDay
from appraise.base.money import Money
from appraise.records.fields import Record
from appraise.records.record_types import TYPES

Schema = dict[str, Any]
MONEY: Schema = {
    "type": "object",
    "properties": {"amount": {"type": "string"}, "currency": {"type": "string"}},
    "required": ["amount", "currency"],
    "additionalProperties": False,
}
_PLAIN: Mapping[Any, Schema] = {
    str: {"type": "string"},
    int: {"type": "integer"},
    float: {"type": "number"},
    bool: {"type": "boolean"},
    Decimal: {"type": "string"},
    Money: {"$ref": "#/definitions/money"},
    dt.date: {"type": "string", "format": "date"},
    dt.datetime: {"type": "string", "format": "date-time"},
    LogDay: {"type": "string"},
}


def record_schemas() -> dict[str, Schema]:
    """By the name of its type in the log, the schema of every record; and that of money."""
    return {"money": MONEY, **{name: record_schema(TYPES[name]) for name in TYPES}}


def record_schema(sort: type[Any]) -> Schema:
    """A record: what was not recorded is left out, what a newer version wrote may stand in it."""
    if issubclass(sort, Record) and sort.AS_TYPED:
        told = {each.name: {"type": "string", "description": each.says} for each in sort.FIELDS}
        return {"type": "object", "properties": told}
    hints = get_type_hints(sort)
    says = {each.name: each.says for each in getattr(sort, "FIELDS", ()) if each.says}
    known = [each for each in fields(sort) if each.name != "rest"]
    needed = [
        one.name for one in known if one.default is MISSING and one.default_factory is MISSING
    ]
    properties = {
        one.name: {
            **({"description": says[one.name]} if one.name in says else {}),
            **_schema(hints[one.name]),
        }
        for one in known
    }
    made: Schema = {"type": "object", "properties": properties}
    return {**made, "required": needed} if needed else made


def _schema(hint: Any) -> Schema:
    if hint in _PLAIN:
        return _PLAIN[hint]
    inner = get_args(hint)
    if get_origin(hint) in (Union, types.UnionType):
        return _schema(next(each for each in inner if each is not type(None)))
    if get_origin(hint) is tuple and inner[1] is not Ellipsis:
        return {"type": "array", "items": [_schema(each) for each in inner]}
    if get_origin(hint) is tuple:
        return {"type": "array", "items": _schema(inner[0])}
    if is_dataclass(hint) and isinstance(hint, type):
        return record_schema(hint)
    return {"type": "object"}
