"""What is told of all the pieces one owns: the list, what is due, care, air and light."""

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from appraise.base.jsonvalues import picked
from appraise.base.oneline import counted
from appraise.collection.air import Air, Outside, exposure, hours_left, outside, with_unit
from appraise.collection.upkeep import Due, Patient, due, patients
from appraise.documents.document import Document, Fact, Facts, Paragraph, Section, fact, section
from appraise.documents.owned_page import (
    basis_words,
    due_json,
    light_json,
    light_words,
    patient_fact,
    patient_json,
    when,
)
from appraise.knowledge.records import Knowledge
from appraise.records.owned import OwnedPiece
from appraise.records.stored import Stored

SHOWN = 3  # pieces named where a measure is outside a row's figures
NOTHING_DUE = "Nothing is due."
NO_CARE = "No piece needs a conservator. To check your room, give --humidity."
WITHIN = "All readings are within the recommended ranges."

Pieces = Sequence[Stored[OwnedPiece]]
DueOf = tuple[Stored[OwnedPiece], Due]
"""A piece, and something that is due of it."""


def list_json(pieces: Pieces, knowledge: Knowledge, as_of: dt.date) -> dict[str, Any]:
    """Kept pieces as a JSON document, each with what is due."""
    told = [
        picked(one.thing, "title number place status dated entry", id=one.id)
        | {"due": [due_json(each) for each in due(one.thing, knowledge, as_of)]}
        for one in pieces
    ]
    return {"schema": "appraise.kept-list/1", "as_of": as_of.isoformat(), "kept": told}


def kept_line(one: Stored[OwnedPiece], dues: Sequence[Due] = ()) -> str:
    """A kept piece as one line: number, title, place, status, years, what is due first."""
    kept = one.thing
    pressing = f"! {dues[0].says}, {when(dues[0])}" if dues and dues[0].now else ""
    told = [kept.title, kept.place, kept.status, kept.dated, pressing]
    return f"{kept.number or one.id[:8]:<8}  {', '.join(word for word in told if word)}"


def list_text(pieces: Pieces, knowledge: Knowledge, as_of: dt.date) -> str:
    """Kept pieces as lines, with how many there are and how many want something."""
    dues = [due(one.thing, knowledge, as_of) for one in pieces]
    rows = [kept_line(one, those) for one, those in zip(pieces, dues, strict=True)]
    now = sum(1 for those in dues if those and those[0].now)
    later = sum(1 for those in dues if those and not those[0].now)
    many = counted(len(pieces), "piece")
    return "\n".join([*rows, f"{many}; something due now: {now}, later: {later}"])


def name_of(one: Stored[OwnedPiece]) -> str:
    """A piece by number and title."""
    number = f"{one.thing.number} " if one.thing.number else ""
    return f"{number}{one.thing.title}"


def schedule(pieces: Pieces, knowledge: Knowledge, as_of: dt.date) -> list[DueOf]:
    """All that is due of all pieces, the most pressing first."""
    found = [(one, each) for one in pieces for each in due(one.thing, knowledge, as_of)]
    return sorted(found, key=lambda pair: pair[1].left)


def schedule_json(found: Sequence[DueOf], as_of: dt.date) -> dict[str, Any]:
    """What is due, as a JSON document."""
    told = [picked(one.thing, "title number", id=one.id) | due_json(each) for one, each in found]
    return {"schema": "appraise.kept-schedule/1", "as_of": as_of.isoformat(), "due": told}


def schedule_document(found: Sequence[DueOf]) -> Document:
    """What is due."""
    return Document("", due_section(found) or _only(NOTHING_DUE))


def due_section(found: Sequence[DueOf]) -> tuple[Section, ...]:
    """What is due, the most pressing first."""
    rows = tuple(
        fact(when(each), f"{name_of(one)}: {each.says}", "warn" if each.now else "plain")
        for one, each in found
    )
    return section("due", "What is due", Facts(rows))


def waiting(pieces: Pieces, knowledge: Knowledge) -> list[tuple[Stored[OwnedPiece], Patient]]:
    """The conservator's list over all pieces that one owns: what is at work first."""
    mine = [one for one in pieces if one.thing.owned]
    found = [(one, each) for one in mine for each in patients(one.thing, knowledge)]
    return sorted(found, key=lambda pair: (not pair[1].active, pair[1].rank, -pair[1].step))


def conservator_section(pieces: Pieces, knowledge: Knowledge) -> tuple[Section, ...]:
    """What waits for a conservator."""
    rows = ((name_of(one), patient_fact(each)) for one, each in waiting(pieces, knowledge))
    told = tuple(
        fact(row.label, f"{name}: {says}", row.tone) for name, row in rows for says in row.says
    )
    return section("conservator", "For a conservator", Facts(told))


def care_json(pieces: Pieces, knowledge: Knowledge, air: Air, as_of: dt.date) -> dict[str, Any]:
    """Conservator's list, measures outside the figures, and light, as a JSON document."""
    return {
        "schema": "appraise.kept-care/1",
        "as_of": as_of.isoformat(),
        "conservator": [
            {"piece": one.id, "title": one.thing.title, **patient_json(each)}
            for one, each in waiting(pieces, knowledge)
        ],
        "measured": dict(air.told),
        "outside": [
            picked(one, "measure value side alarm figures pieces", row=one.row.id)
            | picked(one.row.basis, "sources", basis=one.row.basis.mark)
            for one in outside_figures(pieces, knowledge, air)
        ],
        "light": [
            {"piece": one.id, "title": one.thing.title, **light_json(one.thing, knowledge, as_of)}
            for one in pieces
            if one.thing.showings
        ],
    }


def care_document(pieces: Pieces, knowledge: Knowledge, air: Air, as_of: dt.date) -> Document:
    """What is for a conservator, what is outside the figures, and what light every piece had."""
    parts = (*conservator_section(pieces, knowledge), *air_sections(pieces, knowledge, air, as_of))
    return Document("", parts or _only(NO_CARE))


def air_sections(
    pieces: Pieces, knowledge: Knowledge, air: Air, as_of: dt.date
) -> tuple[Section, ...]:
    """Readings against the recommended ranges, and light."""
    titles = {one.id: name_of(one) for one in pieces}
    found = tuple(
        _outside(one, titles, knowledge) for one in outside_figures(pieces, knowledge, air)
    )
    measured = ", ".join(f"{name} {with_unit(value, name)}" for name, value in air.told.items())
    light = (
        *(
            fact(name_of(one), light_words(exposure(one.thing, knowledge, as_of)))
            for one in pieces
            if one.thing.showings
        ),
        *_exhibited(knowledge, air),
    )
    within = WITHIN if measured and not found else ""
    readings = (Paragraph(measured, "quiet"), Facts(found), Paragraph(within))
    return (*section("air", "Readings", *readings), *section("light", "Light", Facts(light)))


def _outside(one: Outside, titles: Mapping[str, str], knowledge: Knowledge) -> Fact:
    """A measure outside a row's figures in words."""
    named = [titles.get(name, name) for name in one.pieces[:SHOWN]]
    more = f" and {len(one.pieces) - SHOWN} more" if len(one.pieces) > SHOWN else ""
    says = f"{one.value:g} is {one.side} {one.figures}: {', '.join(named)}{more}."
    rest = basis_words(one.row.basis, knowledge)
    return fact(one.measure, f"{says} {one.row.text} [{rest}]", "warn" if one.alarm else "doubt")


def _exhibited(knowledge: Knowledge, air: Air) -> Iterator[Fact]:
    """After how many hours so much light has used up a year's."""
    for row in knowledge.care.values():
        hours = hours_left(row, air.lux) if air.lux else None
        if hours is not None:
            year = f"a year's {row.lux_hours:,.0f} lux-hours are {hours:,.0f} hours"
            rests = basis_words(row.basis, knowledge)
            yield fact("exhibited", f"at {air.lux:g} lux {year} [{rests}]")


def outside_figures(pieces: Pieces, knowledge: Knowledge, air: Air) -> Sequence[Outside]:
    """The readings outside the recommended ranges, each with the pieces that it concerns."""
    return outside([(one.id, one.thing) for one in pieces], knowledge, air)


def _only(says: str) -> tuple[Section, ...]:
    return section("none", "", Paragraph(says))
