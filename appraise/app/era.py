"""What was in use in a year: a year is asked for, and a page tells it."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from itertools import groupby

from appraise.app.fieldwords import Values, word_in
from appraise.app.form import Form, FormField
from appraise.app.lines import EMPTY, Line, fold, line
from appraise.app.page import Page
from appraise.app.sheet import Sheet
from appraise.base.errors import InputError
from appraise.documents.yearly import NOTE, of_what, span_words
from appraise.knowledge.records import FIRST_YEAR, KINDS, LAST_YEAR, REGIONS, Knowledge
from appraise.knowledge.yearly import USUAL, Current, usual_in

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
        FormField("kind", "kind", "", "Of one kind of piece only; empty for every kind.", KINDS),
        FormField("region", "made in", "unknown", choices=(*REGIONS, "unknown")),
    ]
    asked: list[tuple[int, tuple[Current, ...]]] = []

    def keep(values: Values) -> None:
        year = year_in(values)
        kind = word_in(values, "kind", KINDS)
        region = word_in(values, "region", (*REGIONS, "unknown"), "unknown")
        asked.append((year, usual_in(year, knowledge, kind, region)))

    def show(kept: bool | None) -> None:
        if kept:
            year, found = asked[-1]
            page = Page(f"In use in {year}", partial(year_lines, found, knowledge))
            screen.app.push_screen(page)

    screen.app.push_screen(Form(TITLE, fields, keep), show)


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


def year_lines(found: Sequence[Current], knowledge: Knowledge, width: int) -> list[Line]:
    """The page: part by part and question by question, what was usual first."""
    out: list[Line] = []
    for part, mine in groupby(found, key=lambda one: one.part):
        name = knowledge.parts[part].name if part in knowledge.parts else part
        out.append(line((name, "head")))
        for ask, answers in groupby(mine, key=lambda one: one.ask):
            these = sorted(answers, key=lambda one: one.state != USUAL)
            if ask != part:
                out += fold(f"{ask} ({of_what(these[0].kinds)})", width, "  ", role="quiet")
            for one in these:
                out += _row(one, width, each=ask == part)
        out.append(EMPTY)
    return [*out, *fold(NOTE, width, role="quiet")]


def _row(one: Current, width: int, each: bool) -> list[Line]:
    """One row; `each` says for what by itself."""
    region = f", {one.region}" if one.region else ""
    told = f"{one.says} ({span_words(one.years)}{region}; {one.basis.mark})"
    told += f": {of_what(one.kinds)}" if each else ""
    usual = one.state == USUAL
    lead = "    . " if usual else f"    - {one.state}: "
    return fold(told, width, lead, role="strong" if usual else "", lead_role="quiet")
