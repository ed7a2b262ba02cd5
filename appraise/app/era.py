"""What was in use in a year: a year is asked for, and a page tells it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import Any

from appraise.app.form import ask_values
from appraise.app.page import Page, document_rows
from appraise.app.sheet import Sheet
from appraise.base.errors import InputError
from appraise.documents.document import Document
from appraise.documents.yearly import year_document
from appraise.knowledge.records import FIRST_YEAR, KINDS, LAST_YEAR, REGIONS
from appraise.knowledge.yearly import usual_in
from appraise.records.fields import Field
from appraise.records.owned import OwnedPiece
from appraise.records.quantities import A_YEAR, YearKind
from appraise.records.values import WordKind
from appraise.store.records import held

TITLE = "What was in use in a given year"
SOME_YEAR = "1858"
ASKED = (
    Field("year", f"from {FIRST_YEAR} to {LAST_YEAR}", YearKind(FIRST_YEAR, LAST_YEAR)),
    Field("kind", "of one kind of piece only; empty for every kind", WordKind(KINDS)),
    Field(
        "region", "where it was made", WordKind((*REGIONS, "unknown"), needed=True), label="made in"
    ),
)


def open_year(screen: Sheet[object]) -> None:
    """Ask for a year and show what was in use."""
    knowledge = screen.session.knowledge
    if knowledge is None:
        screen.say("The knowledge is still being read.")
        return

    def take(told: Mapping[str, Any]) -> Document:
        year = told["year"]
        if year is None:
            raise InputError("enter a year", "year", A_YEAR)
        found = usual_in(year, knowledge, told["kind"] or "", told["region"])
        mine = [one.thing for one in held(screen.session.log, OwnedPiece)]
        return year_document(year, found, knowledge, mine)

    def show(told: Document) -> None:
        screen.open(Page(told.title, partial(document_rows, told, marks=screen.session.marks)))

    shown = {"year": SOME_YEAR, "region": screen.session.settings.region}
    ask_values(screen, TITLE, ASKED, take, show, shown=shown)
