"""The simple fields of an entry as a form."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from appraise.app.fieldwords import (
    Values,
    appeal_in,
    day_in,
    money_in,
    quality_in,
    word_in,
    words_in,
    written,
)
from appraise.app.form import Field
from appraise.base.errors import InputError
from appraise.log.entries import CHANNELS, KINDS, RECORDS, Entry
from appraise.piece.records import IDENTIFIED, SUBJECTS

LINES = ("title", "motif", "maker", "venue")
OPEN = ("process", "housing", "format")
MONEY = ("asked", "offered", "paid", "hammer", "postage")
SEVERAL = "Whom or what it shows; several with commas, the leading one first."
NAMED = "How well the sitter is: no, initials, name, full (with place, trade or unit), proven."
QUALITY = "Sharpness, tones, exposure: 1 to 5, 3 as usual."


def fields_of(entry: Entry) -> list[Field]:
    """The fields, filled in as the entry stands."""
    yes_no = ("yes", "no")
    own = "yes when you made or assembled it: it then teaches the tool no price."
    return [
        Field("title", "title", entry.title, "One line to know it by."),
        Field("record", "what happened", entry.record, choices=RECORDS),
        Field("date", "day", entry.date.isoformat(), "As 2026-11-25."),
        Field("channel", "where", entry.channel, choices=CHANNELS),
        Field("venue", "place", entry.venue, "In your words."),
        Field("kind", "kind", entry.kind, choices=KINDS),
        *(Field(name, name, getattr(entry, name), "A word of the knowledge.") for name in OPEN),
        Field("motif", "motif", entry.motif, "What the case or the picture shows."),
        Field("subjects", "subjects", ", ".join(entry.subjects), SEVERAL, SUBJECTS),
        Field("identified", "identified", entry.identified, NAMED, IDENTIFIED),
        Field("maker", "maker", entry.maker, "Who took it or made it, where that is known."),
        Field("quality", "image quality", _mark(entry.quality), QUALITY),
        Field("appeal", "appeal", str(entry.appeal or ""), "Your own eye, 1 to 5."),
        *(Field(n, n, written(getattr(entry, n)), "As 45 or 45.00 USD.") for n in MONEY),
        Field("own_work", "own work", "yes" if entry.own_work else "no", own, yes_no),
        Field("note", "note", " ".join(entry.note.split("\n"))),
    ]


def _mark(value: float | None) -> str:
    return "" if value is None else f"{value:g}"


def entry_with(entry: Entry, values: Values, currency: str) -> Entry:
    """The entry with what was typed; a note of several lines stays as it is unless changed.

    Raises:
        InputError: one line; its `where` is the field.
    """
    day = day_in(values, "date", entry.date)
    shown_note = " ".join(entry.note.split("\n"))
    record = word_in(values, "record", RECORDS, entry.record)
    money: dict[str, Any] = {name: money_in(values, name, currency) for name in MONEY}
    if not any(money.values()) and entry.price is not None:
        raise InputError(
            "an entry without any amount teaches nothing", "paid", "Remove it instead."
        )
    texts: dict[str, Any] = {n: " ".join(values[n].split()) for n in (*LINES, *OPEN)}
    return replace(
        entry,
        record=record,
        date=day,
        channel=word_in(values, "channel", CHANNELS),
        kind=word_in(values, "kind", KINDS),
        subjects=words_in(values, "subjects", SUBJECTS),
        identified=word_in(values, "identified", IDENTIFIED),
        quality=quality_in(values),
        appeal=appeal_in(values),
        own_work=word_in(values, "own_work", ("yes", "no")) == "yes",
        note=entry.note if values["note"] == shown_note else values["note"],
        **texts,
        **money,
    )
