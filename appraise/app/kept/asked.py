"""Pages over all that is kept: what is due, and air and light against the figures."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING, Any

from appraise.app.fieldwords import Values
from appraise.app.form import Form, FormField
from appraise.app.page import Page, document_rows
from appraise.base.errors import InputError
from appraise.collection.air import Air
from appraise.documents.document import Document, Paragraph, Section, section
from appraise.records.owned import OwnedPiece
from appraise.records.stored import Stored

if TYPE_CHECKING:
    from appraise.app.sheet import Sheet
    from appraise.knowledge.records import Knowledge

NOTHING = "Nothing is due. No piece needs a conservator."


def open_due(sheet: Sheet[Any], pieces: Sequence[Stored[OwnedPiece]]) -> None:
    """A page with what is due and what waits for a conservator."""
    session, knowledge = sheet.session, sheet.session.trade()
    from appraise.documents.owned_lists import conservator_section, due_section, schedule

    found = schedule(pieces, knowledge, session.as_of)
    parts = (*due_section(found), *conservator_section(pieces, knowledge))
    _open(sheet, "Upkeep of your pieces", parts or section("none", "", Paragraph(NOTHING)))


def _open(sheet: Sheet[Any], title: str, parts: tuple[Section, ...]) -> None:
    rows = partial(document_rows, Document(title, parts), marks=sheet.session.marks)
    sheet.open(Page(title, rows))


def ask_air(sheet: Sheet[Any], pieces: Sequence[Stored[OwnedPiece]]) -> None:
    """A form for what was measured, then a page with what is outside the figures."""
    knowledge = sheet.session.trade()
    measured: list[Air] = []

    def keep(values: Values) -> None:
        try:
            air = Air(*(_number(values, name) for name in ("temperature", "humidity", "lux")))
        except InputError as error:
            raise InputError(error.what, error.where.removeprefix("--"), error.mend) from None
        if not air.told:
            raise InputError("no reading given", "humidity", "Esc: cancel.")
        measured[:] = [air]

    fields = [
        FormField("humidity", "humidity", "", "Relative humidity in %, e.g. 48."),
        FormField("temperature", "temperature", "", "Degrees Celsius, e.g. 19."),
        FormField("lux", "light", "", "Lux where pieces are exhibited."),
    ]
    form = Form("Room conditions", fields, keep, "Read from a gauge beside the pieces.")
    sheet.open(form, lambda _: _open_air(sheet, pieces, knowledge, measured[0]))


def _number(values: Values, name: str) -> float | None:
    text = values[name].replace(",", ".")
    if not text:
        return None
    try:
        return float(text)
    except ValueError:
        raise InputError(f"'{values[name]}' is not a number", name) from None


def _open_air(
    sheet: Sheet[Any], pieces: Sequence[Stored[OwnedPiece]], knowledge: Knowledge, air: Air
) -> None:
    from appraise.documents.owned_lists import air_sections

    _open(sheet, "Air and light", air_sections(pieces, knowledge, air, sheet.session.as_of))
