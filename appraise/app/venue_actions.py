"""What is done to venues: their terms are copied into a form, and checked before they are saved."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from appraise.app import record_actions
from appraise.app.form import Texts, fields_of, loose_fields
from appraise.app.lists.sheet import RecordSheet
from appraise.app.lists.spec import Act
from appraise.app.session import Session
from appraise.app.sheet import Sheet
from appraise.base.errors import InputError
from appraise.records.fields import Field, changed, written
from appraise.records.stored import Stored
from appraise.records.venue import Venue, check_usual
from appraise.store.venue_book import keep_venue

NAME = Field("name", "your name for it")
NOTE = "Copy them from the venue's own terms; today is saved as the day you checked."


def ask_terms(
    sheet: Sheet[Any],
    venue: Venue,
    title: str,
    then: Callable[[str], object],
    name: str | None = None,
) -> None:
    """A form with a venue's terms; a name is asked for where one is given to start with."""
    session = sheet.session

    def keep(texts: Texts) -> str:
        told = terms_typed(session, venue, texts, named=name is not None)
        keep_venue(session.log, told)
        session.read_book()
        return told.name

    def done(kept: str) -> None:
        then(kept)
        sheet.learn_prices()

    named = [] if name is None else loose_fields([NAME], session.author(), {"name": name})
    record_actions.ask(
        sheet, title, [*named, *fields_of(venue, session.author())], keep, done, NOTE
    )


def terms_typed(session: Session, venue: Venue, values: Texts, named: bool) -> Venue:
    """A venue's terms as typed.

    Raises:
        InputError: one line; its `where` is the field.
    """
    before = written(venue)
    texts = {key: values[key] for key in before}
    if texts["checked"] in ("", before["checked"]):
        texts["checked"] = session.as_of.isoformat()
    if named:
        called = " ".join(values["name"].split())
        if not called:
            raise InputError("a venue needs a name", "name")
        venue = Venue(called, values["currency"].upper())
    told = changed(venue, texts, session.author())
    check_usual(told)
    return told


def _new(sheet: RecordSheet, here: None) -> None:
    venue = Venue("new venue", sheet.session.settings.currency)
    ask_terms(sheet, venue, "New venue: terms", lambda name: sheet.read(), "")


def _edit(sheet: RecordSheet, one: Stored[Venue]) -> None:
    ask_terms(sheet, one.thing, f"Terms: {one.thing.name}", lambda name: sheet.read())


VENUES = {"new": Act(_new, free=True), "edit": Act(_edit), "remove": Act(record_actions.remove)}
