"""What is done to kept pieces from a screen; each is one change that undo takes back."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from appraise.app import record_actions
from appraise.app.fieldwords import Values, day_in
from appraise.app.form import FormField, fields_of
from appraise.app.picker import Choice, Picker
from appraise.app.session import READING
from appraise.commands import owned, records
from appraise.commands.kinds import KINDS
from appraise.commands.records import Done
from appraise.records.owned import OwnedPiece
from appraise.records.stored import Stored
from appraise.store.owned_pieces import every, next_number, to_take

if TYPE_CHECKING:
    from appraise.app.session import Session
    from appraise.app.sheet import Sheet
    from appraise.records.entry import Entry

Then = Callable[[], object]


def edit(sheet: Sheet[Any], one: Stored[OwnedPiece], then: Then) -> None:
    """A form with all that is noted of a piece."""
    record_actions.edit(sheet, one, then)


def keep_bought(sheet: Sheet[Any], then: Callable[[Stored[OwnedPiece]], object]) -> None:
    """Choose a purchase that is not kept yet, the newest first."""
    session = sheet.session
    found: list[Entry] = []
    if session.knowledge is None:
        sheet.say(READING)
        return
    if not sheet.attempt(lambda: found.extend(to_take(session.log))):
        return
    if not found:
        sheet.say(
            "Every purchase in the log is already on this list. N adds a piece that is not in "
            "the log."
        )
        return
    choices = [
        Choice(
            one.id, one.title or one.motif or one.process or "untitled", " ", one.date.isoformat()
        )
        for one in found
    ]

    def taken(entry: str | None) -> None:
        if entry is not None:
            take_bought(sheet, entry, then)

    sheet.app.push_screen(Picker("Add which purchase?", choices), taken)


def take_bought(
    sheet: Sheet[Any], entry: str, then: Callable[[Stored[OwnedPiece]], object] = lambda _: None
) -> None:
    """Keep the piece of a purchase, under the next running number."""
    made: list[Done[OwnedPiece]] = []
    if sheet.attempt(lambda: made.append(owned.keep(sheet.session, entry, {}))):
        then(made[0].stored)
        sheet.say(f"{made[0].says} u: undo.", "good")


def keep_own(sheet: Sheet[Any], then: Callable[[Stored[OwnedPiece]], object]) -> None:
    """A form for a piece that is not in the log: inherited, made, or owned before."""
    session = sheet.session
    begun = OwnedPiece("new piece", number=next_number(every(session.log)))
    made: list[Stored[OwnedPiece]] = []

    def take(values: Values) -> None:
        made.append(records.add(session, KINDS["kept"], begun, values).stored)

    fields = fields_of(begun, session.knowledge, {"title": ""})
    record_actions.ask(sheet, "Add a piece", fields, take, lambda: then(made[0]))


def remove(sheet: Sheet[Any], one: Stored[OwnedPiece], then: Then) -> None:
    """Take a piece off the list, once that was confirmed."""
    record_actions.remove(sheet, one, then, "Remove {} from the list?")


def check(sheet: Sheet[Any], one: Stored[OwnedPiece], then: Then) -> None:
    """A form for a condition check."""
    session = sheet.session
    if session.knowledge is None:
        sheet.say(READING)
        return

    def take(values: Values) -> None:
        said = (values["by"], values["note"], values["says"])
        day = day_in(values, "day", session.as_of)
        owned.check(session, one, damage_in(values["damage"]), said, day)

    fields = [
        FormField("says", "condition", "", "In your words. Empty: the grades from the answers."),
        FormField("damage", "damage", "", "Check and severity 0 to 3: hinge.tape 2, glass.weep 0."),
        day_field(session),
        FormField("by", "by", "", "Who checked."),
        FormField("note", "note", "", "The light, what is not checked, names of photos."),
    ]
    note = "x: question by question instead."
    record_actions.ask(sheet, f"Condition check: {one.thing.title}", fields, take, then, note)


def damage_in(text: str) -> dict[str, str]:
    """Findings on damage as typed: 'hinge.tape 2, glass.weep=0'."""
    out = {}
    for part in text.replace("=", " ").split(","):
        words = part.split()
        if words:
            out[words[0]] = " ".join(words[1:])
    return out


def day_field(session: Session) -> FormField:
    """The day on which something happened."""
    return FormField("day", "day", session.as_of.isoformat(), "Example: 2026-11-25.")
