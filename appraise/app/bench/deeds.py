"""What is done on the bench: new, edit, done, removed, and what fits."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from appraise.app.form import Field, Form, fields_of
from appraise.app.prices.deeds import with_currency
from appraise.app.sheet import Question
from appraise.base.errors import InputError
from appraise.collection.repairs import doubtful, proposed_disclosure, refused
from appraise.records import fields as records
from appraise.records.fields import changed, filled, written
from appraise.records.part import Part, is_id
from appraise.records.repair import Repair
from appraise.records.stored import Stored
from appraise.records.values import FLAG, YES_NO
from appraise.store.bench import (
    change_work,
    drop_work,
    keep_work,
    piece_title,
    whole_ids,
    whole_origin,
    whole_piece,
)
from appraise.store.records import change, drop

if TYPE_CHECKING:
    from appraise.app.sheet import Sheet
    from appraise.knowledge.records import Knowledge
    from appraise.store.log import Log

Then = Callable[[], object]
Values = Mapping[str, str]
OWN = "own-entry"
OWN_ENTRY = records.Field(
    OWN,
    "yes marks the piece's entry as your own work: its price is then left out of estimates",
    FLAG,
)


def new_part(sheet: Sheet[Any], then: Callable[[str], object]) -> None:
    """Note a part in one line."""
    from appraise.app.bench.typed import PartLine  # 5 ms

    _typed(sheet, PartLine, then)


def new_want(sheet: Sheet[Any], then: Callable[[str], object]) -> None:
    """Note something to look out for in one line."""
    from appraise.app.bench.typed import WantLine  # 5 ms

    _typed(sheet, WantLine, then)


def _typed(sheet: Sheet[Any], line: Callable[[], Any], then: Callable[[str], object]) -> None:
    def done(held: Stored[Any] | None) -> None:
        if held is not None:
            then(held.id)

    with_currency(sheet, lambda: sheet.app.push_screen(line(), done))


def new_work(
    sheet: Sheet[Any], knowledge: Knowledge, then: Callable[[str], object], used: str = ""
) -> None:
    """A form for a work; `used` is the id of a part that goes into it."""
    work = Repair("", sheet.session.as_of)
    made: list[str] = []

    def keep(values: Values) -> None:
        after, own = _work(sheet, work, values, knowledge)
        if not after.title:
            raise InputError("give the job a title", "title")
        made.append(keep_work(sheet.session.log, after, own).id)
        sheet.session.changes += 1

    def kept() -> None:
        then(made[0])

    _form(sheet, "A job", _work_fields(work, knowledge, {"used": used}), keep, kept)


def edit(sheet: Sheet[Any], held: Stored[Any], knowledge: Knowledge, then: Then) -> None:
    """A form with every field of a record."""
    thing, log = held.thing, sheet.session.log
    title = f"Edit: {thing.title}"
    if isinstance(thing, Repair):
        edit_work(sheet, held, knowledge, then, title)
        return

    origin = getattr(thing, "taken_from", "")

    def keep(values: Values) -> None:
        told = values if values.get("from") == origin else whole_origin(log, values)
        change(log, Stored(held.id, changed(thing, told, sheet.session.author())), was=thing)
        sheet.session.changes += 1

    _form(sheet, title, fields_of(thing, knowledge), keep, then)


def edit_work(
    sheet: Sheet[Any],
    held: Stored[Repair],
    knowledge: Knowledge,
    then: Then,
    title: str,
    more: Mapping[str, str] | None = None,
) -> None:
    """A form with every field of a work; `more` stands in it beside what was noted."""

    def keep(values: Values) -> None:
        after, own = _work(sheet, held.thing, values, knowledge)
        change_work(sheet.session.log, Stored(held.id, after), held.thing, own)
        sheet.session.changes += 1

    _form(sheet, title, _work_fields(held.thing, knowledge, more or {}), keep, then)


def done(sheet: Sheet[Any], held: Stored[Repair], knowledge: Knowledge, then: Then) -> None:
    """Finish a work: the form with its day filled in, and a sentence where one is to be said."""
    work = held.thing
    more = {"done": sheet.session.as_of.isoformat()}
    if work.made_by_me and not work.disclosure:
        more["disclosure"] = proposed_disclosure(work)
    edit_work(sheet, held, knowledge, then, f"Done: {work.title}", more)


def remove(sheet: Sheet[Any], held: Stored[Any], then: Then) -> None:
    """Take a record off, once that was confirmed."""
    log = sheet.session.log

    def take() -> None:
        if isinstance(held.thing, Repair):
            drop_work(log, held)
        else:
            drop(log, [held.id])
        sheet.session.changes += 1

    def answered(yes: bool | None) -> None:
        if yes and sheet.attempt(take):
            then()

    asks = f"Take off {held.thing.title}? u: undo."
    sheet.app.push_screen(Question(asks, sheet.session.marks), answered)


def _work(
    sheet: Sheet[Any], work: Repair, values: Values, knowledge: Knowledge
) -> tuple[Repair, bool]:
    """The work as the form has it, and whether the piece's entry is to be marked."""
    log, texts, was = sheet.session.log, dict(values), written(work)
    own = texts.pop(OWN, "")
    marks = bool(own) and OWN_ENTRY.kind.read(own, sheet.session.author())
    texts = {name: text for name, text in texts.items() if text != was[name]}
    texts = whole_ids(log, texts)
    if texts.get("piece"):
        texts["piece"] = whole_piece(log, texts["piece"])
    after = changed(work, texts, sheet.session.author())
    if marks and not is_id(after.piece):
        raise InputError("needs the id of the piece's entry above", "piece")
    return after, marks


def _work_fields(work: Repair, knowledge: Knowledge, shown: Values) -> list[Field]:
    own = Field(OWN, "own entry", "", OWN_ENTRY.hint, YES_NO)
    return [*fields_of(work, knowledge, shown), own]


def _form(
    sheet: Sheet[Any], title: str, fields: list[Field], keep: Callable[[Values], None], then: Then
) -> None:
    def answered(kept: bool | None) -> None:
        if kept:
            then()

    sheet.app.push_screen(Form(title, fields, keep), answered)


def warned(work: Repair, knowledge: Knowledge) -> bool:
    """Whether a work names what nobody should try, or a material that may not keep."""
    return bool(refused(work, knowledge) or doubtful(work, knowledge))


def texts_of(held: Stored[Any], knowledge: Knowledge, log: Log) -> tuple[dict[str, str], list[str]]:
    """The fields of a record for its page, and what has to be said of it."""
    thing, told = held.thing, filled(held.thing)
    if not isinstance(thing, Repair):
        used = {"went into": thing.used_in} if isinstance(thing, Part) and thing.used_in else {}
        return told | used, []
    from appraise.report.bench import work_notes, work_stuff  # 10 ms

    title = piece_title(log, thing.piece)
    if title:
        told["piece"] = f"{title} ({thing.piece[:8]})"
    if thing.materials:
        told["materials"] = "; ".join(work_stuff(thing, knowledge))
    return told, work_notes(thing, knowledge)
