"""What is done to venues: their terms are copied into a form, and checked before they are saved."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from appraise.app import record_actions
from appraise.app.fieldwords import Values
from appraise.app.form import Form, FormField, fields_of
from appraise.app.lists.spec import Act
from appraise.base.errors import InputError
from appraise.records.fields import changed, written
from appraise.records.stored import Stored
from appraise.records.venue import Venue, check_usual

if TYPE_CHECKING:
    from appraise.app.lists.sheet import RecordSheet
    from appraise.app.session import Session
    from appraise.app.sheet import Sheet

NOTE = "Copy them from the venue's own terms; today is saved as the day you checked."


def ask_terms(
    sheet: Sheet[Any],
    venue: Venue,
    title: str,
    then: Callable[[str], object],
    name: str | None = None,
) -> None:
    """A form with a venue's terms; a name is asked for where one is given to start with."""
    session, kept = sheet.session, list[str]()

    def keep(values: Values) -> None:
        told = terms_typed(session, venue, values, named=name is not None)
        session.keep_venue(told)
        kept.append(told.name)

    def done(yes: bool) -> None:
        then(kept[-1])
        sheet.learn_prices()

    sheet.open(Form(title, terms_fields(venue, name), keep, NOTE), done)


def terms_typed(session: Session, venue: Venue, values: Values, named: bool) -> Venue:
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


def terms_fields(venue: Venue, name: str | None = None) -> list[FormField]:
    """The terms as fields of a form; a name is asked for where one is given to start with."""
    named = [] if name is None else [FormField("name", "name", name, "Your name for it.")]
    return named + fields_of(venue, None)


def _new(sheet: RecordSheet, here: None) -> None:
    venue = Venue("new venue", sheet.session.settings.currency)
    ask_terms(sheet, venue, "New venue: terms", lambda name: sheet.read(), "")


def _edit(sheet: RecordSheet, one: Stored[Venue]) -> None:
    ask_terms(sheet, one.thing, f"Terms: {one.thing.name}", lambda name: sheet.read())


def _remove(sheet: RecordSheet, one: Stored[Venue]) -> None:
    def then() -> None:
        sheet.session.read_book()
        sheet.gone()

    record_actions.remove(sheet, one, then)


VENUES = {"new": Act(_new, free=True), "edit": Act(_edit), "remove": Act(_remove)}
