"""What is done to parts in stock, jobs and wants."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from appraise.app import record_actions
from appraise.app.currency import with_currency
from appraise.app.form import FormField, fields_of
from appraise.app.lists.spec import Act
from appraise.collection.repairs import doubtful, proposed_disclosure, refused
from appraise.commands import records
from appraise.commands.kinds import KINDS
from appraise.records import fields as record_fields
from appraise.records.part import Part
from appraise.records.repair import Repair
from appraise.records.stored import Stored
from appraise.records.values import FLAG
from appraise.store.records import held

if TYPE_CHECKING:
    from appraise.app.lists.sheet import RecordSheet
    from appraise.knowledge.records import Knowledge
    from appraise.records.values import Author

Values = Mapping[str, str]
OWN = "own-entry"
OWN_ENTRY = record_fields.Field(
    OWN,
    "yes marks the piece's entry as your own work: its price is then left out of estimates",
    FLAG,
)


def new_part(sheet: RecordSheet, here: None) -> None:
    """Add a part in one line."""
    from appraise.app.bench.typed import PartLine  # 5 ms

    _typed(sheet, PartLine)


def new_want(sheet: RecordSheet, here: None) -> None:
    """Add something to look out for in one line."""
    from appraise.app.bench.typed import WantLine  # 5 ms

    _typed(sheet, WantLine)


def _typed(sheet: RecordSheet, line: Callable[[], Any]) -> None:
    with_currency(sheet, lambda: sheet.open(line(), lambda held: sheet.read(held.id)))


def new_work(sheet: RecordSheet, here: None) -> None:
    """A form for a job."""
    session = sheet.session
    work, knowledge = Repair("", session.as_of), session.trade()
    made: list[str] = []

    def take(values: Values) -> None:
        texts, own = _own(values, session.author())
        made.append(records.add(session, KINDS["work"], work, texts, own).stored.id)

    fields = _work_fields(work, knowledge, {})
    record_actions.ask(sheet, "A job", fields, take, lambda: _worked(sheet, made[0]))


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


def _ask_work(sheet: RecordSheet, one: Stored[Repair], title: str, more: Values) -> None:
    """The form of a job; `more` stands in it beside what was recorded."""
    session = sheet.session

    def take(values: Values) -> None:
        texts, own = _own(values, session.author())
        records.edit(session, KINDS["work"], one, texts, own)

    fields = _work_fields(one.thing, session.trade(), more)
    record_actions.ask(sheet, title, fields, take, lambda: _worked(sheet, one.id))


def fits(sheet: RecordSheet, one: Stored[Part]) -> None:
    """What fits a part."""
    from appraise.app.bench.fits import fits_part  # 20 ms with the reading

    fits_part(sheet, one, sheet.session.trade())


def _own(values: Values, by: Author) -> tuple[dict[str, str], bool]:
    """The fields of a work as the form has them, and whether the piece's entry is to be marked."""
    texts = dict(values)
    own = texts.pop(OWN, "")
    return texts, bool(own) and bool(OWN_ENTRY.kind.read(own, by))


def _work_fields(work: Repair, knowledge: Knowledge, shown: Values) -> list[FormField]:
    own = FormField(OWN, "own entry", "", OWN_ENTRY.hint, flag=True)
    return [*fields_of(work, knowledge, shown), own]


def warned(work: Repair, knowledge: Knowledge) -> bool:
    """Whether a work names what nobody should try, or a material that may not keep."""
    return bool(refused(work, knowledge) or doubtful(work, knowledge))


EDIT = Act(record_actions.edit_here)
REMOVE = Act(record_actions.remove_here)
STOCK = {"new": Act(new_part, free=True, knows=True), "fits": Act(fits, knows=True)}
STOCK |= {"edit": EDIT, "remove": REMOVE}
WANTS = {"new": Act(new_want, free=True, knows=True), "edit": EDIT, "remove": REMOVE}
WORK = {"new": Act(new_work, free=True, knows=True), "edit": Act(edit_work, knows=True)}
WORK |= {"done": Act(done, knows=True), "remove": REMOVE}
