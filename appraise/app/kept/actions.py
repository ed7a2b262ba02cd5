"""What is done to kept pieces from a screen; each is one change that undo takes back."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from appraise.app import photos, record_actions, reports
from appraise.app.currency import with_currency
from appraise.app.form import FormField, Texts, ask, fields_of, loose_fields
from appraise.app.lists.sheet import RecordSheet
from appraise.app.lists.spec import Act, later
from appraise.app.picker import Choice, Picker
from appraise.app.session import Session
from appraise.base.errors import InputError
from appraise.base.logday import day_in_words
from appraise.collection.sale import Gain, Sale, begun, sale_typed
from appraise.collection.upkeep import advice
from appraise.commands import owned
from appraise.records.fields import Field
from appraise.records.owned import AWAY, GONE, MISSING, Event, OwnedPiece, Showing
from appraise.records.quantities import DAY
from appraise.records.stored import Stored
from appraise.records.values import Author
from appraise.store.owned_pieces import every, next_number, to_take

CHECK = (
    Field("says", "in your words; empty: the grades from the answers", label="condition"),
    Field("damage", "check and severity 0 to 3: hinge.tape 2, glass.weep 0"),
    Field("day", "example: 2026-11-25", DAY),
    Field("by", "who checked"),
    Field("note", "the light, what is not checked, names of photos"),
)
NONE_LEFT = (
    "Every purchase in the log is already on this list. N adds a piece that is not in the log."
)


def keep_bought(sheet: RecordSheet, here: None) -> None:
    """Choose a purchase that is not among the pieces yet, the newest first."""
    session = sheet.session
    found = sheet.tried(lambda: to_take(session.log))
    if not found:
        if found is not None:
            sheet.say(NONE_LEFT)
        return
    choices = [
        Choice(
            one.id,
            one.title or one.motif or one.process or "untitled",
            " ",
            day_in_words(one.date.isoformat()),
        )
        for one in found
    ]
    sheet.open(Picker("Add which purchase?", choices), lambda entry: take_bought(sheet, entry))


def take_bought(sheet: RecordSheet, entry: str) -> None:
    """Keep the piece of a purchase, under the next running number."""
    made = sheet.tried(lambda: owned.keep(sheet.session, entry, {}))
    if made is not None:
        sheet.read(made.stored.id)
        sheet.say(f"{made.says} u: undo.", "good")


def keep_own(sheet: RecordSheet, here: None) -> None:
    """A form for a piece that is not in the log: inherited, made, or owned before."""

    def ask() -> None:
        begun = OwnedPiece("new piece", number=next_number(every(sheet.session.log)))
        record_actions.add(sheet, begun, "Add a piece", sheet.read, shown={"title": ""})

    with_currency(sheet, ask)


def remove(sheet: RecordSheet, one: Stored[OwnedPiece]) -> None:
    """Take a piece off the list, once that was confirmed."""
    record_actions.remove(sheet, one, "Remove {} from the list?")


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


def check(sheet: RecordSheet, one: Stored[OwnedPiece]) -> None:
    """A form for a condition check."""
    session = sheet.session

    def take(told: Mapping[str, Any]) -> None:
        said = (told["by"] or "", told["note"] or "", told["says"] or "")
        owned.check(session, one, damage_in(told["damage"] or ""), said, told["day"])

    record_actions.ask_values(
        sheet,
        f"Condition check: {one.thing.title}",
        CHECK,
        take,
        shown={"day": session.as_of.isoformat()},
        note="x: question by question instead.",
    )


HONEST = "Describe it honestly: r writes a description for the public, without prices or names."


def ask_sale(sheet: RecordSheet, one: Stored[OwnedPiece]) -> None:
    """A form for the sale; what it gains is told before it is logged."""
    session = sheet.session
    if one.thing.status in GONE:
        sheet.say(f"It is {one.thing.status} already. u: undo. e: edit.")
        return

    def take(texts: Texts) -> tuple[Sale, Gain]:
        sale = sale_in(texts, session.author())
        return sale, owned.gain(session, one, sale)

    fields = fields_of(begun(session.author()), session.author(), shown={"price": ""})
    title = f"Sold: {one.thing.title}"
    ask(sheet, title, fields, take, lambda made: _confirm(sheet, one, *made), HONEST)


def sale_in(values: Texts, by: Author) -> Sale:
    """The sale as typed.

    Raises:
        InputError: one line; its `where` is the field.
    """
    if not values["price"]:
        raise InputError("enter the price the buyer paid", "price", "Given away? Press v instead.")
    return sale_typed(values, by)


def _confirm(sheet: RecordSheet, one: Stored[OwnedPiece], sale: Sale, gain: Gain) -> None:
    """Tell what it brings, and log it when that is right."""

    def sold() -> None:
        sheet.read()
        sheet.say("Sale logged. u: undo everything.", "good")

    asks = f"Net {sale.net}, {gain_words(gain)}. Log the sale?"
    record_actions.confirm(sheet, asks, lambda: owned.sell(sheet.session, one, sale), sold)


def gain_words(gain: Gain) -> str:
    """The gain in a few words."""
    if gain.gain is None:
        return "gain not known: a cost or rate is missing"
    word = "gain" if gain.gain.amount >= 0 else "loss"
    left = "; some costs have no rate" if gain.uncounted else ""
    return f"{word} {gain.gain} on all it cost{left}"


def damage_in(text: str) -> dict[str, str]:
    """Findings on damage as typed: 'hinge.tape 2, glass.weep=0'."""
    out = {}
    for part in text.replace("=", " ").split(","):
        words = part.split()
        if words:
            out[words[0]] = " ".join(words[1:])
    return out


KEPT = {
    "new": Act(keep_bought, free=True, knows=True),
    "own": Act(keep_own, free=True),
    "edit": Act(record_actions.edit),
    "event": Act(ask_event),
    "check": Act(check, knows=True),
    "examine": Act(later("kept.reexamine", "look_at"), knows=True),
    "arrival": Act(later("kept.arrivalpage", "open_arrival"), knows=True),
    "sell": Act(ask_sale),
    "report": Act(reports.tell_record, knows=True),
    "remove": Act(remove),
    "due": Act(later("kept.asked", "open_due"), free=True, knows=True),
    "air": Act(later("kept.asked", "ask_air"), free=True, knows=True),
    **photos.ACTS,
}
