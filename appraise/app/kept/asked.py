"""Pages over all that is kept: what is due, and air and light against the figures."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING, Any

from appraise.app.fieldwords import Values
from appraise.app.form import Form, FormField
from appraise.app.kept.keptlines import page_lines
from appraise.app.lines import EMPTY, Line, fold, line
from appraise.app.page import Page
from appraise.app.session import READING
from appraise.base.errors import InputError
from appraise.collection.air import Air, with_unit
from appraise.documents.keptfacts import FactRow
from appraise.documents.keptpage import (
    PageSection,
    patient_row,
    when,
)
from appraise.records.owned import OwnedPiece
from appraise.records.stored import Stored

if TYPE_CHECKING:
    from appraise.app.sheet import Sheet
    from appraise.knowledge.records import Knowledge

NOTHING = "Nothing is due. No piece needs a conservator."
WITHIN = "All readings are within the recommended ranges."


def open_due(sheet: Sheet[Any], pieces: Sequence[Stored[OwnedPiece]]) -> None:
    """A page with what is due and what waits for a conservator."""
    session = sheet.session
    if session.knowledge is None:
        sheet.say(READING)
        return
    from appraise.documents.kept import name_of, schedule, waiting

    found = schedule(pieces, session.knowledge, session.as_of)
    dues = tuple(
        FactRow(when(each), f"{name_of(one)}: {each.says}", "!" if each.now else "")
        for one, each in found
    )
    queue = tuple(
        _named(name_of(one), patient_row(each)) for one, each in waiting(pieces, session.knowledge)
    )
    parts = [PageSection("due", dues), PageSection("for a conservator", queue)]
    told = [part for part in parts if part.rows]
    sheet.app.push_screen(Page("What is due", partial(_lines, told, NOTHING)))


def _named(name: str, row: FactRow) -> FactRow:
    return FactRow(row.label, f"{name}: {row.says}", row.mark)


def _lines(parts: Sequence[PageSection], otherwise: str, width: int) -> Sequence[Line]:
    return page_lines(parts, width) if parts else [EMPTY, *fold(otherwise, width)]


def ask_air(sheet: Sheet[Any], pieces: Sequence[Stored[OwnedPiece]]) -> None:
    """A form for what was measured, then a page with what is outside the figures."""
    knowledge = sheet.session.knowledge
    if knowledge is None:
        sheet.say(READING)
        return
    measured: list[Air] = []

    def keep(values: Values) -> None:
        try:
            air = Air(*(_number(values, name) for name in ("temperature", "humidity", "lux")))
        except InputError as error:
            raise InputError(error.what, error.where.removeprefix("--"), error.mend) from None
        if not air.told:
            raise InputError("no reading given", "humidity", "Esc: cancel.")
        measured[:] = [air]

    def done(kept: bool | None) -> None:
        if kept:
            _open_air(sheet, pieces, knowledge, measured[0])

    fields = [
        FormField("humidity", "humidity", "", "Relative humidity in %, e.g. 48."),
        FormField("temperature", "temperature", "", "Degrees Celsius, e.g. 19."),
        FormField("lux", "light", "", "Lux where pieces are exhibited."),
    ]
    title = "Room conditions"
    sheet.app.push_screen(Form(title, fields, keep, "Read from a gauge beside the pieces."), done)


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
    from appraise.collection.air import outside
    from appraise.documents.kept import light_rows, name_of, outside_row

    titles = {one.id: name_of(one) for one in pieces}
    found = outside([(one.id, one.thing) for one in pieces], knowledge, air)
    rows = tuple(outside_row(one, titles, knowledge) for one in found)
    parts = [
        PageSection("outside the range", rows or (FactRow("", WITHIN),)),
        PageSection("light", tuple(light_rows(knowledge, air))),
    ]
    told = [part for part in parts if part.rows]

    def lines(width: int) -> Sequence[Line]:
        return [line((_measured(air), "quiet")), EMPTY, *page_lines(told, width)]

    sheet.app.push_screen(Page("Air and light", lines))


def _measured(air: Air) -> str:
    return ", ".join(f"{name} {with_unit(value, name)}" for name, value in air.told.items())
