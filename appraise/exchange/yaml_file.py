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
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from itertools import pairwise
from typing import Any

from appraise.base.errors import InputError, placed
from appraise.base.money import Money
from appraise.base.yamls import Row, compose
from appraise.records.entry import ATTRIBUTES, Entry, LoggedEstimate
from appraise.records.fields import Field
from appraise.records.picture_file import PictureFile
from appraise.records.piece_words import SUBJECTS
from appraise.records.quantities import AmountKind
from appraise.records.record_types import to_json
from appraise.records.values import NOBODY, IdKind, SeveralKind, UntypedKind, WordKind
from appraise.records.yaml_fields import values_in, yaml_text

VERSION = "1"
_TYPED = (
    Field("id", kind=IdKind()),
    Field("subject", kind=SeveralKind(WordKind(SUBJECTS)), holds=("subjects",)),
    *(each for each in Entry.FIELDS if not isinstance(each.kind, UntypedKind)),
)
"""All that is written as one text; older files tell one `subject`."""


def to_yaml(entries: Iterable[Entry]) -> str:
    """The entries as one YAML document."""
    return b"".join(yaml_parts(entries)).decode()


def yaml_parts(entries: Iterable[Entry]) -> Iterator[bytes]:
    """The same document in parts, for a log of any length."""
    head = f"log: {VERSION}\nentries:"
    first = True
    for entry in entries:
        yield f"{head}\n{_item(entry)}".encode() if first else _item(entry).encode()
        first = False
    if first:
        yield f"{head} []\n".encode()


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
    told = values_in(row, _TYPED, NOBODY)
    told |= {name: read(row, name) for name, read in _UNTYPED.items() if name in row}
    row.done(ATTRIBUTES)
    for name in ("record", "date"):
        if name not in told:
            raise row.error(name, "is missing")
    try:
        return Entry(**told)
    except InputError as error:
        field = error.where.partition(".")[0]
        where = row.where(field) if field in ATTRIBUTES else row.where()
        raise InputError(error.what, where, error.mend) from error


def _belonging(row: Row, name: str) -> tuple[tuple[str, float], ...]:
    states = row.row(name)
    return tuple((state, states.number(state, high=1)) for state in states)


def _estimate(row: Row, name: str) -> LoggedEstimate:
    parts = row.row(name)
    amounts = [_amount(parts, part) for part in ("low", "median", "high")]
    parts.done()
    return LoggedEstimate(*amounts)


def _amount(row: Row, name: str) -> Money:
    with placed(row.where(name)):
        return AmountKind().read(row.text(name), NOBODY)


def _pictures(row: Row, name: str) -> tuple[PictureFile, ...]:
    return tuple(PictureFile(each.text("sha256"), each.text("name")) for each in row.rows(name))


def _json(row: Row, name: str) -> dict[str, Any]:
    try:
        found = json.loads(row.text(name))
    except (ValueError, RecursionError) as error:
        raise row.error(name, "is not readable JSON") from error
    if not isinstance(found, dict):
        raise row.error(name, "is not a map")
    return found


_UNTYPED = {
    "belonging": _belonging,
    "estimate": _estimate,
    "pictures": _pictures,
    "extra": _json,
}


def _item(entry: Entry) -> str:
    data = to_json(entry, money=str)
    if entry.belonging:
        data["belonging"] = dict(entry.belonging)
    if entry.extra:
        data["extra"] = json.dumps(data["extra"], ensure_ascii=False)
    return yaml_text([data])
