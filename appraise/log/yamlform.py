"""Entries as YAML, to be read and edited by people: out and in again without loss.

log: 1                          # format version
entries:
- id: 0123456789abcdef
record: bought
date: 2024-05-31
paid: 45.00 USD
"""

import json
import re
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from itertools import pairwise
from typing import Any

import yaml

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.base.yamls import Row, compose
from appraise.log.codec import from_json, to_json
from appraise.log.entries import FIELDS, MONEY_FIELDS, SEVERAL, Entry

VERSION = "1"
_FLAGS = ("maker_known", "own_work")
_FORMER = ("subject",)
_PARTS = ("low", "median", "high")
_Dumper: Any = getattr(yaml, "CSafeDumper", yaml.SafeDumper)


class _Pages(_Dumper):  # type: ignore[misc]
    """Writes text of several lines as it stands."""


def _text(dumper: Any, value: str) -> Any:
    style = "|" if "\n" in value else None
    return dumper.represent_scalar("tag:yaml.org,2002:str", value, style=style)


_Pages.add_representer(str, _text)


def to_yaml(entries: Iterable[Entry]) -> str:
    """The entries as one YAML document."""
    head = f"log: {VERSION}\nentries:"
    items = [_item(entry) for entry in entries]
    return f"{head}\n{''.join(items)}" if items else f"{head} []\n"


def from_yaml(text: str, file: str) -> tuple[Entry, ...]:
    """The entries of a YAML document.

    Args:
        text: The whole file.
        file: Its name for messages.

    Raises:
        InputError: naming file, line and key, when it is not what `to_yaml` writes or a
            person may make of it. Then nothing is read.
    """
    return tuple(_entries(text, file))


def _entries(text: str, file: str) -> Iterator[Entry]:
    """The list under `entries`, composed piece by piece where each begins a line with a dash.

    So a log of any length is read in pieces; a line of its own is no dash elsewhere.
    """
    lines = text.split("\n")
    starts = [number for number, line in enumerate(lines) if line.startswith("- ")]
    if not starts:
        top = _top(text, file)
        rows = top.rows("entries")
        top.done()
        yield from [_entry(row) for row in rows]
        return
    top = _top("\n".join(lines[: starts[0]]), file)
    if top.text("entries"):
        raise top.error("entries", "a list is needed here")
    top.done()
    for start, end in pairwise((*starts, len(lines))):
        item = "\n".join(("entries:", *lines[start:end]))
        with _lines_counted(file, start - 1):
            part = compose(item, file)
            rows = part.rows("entries")
            part.done()
            found = [_entry(row) for row in rows]
        yield from found


def _top(text: str, file: str) -> Row:
    top = compose(text, file)
    version = top.text("log")
    if version != VERSION:
        raise top.error("log", f"version {version} of a log file is not known", "Write log: 1.")
    if "entries" not in top:
        top.done(("entries",))
    return top


@contextmanager
def _lines_counted(file: str, before: int) -> Iterator[None]:
    """Name the file's lines in errors of a piece that has so many lines before it."""
    try:
        yield
    except InputError as error:
        start = f"{file}:"
        number = re.match(r"\d+", error.where.removeprefix(start))
        if not number or not error.where.startswith(start):
            raise
        rest = error.where[len(start) + number.end() :]
        where = f"{start}{int(number[0]) + before}{rest}"
        raise InputError(error.what, where, error.mend) from error


def _entry(row: Row) -> Entry:
    names = (*FIELDS, *_FORMER)
    data = {name: _value(row, name) for name in names if name in row}
    row.done(names)
    try:
        return from_json(data)
    except InputError as error:
        field = error.where.partition(".")[0]
        where = row.where(field) if field in FIELDS else row.where()
        raise InputError(error.what, where, error.mend) from error


def _value(row: Row, name: str) -> Any:
    if name in MONEY_FIELDS:
        return _money(row, name)
    if name in _FLAGS:
        return row.flag(name)
    if name in SEVERAL:
        return list(row.words(name))
    if name == "identified":
        return _identified(row.text(name))
    if name == "appeal":
        return _whole(row, name)
    if name == "quality":
        return row.number(name, low=1, high=5)
    if name == "condition_factor":
        return row.number(name, high=10)
    if name == "belonging":
        states = row.row(name)
        return [[state, states.number(state, high=1)] for state in states]
    if name == "estimate":
        return _parts(row.row(name), _PARTS, _money)
    if name == "pictures":
        return [_parts(each, ("sha256", "name"), Row.text) for each in row.rows(name)]
    if name == "extra":
        return _json(row, name)
    return row.text(name)


def _identified(text: str) -> str:
    """How well a sitter is identified; older files say yes or no."""
    return {"yes": "name", "true": "name", "false": "no"}.get(text.lower(), text)


def _parts(row: Row, names: tuple[str, ...], read: Callable[[Row, str], Any]) -> dict[str, Any]:
    found = {name: read(row, name) for name in names}
    row.done()
    return found


def _money(row: Row, name: str) -> dict[str, str]:
    try:
        money = Money.parse(row.text(name), point=".")
    except InputError as error:
        raise row.error(name, error.what, error.mend) from error
    return {"amount": f"{money.amount:f}", "currency": money.currency}


def _whole(row: Row, name: str) -> int:
    text = row.text(name)
    if not re.fullmatch(r"[0-9]{1,3}", text):
        raise row.error(name, f"'{text}' is not a whole number")
    return int(text)


def _json(row: Row, name: str) -> Any:
    try:
        return json.loads(row.text(name))
    except (ValueError, RecursionError) as error:
        raise row.error(name, "is not readable JSON") from error


def _item(entry: Entry) -> str:
    data = to_json(entry)
    for name in MONEY_FIELDS:
        if name in data:
            data[name] = str(getattr(entry, name))
    if entry.estimate:
        data["estimate"] = {part: str(getattr(entry.estimate, part)) for part in _PARTS}
    if entry.belonging:
        data["belonging"] = dict(entry.belonging)
    if entry.extra:
        data["extra"] = json.dumps(data["extra"], ensure_ascii=False)
    return str(
        yaml.dump([data], Dumper=_Pages, sort_keys=False, allow_unicode=True, width=100, indent=2)
    )
