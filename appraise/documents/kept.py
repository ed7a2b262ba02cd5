"""Kept pieces as text and JSON: the list, the page, the schedule, air and light."""

import datetime as dt
import textwrap
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from appraise.base.money import as_json
from appraise.collection.air import Air, Outside, exposure, hours_left, outside
from appraise.collection.upkeep import Due, Patient, drift, due, patients
from appraise.documents.entry import entry_json
from appraise.documents.keptfacts import FactRow
from appraise.documents.keptpage import (
    PageInput,
    PageSection,
    basis_words,
    light_words,
    patient_row,
    sections,
    when,
    worse_json,
)
from appraise.knowledge.records import Knowledge
from appraise.records import record_types
from appraise.records.owned import OwnedPiece
from appraise.records.stored import Stored

WIDTH = 78
LABEL = 22
PIECE = "appraise.kept/1"
SHOWN = 3  # pieces named where a measure is outside a row's figures


def kept_document(one: Stored[OwnedPiece], as_of: dt.date) -> dict[str, Any]:
    """A kept piece as a JSON document."""
    kept = {"id": one.id, **record_types.to_json(one.thing)}
    return {"schema": PIECE, "as_of": as_of.isoformat(), "kept": kept}


def page_document(matter: PageInput) -> dict[str, Any]:
    """A kept piece with its purchase and all that is due, as a JSON document."""
    kept, entry = matter.kept, matter.entry
    looks = kept.looks
    return {
        **kept_document(Stored(matter.id, kept), matter.as_of),
        "purchase": entry_json(entry) if entry else None,
        "cost": as_json(matter.cost),
        "due": [due_json(one) for one in due(kept, matter.knowledge, matter.as_of)],
        "worse": [worse_json(one) for one in drift(*looks[-2:])] if len(looks) > 1 else [],
        "conservator": [patient_json(one) for one in patients(kept, matter.knowledge)],
        "light": light_json(kept, matter.knowledge, matter.as_of),
    }


def list_document(
    pieces: Sequence[Stored[OwnedPiece]], knowledge: Knowledge, as_of: dt.date
) -> dict[str, Any]:
    """Kept pieces as a JSON document, each with what is due."""
    told = [
        {
            "id": one.id,
            "title": one.thing.title,
            "number": one.thing.number,
            "place": one.thing.place,
            "status": one.thing.status,
            "dated": one.thing.dated,
            "entry": one.thing.entry,
            "due": [due_json(each) for each in due(one.thing, knowledge, as_of)],
        }
        for one in pieces
    ]
    return {"schema": "appraise.kept-list/1", "as_of": as_of.isoformat(), "kept": told}


def due_json(one: Due) -> dict[str, Any]:
    """Something due, as JSON values."""
    day = one.on.isoformat() if one.on else None
    return {"sort": one.sort, "on": day, "says": one.says, "days_left": one.left}


def patient_json(one: Patient) -> dict[str, Any]:
    """Damage for a conservator, as JSON values."""
    defect = one.check.defect
    return {
        "id": one.check.id,
        "step": one.step,
        "active": one.active,
        "why": one.why,
        "do": defect.do if defect else "",
        "never": defect.never if defect else "",
    }


def light_json(kept: OwnedPiece, knowledge: Knowledge, as_of: dt.date) -> dict[str, Any]:
    """Light summed, as JSON values; lux-hours throughout."""
    found = exposure(kept, knowledge, as_of)
    return {
        "year": found.year,
        "ever": found.ever,
        "most": found.row.lux_hours if found.row else None,
        "left": found.left,
        "rest_until": found.rest_until.isoformat() if found.rest_until else None,
        "row": found.row.id if found.row else None,
    }


def kept_line(one: Stored[OwnedPiece], dues: Sequence[Due] = ()) -> str:
    """A kept piece as one line: number, title, place, status, years, what is due first."""
    kept = one.thing
    pressing = f"! {dues[0].says}, {when(dues[0])}" if dues and dues[0].now else ""
    told = [kept.title, kept.place, kept.status, kept.dated, pressing]
    return f"{kept.number or one.id[:8]:<8}  {', '.join(word for word in told if word)}"


def list_text(pieces: Sequence[Stored[OwnedPiece]], knowledge: Knowledge, as_of: dt.date) -> str:
    """Kept pieces as lines, with how many there are and how many want something."""
    dues = [due(one.thing, knowledge, as_of) for one in pieces]
    rows = [kept_line(one, those) for one, those in zip(pieces, dues, strict=True)]
    now = sum(1 for those in dues if those and those[0].now)
    many = "1 piece" if len(pieces) == 1 else f"{len(pieces)} pieces"
    return "\n".join([*rows, f"{many}; {now} with something due"])


def page_text(matter: PageInput) -> str:
    """The page of a kept piece."""
    return f"{matter.kept.title}\n\n{sections_text(sections(matter))}"


def sections_text(parts: Iterable[PageSection]) -> str:
    """Sections as text: labels on the left, what is said on the right."""
    blocks = ["\n".join([part.title, *map(row_text, part.rows)]) for part in parts]
    return "\n\n".join(blocks) + "\n"


def row_text(row: FactRow) -> str:
    """A row in lines of at most 78 cells."""
    lead = f"{row.mark or ' '} {row.label}"
    head = f"{lead:<{LABEL}}  "
    return textwrap.fill(row.says, WIDTH, initial_indent=head, subsequent_indent=" " * (LABEL + 2))


def schedule(
    pieces: Sequence[Stored[OwnedPiece]], knowledge: Knowledge, as_of: dt.date
) -> list[tuple[Stored[OwnedPiece], Due]]:
    """All that is due of all pieces, the most pressing first."""
    found = [(one, each) for one in pieces for each in due(one.thing, knowledge, as_of)]
    return sorted(found, key=lambda pair: pair[1].left)


def schedule_document(
    found: Sequence[tuple[Stored[OwnedPiece], Due]], as_of: dt.date
) -> dict[str, Any]:
    """What is due, as a JSON document."""
    told = [
        {"id": one.id, "title": one.thing.title, "number": one.thing.number, **due_json(each)}
        for one, each in found
    ]
    return {"schema": "appraise.kept-schedule/1", "as_of": as_of.isoformat(), "due": told}


def schedule_text(found: Sequence[tuple[Stored[OwnedPiece], Due]]) -> str:
    """What is due, a line each."""
    rows = [
        f"{'!' if each.now else ' '} {when(each):<26}  {name_of(one)}: {each.says}"
        for one, each in found
    ]
    return "\n".join(rows) if rows else "Nothing is due."


def name_of(one: Stored[OwnedPiece]) -> str:
    """A piece by number and title."""
    number = f"{one.thing.number} " if one.thing.number else ""
    return f"{number}{one.thing.title}"


def care_document(
    pieces: Sequence[Stored[OwnedPiece]], knowledge: Knowledge, air: Air, as_of: dt.date
) -> dict[str, Any]:
    """Conservator's list, measures outside the figures, and light, as a JSON document."""
    return {
        "schema": "appraise.kept-care/1",
        "as_of": as_of.isoformat(),
        "conservator": [
            {"piece": one.id, "title": one.thing.title, **patient_json(each)}
            for one, each in waiting(pieces, knowledge)
        ],
        "measured": dict(air.told),
        "outside": [outside_json(one) for one in _outside(pieces, knowledge, air)],
        "light": [
            {"piece": one.id, "title": one.thing.title, **light_json(one.thing, knowledge, as_of)}
            for one in pieces
            if one.thing.showings
        ],
    }


def waiting(
    pieces: Sequence[Stored[OwnedPiece]], knowledge: Knowledge
) -> list[tuple[Stored[OwnedPiece], Patient]]:
    """The conservator's list over all pieces that one owns: what is at work first."""
    mine = [one for one in pieces if one.thing.owned]
    found = [(one, each) for one in mine for each in patients(one.thing, knowledge)]
    return sorted(found, key=lambda pair: (not pair[1].active, pair[1].rank, -pair[1].step))


def outside_json(one: Outside) -> dict[str, Any]:
    """A measure outside a row's figures, as JSON values."""
    return {
        "row": one.row.id,
        "measure": one.measure,
        "value": one.value,
        "side": one.side,
        "alarm": one.alarm,
        "figures": one.figures,
        "pieces": list(one.pieces),
        "sources": list(one.row.basis.sources),
        "basis": one.row.basis.mark,
    }


def care_text(
    pieces: Sequence[Stored[OwnedPiece]], knowledge: Knowledge, air: Air, as_of: dt.date
) -> str:
    """The same as text."""
    titles = {one.id: name_of(one) for one in pieces}
    queue = [
        FactRow(row.label, f"{name_of(one)}: {row.says}", row.mark)
        for one, row in ((one, patient_row(each)) for one, each in waiting(pieces, knowledge))
    ]
    air_rows = [outside_row(one, titles, knowledge) for one in _outside(pieces, knowledge, air)]
    if air.told and not air_rows:
        air_rows = [FactRow("", "All readings are within the recommended ranges.")]
    light = [
        FactRow(name_of(one), light_words(exposure(one.thing, knowledge, as_of)))
        for one in pieces
        if one.thing.showings
    ]
    light += light_rows(knowledge, air)
    made = (("for a conservator", queue), ("the air", air_rows), ("light", light))
    told = sections_text(PageSection(title, tuple(rows)) for title, rows in made if rows)
    return (
        told
        if told.strip()
        else "No piece needs a conservator. To check your room, give --humidity."
    )


def outside_row(one: Outside, titles: Mapping[str, str], knowledge: Knowledge) -> FactRow:
    """A measure outside a row's figures in words."""
    named = [titles.get(name, name) for name in one.pieces[:SHOWN]]
    more = f" and {len(one.pieces) - SHOWN} more" if len(one.pieces) > SHOWN else ""
    says = f"{one.value:g} is {one.side} {one.figures}: {', '.join(named)}{more}."
    rest = basis_words(one.row.basis, knowledge)
    return FactRow(one.measure, f"{says} {one.row.text} [{rest}]", "!" if one.alarm else "?")


def light_rows(knowledge: Knowledge, air: Air) -> list[FactRow]:
    """After how many hours so much light has used up a year's."""
    rows = []
    for row in knowledge.care.values():
        hours = hours_left(row, air.lux) if air.lux else None
        if hours is not None:
            says = (
                f"at {air.lux:g} lux a year's {row.lux_hours:,.0f} lux-hours are {hours:,.0f} hours"
            )
            rows.append(FactRow("exhibited", f"{says} [{basis_words(row.basis, knowledge)}]"))
    return rows


def _outside(
    pieces: Sequence[Stored[OwnedPiece]], knowledge: Knowledge, air: Air
) -> Sequence[Outside]:
    return outside([(one.id, one.thing) for one in pieces], knowledge, air)
