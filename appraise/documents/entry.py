"""A log entry, or another record of the log, as JSON and as one line."""

import json
from typing import Any

from appraise.base.logday import day_in_words
from appraise.records.entry import RECORDS, Entry
from appraise.records.fields import Record, title_of
from appraise.records.record_types import name_of_thing, to_json

_NAMES = ("format", "process", "housing", "motif")


def held_json(record_id: str, thing: Record) -> dict[str, Any]:
    """A record as JSON values, its id first."""
    return {"id": record_id, **to_json(thing)}


def entry_json(entry: Entry) -> dict[str, Any]:
    """An entry as JSON values, its id first."""
    return held_json(entry.id, entry)


def entry_document(entry: Entry) -> dict[str, Any]:
    """One entry as a JSON document."""
    return {"schema": "appraise.entry/1", "entry": entry_json(entry)}


def entry_line(entry: Entry) -> str:
    """An entry as one line: id, day, record, price, what it is, where."""
    price = str(entry.price) if entry.price else "no price"
    what = entry.title or " ".join(
        word for word in (entry.format, entry.process, entry.housing, entry.motif) if word
    )
    told = ", ".join(words for words in (what, entry.venue or entry.channel) if words)
    return _line(entry.id, str(entry.date), entry.record, price, told)


def _line(entry_id: str, day: str, record: str, price: str, told: str) -> str:
    shown = day if day[8:] else day_in_words(day)  # a whole day is as it is
    return f"{entry_id[:8]:<8}  {shown:<11}  {record:<8} {price:>12}  {told}".rstrip()


def kept_line(body: str, entry_id: str) -> str:
    """The same line of a price's text in the log, ten times as fast; '' where it takes more care.

    The log's texts were checked when they were written; what is not as plain as that is left to
    whoever reads the whole record.
    """
    try:
        told = json.loads(body)
        day, record = told["date"], told["record"]
        amount = told.get("paid") or told.get("hammer") or told.get("asked") or told.get("offered")
        price = f"{amount['amount']} {amount['currency']}" if amount else "no price"
    except (ValueError, KeyError, TypeError, AttributeError):
        return ""
    what = told.get("title") or " ".join(
        word for name in _NAMES if (word := told.get(name)) and isinstance(word, str)
    )
    where = told.get("venue") or told.get("channel") or ""
    if record not in RECORDS or not all(isinstance(one, str) for one in (day, what, where)):
        return ""
    said = ", ".join(words for words in (what, where) if words)
    return _line(entry_id, day, record, price, said)


def record_document(record_id: str, thing: Record | None) -> dict[str, Any]:
    """Any record of the log as a JSON document; None when it was removed."""
    if thing is None:
        return {"schema": "appraise.entry/1", "entry": None, "id": record_id}
    if isinstance(thing, Entry):
        return entry_document(thing.named(record_id))
    sort = name_of_thing(thing)
    return {"schema": f"appraise.{sort}/1", sort: held_json(record_id, thing)}


def record_line(record_id: str, thing: Record | None) -> str:
    """The same as one line."""
    if isinstance(thing, Entry):
        return entry_line(thing.named(record_id))
    what = f"{name_of_thing(thing)}: {title_of(thing)}" if thing else "removed"
    return f"{record_id[:8]:<8}  {what}"
