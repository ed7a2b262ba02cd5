"""The types of record that the log keeps, and their text.

The text is one line of JSON in a fixed order and without what was not recorded: equal records,
equal text. A price stands in it by itself and without its id, every other record as
`{"holding":{TYPE:{...}}}`. A value under a name that is not known here, or that cannot be
read, is kept in `Record.rest`; a record of a type that is not known, or that cannot be read as a
whole, is kept as it stands (`Unknown`). Both are written back as they came.
"""

import datetime as dt
import json
import re
import types
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import fields, is_dataclass
from decimal import Decimal, InvalidOperation
from functools import lru_cache
from importlib import import_module
from typing import Any, TypeVar, Union, get_args, get_origin, get_type_hints

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.logday import LogDay, PartialDay, log_day_of
from appraise.base.money import Money, as_json
from appraise.records.fields import Record, defaults, once_a_type
from appraise.records.values import NOBODY

R = TypeVar("R")

PRICE = "price"
_HOMES = {
    PRICE: "appraise.records.entry.Entry",
    "want": "appraise.records.want.Want",
    "lot": "appraise.records.lot.Lot",
    "budget": "appraise.records.budget.Budget",
    "kept": "appraise.records.owned.OwnedPiece",
    "stock": "appraise.records.part.Part",
    "work": "appraise.records.repair.Repair",
    "venue": "appraise.records.venue.Venue",
    "rate": "appraise.records.rate.Rate",
    "currency": "appraise.records.base_currency.BaseCurrency",
}
"""Where the dataclass of each type lives."""
_AMOUNT = re.compile(r"[0-9]{1,12}(?:\.[0-9]{1,3})?\Z")
_HEAD = '{"holding":'
_NEVER = object()  # what no attribute holds
_ENCODE = json.JSONEncoder(ensure_ascii=False, sort_keys=True, separators=(",", ":")).encode


@dataclass(frozen=True, slots=True)
class Unknown(Record):
    """A record that this version cannot read: its type, and its text as it stands."""

    type: str
    text: str
    title: str = ""


class _Types(Mapping[str, type[Record]]):
    """The dataclass of each type, imported when it is first asked for: 5 to 20 ms each."""

    def __getitem__(self, name: str) -> type[Record]:
        module, _, last = _HOMES[name].rpartition(".")
        found: type[Record] = getattr(import_module(module), last)
        return found

    def __iter__(self) -> Iterator[str]:
        return iter(_HOMES)

    def __len__(self) -> int:
        return len(_HOMES)

    def __contains__(self, name: object) -> bool:
        return name in _HOMES


TYPES: Mapping[str, type[Record]] = _Types()


@once_a_type
def name_of(sort: type[Record]) -> str:
    """The name of a type in the log."""
    home = f"{sort.__module__}.{sort.__qualname__}"
    return next(name for name, known in _HOMES.items() if known == home)


def name_of_thing(thing: Record) -> str:
    """The name of a record's type in the log, known here or not."""
    return thing.type if isinstance(thing, Unknown) else name_of(type(thing))


def type_of(text: str) -> str:
    """The type of a record's text."""
    return text[len(_HEAD) + 2 :].partition('"')[0] if text.startswith(_HEAD) else PRICE


def to_text(thing: Record) -> str:
    """A record as the log keeps it."""
    if isinstance(thing, Unknown):
        return thing.text
    name, body = name_of(type(thing)), to_json(thing)
    if name == PRICE:
        body.pop("id", None)
        return _ENCODE(body)
    return _ENCODE({"holding": {name: body}})


def from_text(text: str, record_id: str = "") -> Record:
    """The record that `to_text` wrote, by this version or a newer one.

    Args:
        text: One line of JSON.
        record_id: The id that the log keeps it by, which a price bears itself.

    Raises:
        InputError: when the text is no record.
    """
    try:
        data = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise InputError("a record of the log is not readable JSON", record_id) from error
    if not isinstance(data, dict):
        raise InputError("a record of the log needs key: value pairs", record_id)
    if type_of(text) == PRICE:
        return from_json(TYPES[PRICE], {**data, "id": record_id} if record_id else data)
    inner = data.get("holding") if len(data) == 1 else None
    if not isinstance(inner, dict) or len(inner) != 1:
        raise InputError("a record of the log is of no type")
    ((name, told),) = inner.items()
    if not isinstance(told, dict):
        raise InputError(f"a {name} of the log needs key: value pairs")
    try:
        if name in TYPES:
            return from_json(TYPES[name], told)
    except InputError:
        pass
    title = told.get("title")
    return Unknown(name, text, " ".join(title.split()) if isinstance(title, str) else "")


def to_json(thing: Any, money: Callable[[Money], Any] = as_json) -> dict[str, Any]:
    """A record as JSON values; what was not recorded is left out.

    Args:
        thing: The record.
        money: How an amount is written.
    """
    rest = getattr(thing, "rest", None)
    if isinstance(thing, Record) and thing.AS_TYPED:
        return {**thing.rest, **texts_of(thing)}
    out = {}
    for name, unsaid in _unsaid(type(thing)):
        held = getattr(thing, name)
        if held is not unsaid and held != unsaid:
            out[name] = held if type(held) is str else _value(held, money)
    return {**rest, **out} if rest else out


@once_a_type
def _unsaid(sort: type[Any]) -> Sequence[tuple[str, Any]]:
    """The attributes of a dataclass, and what each holds when nothing was recorded."""
    unsaid, names = defaults(sort), [each.name for each in fields(sort)]
    return [(name, unsaid.get(name, _NEVER)) for name in names if name != "rest"]


def _value(value: Any, money: Callable[[Money], Any]) -> Any:
    if isinstance(value, Money):
        return money(value)
    if isinstance(value, PartialDay):
        return value.text
    if is_dataclass(value):
        return to_json(value, money)
    if isinstance(value, tuple):
        return [_value(each, money) for each in value]
    if isinstance(value, Mapping):
        return dict(value)
    if isinstance(value, Decimal):
        return str(value)
    return value.isoformat() if isinstance(value, dt.date) else value


def from_json(sort: type[R], data: Mapping[str, Any]) -> R:
    """The record that `to_json` wrote; what it cannot read goes into `rest`.

    Raises:
        InputError: when a value that it needs is missing or cannot be read.
    """
    made: R
    if issubclass(sort, Record) and sort.AS_TYPED:
        made = _of_texts(sort, data)
        return made
    readers, values, rest = readers_of(sort), dict[str, Any](), dict[str, Any]()
    unsaid, data = defaults(sort), sort.of_today(data) if issubclass(sort, Record) else data
    for name, told in data.items():
        try:
            values[name] = readers[name](told)
        except (InputError, KeyError, TypeError, ValueError, InvalidOperation) as error:
            if name in readers and name not in unsaid:
                raise InputError(f"cannot be read: {told!r}", name) from error
            rest[name] = told
    for name in _needed(sort):
        if name not in values:
            raise InputError("is missing", name)
    if issubclass(sort, Record):
        made = made_of(sort, values, rest, data)
        return made
    if rest:
        raise InputError(f"holds something that is not known here: {', '.join(rest)}")
    return sort(**values)


@once_a_type
def _needed(sort: type[Any]) -> Sequence[str]:
    """The attributes that a dataclass cannot do without."""
    return [name for name in readers_of(sort) if name not in defaults(sort)]


def texts_of(thing: Record) -> dict[str, str]:
    """Every field that says something, as it is typed."""
    return {each.name: each.text(thing) for each in thing.FIELDS if each.told(thing)}


def _of_texts(sort: Any, data: Mapping[str, Any]) -> Any:
    """A record that is kept as it is typed."""
    known = {each.name: each for each in sort.FIELDS}
    values, rest = dict[str, Any](), dict[str, Any]()
    blank = Record()
    for name, told in data.items():
        try:
            if not isinstance(told, str):
                raise InputError("is not text", name)
            values |= known[name].read(told, blank, NOBODY, values)
        except (InputError, KeyError):
            rest[name] = told
    try:
        return sort(**values, rest=rest)
    except TypeError as error:
        raise InputError("a field that it needs is missing") from error


def made_of(
    sort: Any, values: dict[str, Any], rest: dict[str, Any], data: Mapping[str, Any]
) -> Any:
    """The record; the values of a field that it refuses go into `rest`, where it can do without."""
    try:
        return sort(**values, rest=rest)
    except InputError as error:
        fields = [each for each in sort.FIELDS if each.name == error.where]
        refused = [name for each in fields for name in each.attributes if name in values]
        if not refused or any(name not in defaults(sort) for name in refused):
            raise
        left = {name: value for name, value in values.items() if name not in refused}
        return made_of(sort, left, {**rest, **{name: data[name] for name in refused}}, data)


@once_a_type
def readers_of(sort: type[Any]) -> Mapping[str, Callable[[Any], Any]]:
    """How each attribute of a dataclass is read of JSON, by its own type."""
    hints = get_type_hints(sort)
    return {each.name: _reader(hints[each.name]) for each in fields(sort) if each.name != "rest"}


def _reader(hint: Any) -> Callable[[Any], Any]:
    if hint in _PLAIN:
        return _PLAIN[hint]
    if get_origin(hint) in (Union, types.UnionType):
        inner = _reader(next(each for each in get_args(hint) if each is not type(None)))
        return lambda told: None if told is None else inner(told)
    if get_origin(hint) is tuple and get_args(hint)[1] is not Ellipsis:
        inners = [_reader(each) for each in get_args(hint)]
        return lambda told: tuple(
            read(part) for read, part in zip(inners, _of(told, list), strict=True)
        )
    if get_origin(hint) is tuple:
        each = _reader(get_args(hint)[0])
        return lambda told: tuple(map(each, _of(told, list)))
    if get_origin(hint) is Mapping:
        return lambda told: _of(told, dict)
    if is_dataclass(hint):
        sort: Any = hint
        return lambda told: from_json(sort, _of(told, dict))
    raise TypeError(f"{hint} cannot be saved")


def _of(told: Any, sort: type[R]) -> R:
    if type(told) is not sort:
        raise TypeError(f"{told!r} is not a {sort.__name__}")
    return told


def _money(told: Any) -> Money:
    if _of(told, dict).keys() != {"amount", "currency"}:
        raise ValueError("is not an amount and a currency")
    return amount_of(_of(told["amount"], str), _of(told["currency"], str))


@lru_cache(maxsize=4_096)
def amount_of(amount: str, currency: str) -> Money:
    """An amount as the log writes it, read once: records never change.

    Raises:
        ValueError: when it is written otherwise.
        InputError: when there is no such currency.
    """
    if not _AMOUNT.match(amount):
        raise ValueError("is not an amount of money")
    return Money(Decimal(amount), currency)


def _text(told: Any) -> str:
    if type(told) is not str:
        raise TypeError(f"{told!r} is not a str")
    return told


def _decimal(told: Any) -> Decimal:
    return Decimal(_of(told, str))


_log_day = lru_cache(maxsize=4_096)(log_day_of)


def _number(told: Any) -> float:
    number: float = told if type(told) is int else _of(told, float)
    return number


def _day(told: Any) -> dt.date:
    day = dt.date.fromisoformat(told)
    if day.isoformat() != told:
        raise ValueError("is not written as a day is")
    return day


_PLAIN: Mapping[Any, Callable[[Any], Any]] = {
    str: _text,
    int: lambda told: _of(told, int),
    float: _number,
    bool: lambda told: _of(told, bool),
    Decimal: _decimal,
    Money: _money,
    dt.date: _day,
    LogDay: lambda told: _log_day(_of(told, str)),
    dt.datetime: lambda told: dt.datetime.fromisoformat(_of(told, str)).astimezone(dt.UTC),
}
