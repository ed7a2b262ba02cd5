"""Entries as JSON: strict on the way in, nothing lost on the way out."""

import datetime as dt
import json
import re
from collections.abc import Callable, Mapping
from decimal import Decimal
from typing import Any

from appraise.base.errors import InputError
from appraise.base.money import Money, as_json
from appraise.base.spelling import did_you_mean
from appraise.log.entries import (
    CLOSED_WORDS,
    FIELDS,
    LINES,
    MONEY_FIELDS,
    OPEN_WORDS,
    PAGES,
    SEVERAL,
    Entry,
    Estimate,
    Picture,
)
from appraise.records.record_types import made_of

_TEXTS = frozenset(("id", "identified", *CLOSED_WORDS, *OPEN_WORDS, *LINES, *PAGES)) - {*SEVERAL}
_REQUIRED = ("record", "date")
_ENCODE = json.JSONEncoder(ensure_ascii=False, sort_keys=True, separators=(",", ":")).encode
_AMOUNT = re.compile(r"[0-9]{1,12}(?:\.[0-9]{1,3})?\Z")


def to_json(entry: Entry) -> dict[str, Any]:
    """The entry as JSON values; what was not recorded is left out.

    Money is {"amount", "currency"}, `subjects` a list of words, `belonging` a list of [state,
    probability] pairs.
    """
    out: dict[str, Any] = {}
    for name in FIELDS:
        value = getattr(entry, name)
        if value is None or (value is False and name == "own_work") or value in ("", (), {}):
            continue
        out[name] = _WRITERS[name](value) if name in _WRITERS else value
    return {**entry.rest, **out}


def from_json(data: Mapping[str, Any]) -> Entry:
    """The entry that `to_json` wrote.

    Raises:
        InputError: on a key that is not known or missing, or a value of the wrong sort.
    """
    if not isinstance(data, Mapping):
        raise InputError("an entry needs key: value pairs")
    for key in of_today(data):
        if key not in FIELDS:
            raise InputError(f"field '{key}' is not known", mend=did_you_mean(str(key), FIELDS))
    return Entry(**_values(data))


def of_log(data: Mapping[str, Any]) -> Entry:
    """The entry of a log, by this version or a newer one: what is not known here is kept beside.

    Raises:
        InputError: on a key that is missing, or a value that it cannot do without.
    """
    if not isinstance(data, Mapping):
        raise InputError("an entry needs key: value pairs")
    today = of_today(data)
    rest = {name: value for name, value in today.items() if name not in FIELDS}
    entry: Entry = made_of(Entry, _values(today), rest, today)
    return entry


def _values(data: Mapping[str, Any]) -> dict[str, Any]:
    today = of_today(data)
    for key in _REQUIRED:
        if key not in today:
            raise InputError("is missing", where=key)
    return {name: _value(name, value) for name, value in today.items() if name in FIELDS}


def of_today(data: Mapping[str, Any]) -> Mapping[str, Any]:
    """An entry's values under the fields of today.

    Older logs had one `subject`, and of the sitter only whether a name was known.
    """
    found = dict(data)
    if "subject" in found and "subjects" not in found:
        subject = found.pop("subject")
        found["subjects"] = subject.split() if isinstance(subject, str) else subject
    if isinstance(found.get("identified"), bool):
        found["identified"] = "name" if found["identified"] else "no"
    return found


def to_text(entry: Entry) -> str:
    """The entry as one line of JSON in a fixed order, without its id: equal entries, equal text."""
    body = to_json(entry)
    body.pop("id", None)
    return _ENCODE(body)


def from_text(text: str, entry_id: str = "") -> Entry:
    """The entry that `to_text` wrote, under the id it is kept by.

    Raises:
        InputError: when the text is no entry.
    """
    try:
        data = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise InputError("the entry is not readable JSON", where=entry_id) from error
    if isinstance(data, dict) and entry_id:
        data["id"] = entry_id
    return of_log(data)


def _value(name: str, value: Any) -> Any:
    if name in _READERS:
        return _READERS[name](name, value)
    if name in _TEXTS and not isinstance(value, str):
        raise InputError(f"{value!r} is not text", where=name)
    return value


def _read_words(name: str, value: Any) -> tuple[str, ...]:
    if not isinstance(value, list) or not all(isinstance(each, str) for each in value):
        raise InputError("is not a list of words", where=name)
    return tuple(value)


def _pictures(pictures: tuple[Picture, ...]) -> list[dict[str, str]]:
    return [{"sha256": each.sha256, "name": each.name} for each in pictures]


def _estimate(estimate: Estimate) -> dict[str, Any]:
    return {name: as_json(getattr(estimate, name)) for name in ("low", "median", "high")}


def _read_date(name: str, value: Any) -> dt.date:
    try:
        day = dt.date.fromisoformat(value)
    except (TypeError, ValueError):
        day = None
    if day is None or day.isoformat() != value:
        raise InputError(f"'{value}' is not a day", where=name, mend="Example: 2024-05-31.")
    return day


def _read_money(name: str, value: Any) -> Money | None:
    if value is None:
        return None
    wanted = {"amount", "currency"}
    whole = isinstance(value, Mapping) and set(value) == wanted
    if not whole or not all(isinstance(part, str) for part in value.values()):
        raise InputError("is not an amount and a currency", where=name)
    if not _AMOUNT.match(value["amount"]):
        raise InputError(f"'{value['amount']}' is not an amount of money", where=name)
    return Money(Decimal(value["amount"]), value["currency"])


def _read_estimate(name: str, value: Any) -> Estimate | None:
    if value is None:
        return None
    parts = ("low", "median", "high")
    if not isinstance(value, Mapping) or set(value) != set(parts):
        raise InputError("needs low, median and high", where=name)
    read = {part: _read_money(f"{name}.{part}", value[part]) for part in parts}
    return Estimate(**read)  # type: ignore[arg-type]


def _read_belonging(name: str, value: Any) -> tuple[tuple[str, float], ...]:
    pairs = isinstance(value, list) and all(
        isinstance(pair, list) and len(pair) == 2 and isinstance(pair[0], str) for pair in value
    )
    if not pairs:
        raise InputError("is not a list of [state, probability] pairs", where=name)
    return tuple((state, chance) for state, chance in value)


def _read_pictures(name: str, value: Any) -> tuple[Picture, ...]:
    keys = {"sha256", "name"}
    if not isinstance(value, list) or not all(
        isinstance(each, Mapping) and set(each) == keys for each in value
    ):
        raise InputError("is not a list of sha256 and name", where=name)
    return tuple(Picture(each["sha256"], each["name"]) for each in value)


def _read_extra(name: str, value: Any) -> dict[str, Any]:
    if not isinstance(value, Mapping):
        raise InputError("is not a map", where=name)
    return dict(value)


_WRITERS: dict[str, Callable[[Any], Any]] = {
    "date": dt.date.isoformat,
    "belonging": lambda pairs: [[state, chance] for state, chance in pairs],
    "estimate": _estimate,
    "pictures": _pictures,
    "extra": dict,
    **dict.fromkeys(SEVERAL, list),
    **dict.fromkeys(MONEY_FIELDS, as_json),
}
_READERS: dict[str, Callable[[str, Any], Any]] = {
    "date": _read_date,
    "belonging": _read_belonging,
    "estimate": _read_estimate,
    "pictures": _read_pictures,
    "extra": _read_extra,
    **dict.fromkeys(SEVERAL, _read_words),
    **dict.fromkeys(MONEY_FIELDS, _read_money),
}
