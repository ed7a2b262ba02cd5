"""Where a piece is: moved, lent, back, shown, mended, given, lost, found."""

from __future__ import annotations

from typing import TYPE_CHECKING

from appraise.app import record_actions
from appraise.app.fieldwords import Values
from appraise.app.form import FormField
from appraise.app.picker import Choice, Picker
from appraise.collection.upkeep import advice
from appraise.commands import owned
from appraise.records.owned import AWAY, GONE, MISSING, OwnedPiece
from appraise.records.stored import Stored

if TYPE_CHECKING:
    from appraise.app.lists.sheet import RecordSheet
    from appraise.app.session import Session

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
TO = {"back": "", "lost": "", "stolen": "", "found": ""}
UNTIL = FormField("until", "until", "", "The day it is due back, e.g. 2026-11-25.")
COST = FormField(
    "cost", "cost", "", "The cost, e.g. 20 or 20.00 USD; it counts when you sell.", amount=True
)
NOTE = FormField("note", "note", "", "Anything else.")
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
    day = day_field(session)
    title = f"{one.thing.title}: {SAYS[sort]}"

    def take(values: Values) -> None:
        told = dict(values)
        place = told.pop("place", None)
        owned.happen(session, one, sort, told, place)

    note = _caution(sheet.session, one.thing, sort)
    record_actions.ask(sheet, title, [*_fields(one.thing, sort), day], take, sheet.read, note)


def _caution(session: Session, kept: OwnedPiece, sort: str) -> str:
    """What to beware of where it is noted."""
    if sort in MISSING:
        return MISSED
    if sort in ("cleaned", "mended"):
        return CLOSED
    if sort in ("on-show", "light") and session.knowledge is not None:
        return " ".join(row.text for row in advice(kept, session.knowledge, "light")[:1])
    return ""


def _fields(kept: OwnedPiece, sort: str) -> list[FormField]:
    if sort == "moved":
        return [FormField("place", "place", "", f"Now: {kept.place or 'not recorded'}.")]
    if sort == "light":
        return [
            FormField("hours", "hours", "", "Hours of light."),
            FormField("lux", "lux", "", "Light level. Museums often show such pieces at 50 lux."),
            FormField("where", "where", "", "Exhibition or event."),
        ]
    to = [] if sort in TO else [FormField("to", "to, by, at", "", "A name or a place.")]
    back = [FormField("place", "place", kept.place, "Present location.")] if sort == "back" else []
    until = [UNTIL] if sort in AWAY else []
    cost = [COST] if sort in COSTLY else []
    return [*to, *back, *until, *cost, NOTE]


def day_field(session: Session) -> FormField:
    """The day on which something happened."""
    return FormField("day", "day", session.as_of.isoformat(), "Example: 2026-11-25.")
