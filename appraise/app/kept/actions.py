"""What is done to kept pieces from a screen; each is one change that undo takes back."""

from __future__ import annotations

from typing import TYPE_CHECKING

from appraise.app import photos, record_actions, reports
from appraise.app.currency import with_currency
from appraise.app.fieldwords import Values, day_in
from appraise.app.form import FormField, fields_of
from appraise.app.kept.event_form import ask_event, day_field
from appraise.app.kept.selling import ask_sale
from appraise.app.lists.spec import Act
from appraise.app.picker import Choice, Picker
from appraise.base.logday import day_in_words
from appraise.commands import owned, records
from appraise.commands.kinds import KINDS
from appraise.records.owned import OwnedPiece
from appraise.records.stored import Stored
from appraise.store.owned_pieces import every, next_number, to_take

if TYPE_CHECKING:
    from appraise.app.lists.screen import RecordScreen
    from appraise.app.lists.sheet import RecordSheet

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
    with_currency(sheet, lambda: _ask_own(sheet))


def _ask_own(sheet: RecordSheet) -> None:
    session = sheet.session
    begun = OwnedPiece("new piece", number=next_number(every(session.log)))
    made: list[Stored[OwnedPiece]] = []

    def take(values: Values) -> None:
        made.append(records.add(session, KINDS["kept"], begun, values).stored)

    fields = fields_of(begun, session.knowledge, {"title": ""})
    record_actions.ask(sheet, "Add a piece", fields, take, lambda: sheet.read(made[0].id))


def remove(sheet: RecordSheet, one: Stored[OwnedPiece]) -> None:
    """Take a piece off the list, once that was confirmed."""
    record_actions.remove(sheet, one, sheet.gone, "Remove {} from the list?")


def check(sheet: RecordSheet, one: Stored[OwnedPiece]) -> None:
    """A form for a condition check."""
    session = sheet.session

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
    record_actions.ask(sheet, f"Condition check: {one.thing.title}", fields, take, sheet.read, note)


def examine(sheet: RecordSheet, one: Stored[OwnedPiece]) -> None:
    """Examine it again, question by question."""
    from appraise.app.kept.reexamine import look_at  # 40 ms with the reading

    look_at(sheet, one, sheet.read)


def arrival(sheet: RecordSheet, one: Stored[OwnedPiece]) -> None:
    """What came against what was claimed."""
    from appraise.app.kept.arrivalpage import open_arrival

    open_arrival(sheet, one)


def report(sheet: RecordSheet, one: Stored[OwnedPiece]) -> None:
    """A report on it, for one sort of reader."""
    from appraise.store.piece_record import piece_record

    session = sheet.session
    found = sheet.tried(lambda: piece_record(session.log, one.id, session.trade()))
    if found is not None:
        reports.tell(sheet, found)


def due(sheet: RecordScreen, here: object) -> None:
    """What is due of the pieces that are shown."""
    from appraise.app.kept.asked import open_due

    open_due(sheet, sheet.seen.shown)


def air(sheet: RecordScreen, here: object) -> None:
    """Air and light against the figures."""
    from appraise.app.kept.asked import ask_air

    ask_air(sheet, sheet.seen.shown)


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
    "edit": Act(record_actions.edit_here),
    "event": Act(ask_event),
    "check": Act(check, knows=True),
    "examine": Act(examine, knows=True),
    "arrival": Act(arrival, knows=True),
    "sell": Act(ask_sale),
    "report": Act(report, knows=True),
    "remove": Act(remove),
    "due": Act(due, free=True, knows=True),
    "air": Act(air, free=True, knows=True),
    **photos.ACTS,
}
