"""What is done to kept pieces from a screen; each is one change that undo takes back."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from appraise.app.fieldwords import Values, day_in
from appraise.app.form import Field, Form, fields_of
from appraise.app.picker import Choice, Picker
from appraise.app.sheet import Question
from appraise.collection.examinations import kept_from_entry
from appraise.records.fields import changed
from appraise.records.owned import OwnedPiece
from appraise.records.stored import Stored
from appraise.store.owned_pieces import every, next_number, store, take, to_take
from appraise.store.records import drop

if TYPE_CHECKING:
    from appraise.app.session import Session
    from appraise.app.sheet import Sheet
    from appraise.records.entry import Entry

Then = Callable[[], object]
Change = Callable[[OwnedPiece, Values], OwnedPiece]

READING = "The knowledge is being read ..."


def edit(sheet: Sheet[Any], one: Stored[OwnedPiece], then: Then) -> None:
    """A form with all that is noted of a piece."""
    knowledge = sheet.session.knowledge

    def change(kept: OwnedPiece, values: Values) -> OwnedPiece:
        return changed(kept, values, sheet.session.author())

    form(sheet, one, f"Edit: {one.thing.title}", fields_of(one.thing, knowledge), change, then)


def form(
    sheet: Sheet[Any],
    one: Stored[OwnedPiece],
    title: str,
    fields: list[Field],
    change: Change,
    then: Then,
    note: str = "",
) -> None:
    """A form whose values change a piece; it stays until they are right."""

    def keep(values: Values) -> None:
        now = Stored(one.id, change(one.thing, values))
        if now.thing != one.thing:
            store(sheet.session.log, now, one.thing)

    def done(kept: bool | None) -> None:
        if kept:
            then()

    sheet.app.push_screen(Form(title, fields, keep, note), done)


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
    session = sheet.session
    knowledge = session.knowledge
    if knowledge is None:
        sheet.say(READING)
        return
    made: list[Stored[OwnedPiece]] = []

    def job() -> None:
        log = session.log
        kept = kept_from_entry(log.entry(entry), knowledge, session.as_of)
        made.append(take(log, replace(kept, number=next_number(every(log)))))

    if sheet.attempt(job):
        then(made[0])
        number = made[0].thing.number
        sheet.say(f"Added as number {number}. u: undo.", "good")


def keep_own(sheet: Sheet[Any], then: Callable[[Stored[OwnedPiece]], object]) -> None:
    """A form for a piece that is not in the log: inherited, made, or owned before."""
    session = sheet.session
    begun = OwnedPiece("new piece", number=next_number(every(session.log)))
    made: list[Stored[OwnedPiece]] = []

    def keep(values: Values) -> None:
        made.append(take(session.log, changed(begun, values, session.author())))

    def done(kept: bool | None) -> None:
        if kept:
            then(made[0])

    fields = fields_of(begun, session.knowledge, {"title": ""})
    sheet.app.push_screen(Form("Add a piece", fields, keep), done)


def remove(sheet: Sheet[Any], one: Stored[OwnedPiece], then: Then) -> None:
    """Take a piece off the list, once that was confirmed."""

    def done(yes: bool | None) -> None:
        if yes and sheet.attempt(lambda: drop(sheet.session.log, [one.id])):
            then()

    asks = f"Remove {one.thing.title} from the list? u: undo."
    sheet.app.push_screen(Question(asks, sheet.session.marks), done)


def check(sheet: Sheet[Any], one: Stored[OwnedPiece], then: Then) -> None:
    """A form for a condition check."""
    session = sheet.session
    knowledge = session.knowledge
    if knowledge is None:
        sheet.say(READING)
        return
    from appraise.collection.examinations import checked  # 40 ms with the reading

    def change(kept: OwnedPiece, values: Values) -> OwnedPiece:
        steps = damage_in(values["damage"])
        day = day_in(values, "day", session.as_of)
        said = (values["by"], values["note"], values["says"])
        return checked(kept, steps, knowledge, day, said)

    fields = [
        Field("says", "condition", "", "In your words. Empty: the grades from the answers."),
        Field("damage", "damage", "", "Check and severity 0 to 3: hinge.tape 2, glass.weep 0."),
        day_field(session),
        Field("by", "by", "", "Who checked."),
        Field("note", "note", "", "The light, what is not checked, names of photos."),
    ]
    note = "x: question by question instead."
    form(sheet, one, f"Condition check: {one.thing.title}", fields, change, then, note)


def damage_in(text: str) -> dict[str, str]:
    """Findings on damage as typed: 'hinge.tape 2, glass.weep=0'."""
    out = {}
    for part in text.replace("=", " ").split(","):
        words = part.split()
        if words:
            out[words[0]] = " ".join(words[1:])
    return out


def day_field(session: Session) -> Field:
    """The day on which something happened."""
    return Field("day", "day", session.as_of.isoformat(), "Example: 2026-11-25.")
