"""Where a piece is: moved, lent, back, shown, mended, given, lost, found."""

from __future__ import annotations

from appraise.app import record_actions
from appraise.app.form import FormField, Texts, fields_of, loose_fields
from appraise.app.lists.sheet import RecordSheet
from appraise.app.picker import Choice, Picker
from appraise.app.session import Session
from appraise.collection.upkeep import advice
from appraise.commands import owned
from appraise.records.fields import Field
from appraise.records.owned import AWAY, GONE, MISSING, Event, OwnedPiece, Showing
from appraise.records.stored import Stored
from appraise.records.values import Author

SAYS = {
    "moved": "moved to another place",
    "lent": "lent",
    "on-show": "exhibited",
    "with-conservator": "with a conservator",
    "back": "returned",
    "light": "lit on display: hours and lux",
    "cleaned": "cleaned (outside only)",
    "mended": "repaired",
    "given": "given away",
    "lost": "missing",
    "stolen": "stolen",
    "found": "found again",
    "other": "something else",
}
HOME = (
    "moved", "lent", "on-show", "with-conservator", "light", "cleaned", "mended", "given", "lost",
    "stolen", "other",
)  # fmt: skip
OUT = ("back", "light", "cleaned", "mended", "lost", "stolen", "other")
COSTLY = ("back", "cleaned", "mended", "other")
NOWHERE = ("moved", "back", "lost", "stolen", "found")
CLOSED = "Outside only: opening a package and cleaning a plate are a conservator's work."
MISSED = "Tell the police, with its record and photos; its page says more."


def able(kept: OwnedPiece) -> tuple[str, ...]:
    """What can happen to a piece of its status."""
    if kept.status in GONE:
        return ("other",)
    if kept.status in MISSING:
        return ("found", "other")
    return OUT if kept.status in AWAY else HOME


def ask_event(sheet: RecordSheet, one: Stored[OwnedPiece]) -> None:
    """Choose what happened, then fill in the rest."""
    choices = [Choice(sort, SAYS[sort]) for sort in able(one.thing)]
    sheet.open(
        Picker(f"{one.thing.title}: what happened?", choices), lambda sort: _ask(sheet, one, sort)
    )


def _ask(sheet: RecordSheet, one: Stored[OwnedPiece], sort: str) -> None:
    session = sheet.session

    def take(texts: Texts) -> None:
        told = dict(texts)
        place = told.pop("place", None)
        owned.happen(session, one, sort, told, place)

    title = f"{one.thing.title}: {SAYS[sort]}"
    fields, note = _fields(one.thing, sort, session.author()), _caution(session, one.thing, sort)
    record_actions.ask(sheet, title, fields, take, note=note)


def _caution(session: Session, kept: OwnedPiece, sort: str) -> str:
    """What to beware of where it is noted."""
    if sort in MISSING:
        return MISSED
    if sort in ("cleaned", "mended"):
        return CLOSED
    if sort in ("on-show", "light") and session.knowledge is not None:
        return " ".join(row.text for row in advice(kept, session.knowledge, "light")[:1])
    return ""


def _fields(kept: OwnedPiece, sort: str, by: Author) -> list[FormField]:
    """What is asked of it, the day last."""
    if sort == "light":
        light, blank = ("hours", "lux", "where", "day"), {"hours": "", "lux": ""}
        return fields_of(Showing(by.today, 1, 0), by, only=light, shown=blank)
    place, event = [], Event(by.today, sort)
    if sort in ("moved", "back"):
        said = f"now: {kept.place or 'not recorded'}" if sort == "moved" else "present location"
        was = kept.place if sort == "back" else ""
        place = loose_fields([Field("place", said)], by, {"place": was})
    asked = {
        "to": sort not in NOWHERE,
        "until": sort in AWAY,
        "cost": sort in COSTLY,
        "note": sort != "moved",
        "day": True,
    }
    return [*place, *fields_of(event, by, only=[name for name in asked if asked[name]])]
