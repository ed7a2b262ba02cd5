"""What is done to parts in stock, jobs and wants."""

from __future__ import annotations

from functools import partial

from appraise.app import record_actions
from appraise.app.form import FormField, Texts, fields_of, loose_fields
from appraise.app.lists.sheet import RecordSheet
from appraise.app.lists.spec import Act, later
from appraise.app.session import Session
from appraise.collection.repairs import doubtful, proposed_disclosure, refused
from appraise.commands import records
from appraise.commands.kinds import KINDS
from appraise.knowledge.records import Knowledge
from appraise.records import fields as record_fields
from appraise.records.repair import Repair
from appraise.records.stored import Stored
from appraise.records.values import FLAG, Author
from appraise.store.records import held

OWN = "own-entry"
OWN_ENTRY = record_fields.Field(
    OWN,
    "yes marks the piece's entry as your own work: its price is then left out of estimates",
    FLAG,
    label="own entry",
)


def new_work(sheet: RecordSheet, here: None) -> None:
    """A form for a job."""
    session = sheet.session
    work = Repair("", session.as_of)

    def take(texts: Texts) -> str:
        told, own = _own(texts, session.author())
        return records.add(session, KINDS["work"], work, told, own).stored.id

    record_actions.ask(
        sheet, "A job", _work_fields(session, work, {}), take, partial(_worked, sheet)
    )


def _worked(sheet: RecordSheet, job: str) -> None:
    """A job was written down: what has to be said of it is said at once."""
    sheet.read(job)
    found = [one for one in held(sheet.session.log, Repair) if one.id == job]
    if found and warned(found[0].thing, sheet.session.trade()):
        sheet.show(found[0])


def edit_work(sheet: RecordSheet, one: Stored[Repair]) -> None:
    """A form with every field of a job."""
    _ask_work(sheet, one, f"Edit: {one.thing.title}", {})


def done(sheet: RecordSheet, one: Stored[Repair]) -> None:
    """Finish a job: the form with its day filled in, and a sentence where one is to be said."""
    work = one.thing
    more = {"done": sheet.session.as_of.isoformat()}
    if work.made_by_me and not work.disclosure:
        more["disclosure"] = proposed_disclosure(work)
    _ask_work(sheet, one, f"Done: {work.title}", more)


def _ask_work(sheet: RecordSheet, one: Stored[Repair], title: str, more: Texts) -> None:
    """The form of a job; `more` stands in it beside what was recorded."""
    session = sheet.session

    def take(texts: Texts) -> str:
        told, own = _own(texts, session.author())
        return records.edit(session, KINDS["work"], one, told, own).stored.id

    fields = _work_fields(session, one.thing, more)
    record_actions.ask(sheet, title, fields, take, partial(_worked, sheet))


def _own(values: Texts, by: Author) -> tuple[dict[str, str], bool]:
    """The fields of a work as the form has them, and whether the piece's entry is to be marked."""
    texts = dict(values)
    own = texts.pop(OWN, "")
    return texts, bool(own) and bool(OWN_ENTRY.kind.read(own, by))


def _work_fields(session: Session, work: Repair, shown: Texts) -> list[FormField]:
    by = session.author()
    return [*fields_of(work, by, shown=shown), *loose_fields([OWN_ENTRY], by)]


def warned(work: Repair, knowledge: Knowledge) -> bool:
    """Whether a work names what nobody should try, or a material that may not keep."""
    return bool(refused(work, knowledge) or doubtful(work, knowledge))


EDIT = Act(record_actions.edit)
REMOVE = Act(record_actions.remove)
STOCK = {
    "new": Act(later("bench.typed", "new_part"), free=True, knows=True),
    "fits": Act(later("bench.fits", "fits_part"), knows=True),
}
STOCK |= {"edit": EDIT, "remove": REMOVE}
WANTS = {
    "new": Act(later("bench.typed", "new_want"), free=True, knows=True),
    "edit": EDIT,
    "remove": REMOVE,
}
WORK = {"new": Act(new_work, free=True, knows=True), "edit": Act(edit_work, knows=True)}
WORK |= {"done": Act(done, knows=True), "remove": REMOVE}
