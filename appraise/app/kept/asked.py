"""Pages over all that is kept: what is due, and air and light against the figures."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import Any

from appraise.app.form import ask_values
from appraise.app.lists.screen import RecordScreen
from appraise.app.page import Page, document_rows
from appraise.app.sheet import Sheet
from appraise.base.errors import InputError
from appraise.collection.air import RANGES, Air
from appraise.documents.document import Document, Paragraph, Section, section
from appraise.records.fields import Field
from appraise.records.quantities import NumberKind

MEASURED = (
    Field("humidity", "relative humidity in %, e.g. 48", NumberKind(*RANGES["humidity"])),
    Field("temperature", "degrees Celsius, e.g. 19", NumberKind(*RANGES["temperature"])),
    Field("lux", "lux where pieces are exhibited", NumberKind(*RANGES["lux"]), label="light"),
)
NOTHING = "Nothing is due. No piece needs a conservator."


def open_due(sheet: RecordScreen, here: object) -> None:
    """A page with what is due, and what waits for a conservator, of the pieces that are shown."""
    pieces = sheet.seen.shown
    session, knowledge = sheet.session, sheet.session.trade()
    from appraise.documents.owned_lists import conservator_section, due_section, schedule

    found = schedule(pieces, knowledge, session.as_of)
    parts = (*due_section(found), *conservator_section(pieces, knowledge))
    _open(sheet, "Upkeep of your pieces", parts or section("none", "", Paragraph(NOTHING)))


def _open(sheet: Sheet[Any], title: str, parts: tuple[Section, ...]) -> None:
    rows = partial(document_rows, Document(title, parts), marks=sheet.session.marks)
    sheet.open(Page(title, rows))


def ask_air(sheet: RecordScreen, here: object) -> None:
    """A form for what was measured, then a page with what is outside the figures."""

    def take(told: Mapping[str, Any]) -> Air:
        air = Air(**told)
        if not air.told:
            raise InputError("no reading given", "humidity", "Esc: cancel.")
        return air

    def show(air: Air) -> None:
        from appraise.documents.owned_lists import air_sections

        session = sheet.session
        parts = air_sections(sheet.seen.shown, session.trade(), air, session.as_of)
        _open(sheet, "Air and light", parts)

    note = "Read from a gauge beside the pieces."
    ask_values(sheet, "Room conditions", MEASURED, take, show, note=note)
