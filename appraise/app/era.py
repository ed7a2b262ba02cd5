"""What was in use in a year: a year is asked for, and a page tells it."""

from __future__ import annotations

from functools import partial

from appraise.app.fieldwords import Values, word_in
from appraise.app.form import Form, FormField
from appraise.app.page import Page, document_rows
from appraise.app.sheet import Sheet
from appraise.base.errors import InputError
from appraise.documents.yearly import year_document
from appraise.knowledge.records import FIRST_YEAR, KINDS, LAST_YEAR, REGIONS
from appraise.knowledge.yearly import Current, usual_in

TITLE = "What was in use in a given year"
SOME_YEAR = "1858"


def open_year(screen: Sheet[object]) -> None:
    """Ask for a year and show what was in use."""
    knowledge = screen.session.knowledge
    if knowledge is None:
        screen.say("The knowledge is still being read.")
        return
    fields = [
        FormField("year", "year", SOME_YEAR, f"From {FIRST_YEAR} to {LAST_YEAR}."),
        FormField(
            "kind", "kind", "", "Of one kind of piece only; empty for every kind.", KINDS, True
        ),
        FormField(
            "region", "made in", "unknown", choices=(*REGIONS, "unknown"), only=True, needed=True
        ),
    ]
    asked: list[tuple[int, tuple[Current, ...]]] = []

    def keep(values: Values) -> None:
        year = year_in(values)
        kind = word_in(values, "kind", KINDS)
        region = word_in(values, "region", (*REGIONS, "unknown"), "unknown")
        asked.append((year, usual_in(year, knowledge, kind, region)))

    def show(kept: bool) -> None:
        year, found = asked[-1]
        told = year_document(year, found, knowledge)
        rows = partial(document_rows, told, marks=screen.session.marks)
        screen.open(Page(f"In use in {year}", rows))

    screen.open(Form(TITLE, fields, keep), show)


def year_in(values: Values) -> int:
    """The year that was typed.

    Raises:
        InputError: where it is none of the years of photography.
    """
    text = values["year"]
    if text.isascii() and text.isdigit() and FIRST_YEAR <= int(text) <= LAST_YEAR:
        return int(text)
    raise InputError(
        f"'{text}' is not a year from {FIRST_YEAR} to {LAST_YEAR}", "year", "Example: 1858."
    )
