"""The sorts of record that the log keeps beside its prices, and their text.

A record is a frozen dataclass of plain values, days, money and further such records. Its text is
one line of JSON, `{"holding":{SORT:{...}}}`, in a fixed order and without what was not recorded:
equal records, equal text. Reading is by the dataclass's own types (msgspec), and strict: text
that would not be written so again is refused.
"""

import json
from collections.abc import Iterator, Mapping
from dataclasses import MISSING, Field, fields, is_dataclass
from datetime import date
from decimal import Decimal
from importlib import import_module
from typing import TYPE_CHECKING, Any

from appraise.base.errors import InputError
from appraise.base.money import Money, as_json

if TYPE_CHECKING:
    from appraise.keeping.budgets import Budget
    from appraise.keeping.kept import Kept
    from appraise.keeping.lots import Lot
    from appraise.keeping.stock import Part
    from appraise.keeping.wants import Want
    from appraise.keeping.work import Work

    Holding = Want | Lot | Budget | Kept | Part | Work
    """A record of any sort; each has a `title` of one line."""
else:
    Holding = object

_HOMES = {
    "want": "appraise.keeping.wants.Want",
    "lot": "appraise.keeping.lots.Lot",
    "budget": "appraise.keeping.budgets.Budget",
    "kept": "appraise.keeping.kept.Kept",
    "stock": "appraise.keeping.stock.Part",
    "work": "appraise.keeping.work.Work",
}
"""Where the dataclass of each sort lives."""


class _Sorts(Mapping[str, type[Any]]):
    """The dataclass of each sort, imported when it is first asked for: 5 to 20 ms each."""

    def __getitem__(self, name: str) -> type[Any]:
        module, _, last = _HOMES[name].rpartition(".")
        found: type[Any] = getattr(import_module(module), last)
        return found

    def __iter__(self) -> Iterator[str]:
        return iter(_HOMES)

    def __len__(self) -> int:
        return len(_HOMES)

    def __contains__(self, name: object) -> bool:
        return name in _HOMES


class _Names(Mapping[type[Any], str]):
    """The sort of each dataclass, by where it lives."""

    def __getitem__(self, sort: type[Any]) -> str:
        home = f"{sort.__module__}.{sort.__qualname__}"
        for name, known in _HOMES.items():
            if known == home:
                return name
        raise KeyError(sort)

    def __iter__(self) -> Iterator[type[Any]]:
        return iter(SORTS.values())

    def __len__(self) -> int:
        return len(_HOMES)


SORTS: Mapping[str, type[Any]] = _Sorts()
NAMES: Mapping[type[Any], str] = _Names()
_HEAD = '{"holding":'
_ENCODE = json.JSONEncoder(ensure_ascii=False, sort_keys=True, separators=(",", ":")).encode


def is_holding(text: str) -> bool:
    """Whether a text of the log is such a record, not a price."""
    return text.startswith(_HEAD)


def sort_of(text: str) -> str:
    """The sort of a record's text."""
    return text[len(_HEAD) + 2 :].partition('"')[0]


def to_json(thing: Any) -> dict[str, Any]:
    """A record as JSON values; what was not recorded is left out."""
    return {
        each.name: _value(getattr(thing, each.name))
        for each in fields(thing)
        if getattr(thing, each.name) != _unsaid(each)
    }


def from_json(sort: type[Holding], data: Any) -> Holding:
    """The record that `to_json` wrote.

    Raises:
        InputError: on a key that is not known or missing, or a value of the wrong sort.
    """
    import msgspec  # 10 ms

    try:
        thing: Holding = msgspec.convert(data, sort)
    except msgspec.ValidationError as error:
        raise InputError(f"a {NAMES[sort]} of the log cannot be read: {error}") from error
    if to_json(thing) != data:
        raise InputError(f"a {NAMES[sort]} of the log holds something that is not known here")
    return thing


def to_text(thing: Holding) -> str:
    """A record as the log keeps it."""
    return _ENCODE({"holding": {NAMES[type(thing)]: to_json(thing)}})


def from_text(text: str) -> Holding:
    """The record that `to_text` wrote.

    Raises:
        InputError: when the text is no such record.
    """
    try:
        data = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise InputError("a record of the log is not readable JSON") from error
    inner = data.get("holding") if isinstance(data, dict) and len(data) == 1 else None
    if not isinstance(inner, dict) or len(inner) != 1:
        raise InputError("a record of the log is of no sort")
    ((name, told),) = inner.items()
    if name not in SORTS:
        raise InputError(f"a record of the log is of a sort that is not known here: '{name}'")
    return from_json(SORTS[name], told)


def _unsaid(field: "Field[Any]") -> Any:
    """What a field holds when nothing was recorded; a required one is always told."""
    if field.default_factory is not MISSING:
        return field.default_factory()
    return field.default


def _value(value: Any) -> Any:
    if isinstance(value, Money):
        return as_json(value)
    if is_dataclass(value):
        return to_json(value)
    if isinstance(value, tuple):
        return [_value(each) for each in value]
    if isinstance(value, Decimal):
        return str(value)
    return value.isoformat() if isinstance(value, date) else value
