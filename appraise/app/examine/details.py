"""The piece's details as a form: what is known of it beside the checks."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import TypeVar

from appraise.app.examine.state import of_another_kind
from appraise.app.fieldwords import (
    Values,
    appeal_in,
    money_in,
    shipping_in,
    word_in,
    words_in,
    written,
)
from appraise.app.form import FormField
from appraise.base.ages import parse_ages
from appraise.base.dates import Dating
from appraise.base.errors import InputError
from appraise.base.measures import Measure
from appraise.knowledge.records import CHANNELS, KINDS, REGIONS, Knowledge
from appraise.records.piece import WRITTEN_ON, Inscription, Piece
from appraise.records.piece_words import SUBJECTS

Read = TypeVar("Read")

MEASURES = {
    "cased": ("plate", "package", "opening", "case", "recess"),
    "loose-plate": ("plate", "package", "opening"),
}
SIZE = "Example: 70 x 83 mm, 2 3/4 x 3 1/4 in or 44 mm dia."
MEASURED = {
    "plate": "The plate itself.",
    "package": "Plate, mat and glass as they sit together.",
    "opening": "The opening of the mat.",
    "case": "The closed case, outside.",
    "recess": "The well that the package sits in.",
    "mount": "The card or slide.",
}


SEVERAL = "What it shows; several with commas, the main one first."
PORTRAY = "Year to portray, e.g. 1863: would the piece look right in that year?"


def measures_of(kind: str) -> Sequence[str]:
    """What is measured on a kind of piece."""
    return MEASURES.get(kind, ("mount",))


def fields_of(piece: Piece, knowledge: Knowledge) -> list[FormField]:
    """The fields, filled in as the piece stands."""
    formats = [one.id for one in knowledge.formats.values() if piece.kind in one.kinds]
    age = piece.sitter_age
    ages = "" if age is None else str(age[0]) if age[0] == age[1] else f"{age[0]}..{age[1]}"
    own = "Your own taste, 1 to 5: how much you like it."
    by_conservator = "yes if a conservator reseated or resealed the package."
    return [
        FormField("title", "title", piece.title, "A title, one line."),
        FormField("kind", "kind", piece.kind, choices=KINDS),
        FormField("channel", "channel", piece.channel, choices=CHANNELS),
        FormField("region", "made in", piece.region, choices=(*REGIONS, "unknown")),
        *_amounts(piece),
        FormField(
            "format", "format", piece.named_format, "As named by the seller or by you.", formats
        ),
        *(
            FormField(
                f"size-{what}", f"size: {what}", _measure(piece, what), f"{MEASURED[what]} {SIZE}"
            )
            for what in measures_of(piece.kind)
        ),
        FormField("subject", "subjects", ", ".join(piece.subjects), SEVERAL, SUBJECTS),
        FormField(
            "motif", "motif", piece.motif, "What the case or the image shows, in your words."
        ),
        FormField("maker", "maker", piece.maker, "Photographer or maker, if known."),
        FormField("appeal", "appeal", str(piece.appeal or ""), own),
        FormField("conserved", "conserved", "yes" if piece.conserved else "no", by_conservator),
        FormField("sitter", "sitter's age", ages, "Example: 30 or 25..35."),
        FormField("portray", "to portray", str(piece.portray or ""), PORTRAY),
        *_writing(piece.inscription or Inscription()),
    ]


def _writing(one: Inscription) -> list[FormField]:
    """The fields of an inscription: its words, the date in them, the part it is on."""
    words = "Any inscription, on the piece or stored with it."
    day = "The date that stands in it. Example: 1859-04-03, 1859 or 1859~."
    where = "The part it is written on; a loose note dates nothing."
    return [
        FormField("inscription", "inscription", one.text, words),
        FormField("written-date", "date written", str(one.date or ""), day),
        FormField("written-where", "written on", one.where, where, WRITTEN_ON),
    ]


def _amounts(piece: Piece) -> Iterator[FormField]:
    asked, sent = written(piece.asking), _shipping(piece)
    yield FormField("asking", "asking", asked, "Example: 45 or 45.00 USD.", amount=True)
    yield FormField("shipping", "shipping", sent, "Shipping you pay; 0 if free.", amount=True)


def _shipping(piece: Piece) -> str:
    return "" if piece.shipping is None else str(piece.shipping)


def _measure(piece: Piece, what: str) -> str:
    measure = piece.measured.get(what)
    return str(measure) if measure else ""


def piece_with(piece: Piece, values: Values, knowledge: Knowledge, currency: str) -> Piece:
    """The piece with what was typed.

    Raises:
        InputError: one line; its `where` is the field.
    """
    kind = word_in(values, "kind", KINDS, piece.kind)
    if kind != piece.kind:
        piece = of_another_kind(piece, kind, knowledge)
    formats = [one.id for one in knowledge.formats.values() if kind in one.kinds]
    return replace(
        piece,
        title=" ".join(values["title"].split()),
        channel=word_in(values, "channel", CHANNELS, piece.channel),
        region=word_in(values, "region", (*REGIONS, "unknown"), "unknown"),
        asking=money_in(values, "asking", currency),
        shipping=shipping_in(values, "shipping", currency),
        named_format=word_in(values, "format", formats),
        measured=_measured(piece, values),
        subjects=words_in(values, "subject", SUBJECTS),
        motif=" ".join(values["motif"].split()),
        maker=" ".join(values["maker"].split()),
        appeal=appeal_in(values),
        conserved=word_in(values, "conserved", ("yes", "no")) == "yes",
        sitter_age=_ages(values),
        portray=_portrayed(values),
        inscription=_written(piece, values),
    )


def _measured(piece: Piece, values: Values) -> Mapping[str, Measure]:
    found = dict(piece.measured)
    for name, text in values.items():
        what = name.removeprefix("size-")
        if what == name:
            continue
        found.pop(what, None)
        if text:
            found[what] = _placed(name, Measure.parse, text)
    return found


def _ages(values: Values) -> tuple[int, int] | None:
    text = values["sitter"]
    return _placed("sitter", parse_ages, text) if text else None


def _portrayed(values: Values) -> int | None:
    text = values["portray"]
    if not text:
        return None
    if not (text.isascii() and text.isdigit() and 1800 <= int(text) <= 2100):
        raise InputError(f"'{text}' is not a year from 1800 to 2100", "portray", "Example: 1863.")
    return int(text)


def _placed(name: str, parse: Callable[[str], Read], text: str) -> Read:
    try:
        return parse(text)
    except InputError as error:
        raise InputError(error.what, name, error.mend) from None


def _written(piece: Piece, values: Values) -> Inscription | None:
    """The inscription as typed: its words, the date that stands in it, and the part it is on."""
    text, day = values["inscription"], values["written-date"]
    where = word_in(values, "written-where", WRITTEN_ON)
    date = _placed("written-date", Dating.parse, day) if day else None
    before = piece.inscription or Inscription()
    return replace(before, text=text, date=date, where=where) if text or date else None
