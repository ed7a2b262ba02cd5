"""What is done to kept pieces from a screen; each is one change that undo takes back."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from appraise.app import photos, record_actions, reports
from appraise.app.currency import with_currency
from appraise.app.kept.event_form import ask_event
from appraise.app.kept.selling import ask_sale
from appraise.app.lists.sheet import RecordSheet
from appraise.app.lists.spec import Act, later
from appraise.app.picker import Choice, Picker
from appraise.base.logday import day_in_words
from appraise.commands import owned
from appraise.records.fields import Field
from appraise.records.owned import OwnedPiece
from appraise.records.quantities import DAY
from appraise.records.stored import Stored
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
