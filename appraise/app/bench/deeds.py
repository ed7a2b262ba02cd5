"""What is done on the bench: new, edit, done, removed, and what fits."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from appraise.app import record_actions
from appraise.app.form import FormField, fields_of
from appraise.app.prices.deeds import with_currency
from appraise.collection.repairs import doubtful, proposed_disclosure, refused
from appraise.commands import records
from appraise.commands.kinds import KINDS
from appraise.records import fields as record_fields
from appraise.records.fields import filled
from appraise.records.part import Part
from appraise.records.repair import Repair
from appraise.records.stored import Stored
from appraise.records.values import FLAG, YES_NO
from appraise.store.bench import piece_title

if TYPE_CHECKING:
    from appraise.app.sheet import Sheet
    from appraise.knowledge.records import Knowledge
    from appraise.records.values import Author
    from appraise.store.log import Log

Then = Callable[[], object]
Values = Mapping[str, str]
OWN = "own-entry"
OWN_ENTRY = record_fields.Field(
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
    work, session = Repair("", sheet.session.as_of), sheet.session
    made: list[str] = []

    def take(values: Values) -> None:
        texts, own = _own(values, session.author())
        made.append(records.add(session, KINDS["work"], work, texts, own).stored.id)

    fields = _work_fields(work, knowledge, {"used": used})
    record_actions.ask(sheet, "A job", fields, take, lambda: then(made[0]))


def edit(sheet: Sheet[Any], held: Stored[Any], knowledge: Knowledge, then: Then) -> None:
    """A form with every field of a record."""
    if isinstance(held.thing, Repair):
        edit_work(sheet, held, knowledge, then, f"Edit: {held.thing.title}")
    else:
        record_actions.edit(sheet, held, then)


def edit_work(
    sheet: Sheet[Any],
    held: Stored[Repair],
    knowledge: Knowledge,
    then: Then,
    title: str,
    more: Mapping[str, str] | None = None,
) -> None:
    """A form with every field of a work; `more` stands in it beside what was noted."""

    def take(values: Values) -> None:
        texts, own = _own(values, sheet.session.author())
        records.edit(sheet.session, KINDS["work"], held, texts, own)

    record_actions.ask(sheet, title, _work_fields(held.thing, knowledge, more or {}), take, then)


def done(sheet: Sheet[Any], held: Stored[Repair], knowledge: Knowledge, then: Then) -> None:
    """Finish a work: the form with its day filled in, and a sentence where one is to be said."""
    work = held.thing
    more = {"done": sheet.session.as_of.isoformat()}
    if work.made_by_me and not work.disclosure:
        more["disclosure"] = proposed_disclosure(work)
    edit_work(sheet, held, knowledge, then, f"Done: {work.title}", more)


def remove(sheet: Sheet[Any], held: Stored[Any], then: Then) -> None:
    """Take a record off, once that was confirmed."""
    record_actions.remove(sheet, held, then, "Take off {}?")


def _own(values: Values, by: Author) -> tuple[dict[str, str], bool]:
    """The fields of a work as the form has them, and whether the piece's entry is to be marked."""
    texts = dict(values)
    own = texts.pop(OWN, "")
    return texts, bool(own) and bool(OWN_ENTRY.kind.read(own, by))


def _work_fields(work: Repair, knowledge: Knowledge, shown: Values) -> list[FormField]:
    own = FormField(OWN, "own entry", "", OWN_ENTRY.hint, YES_NO)
    return [*fields_of(work, knowledge, shown), own]


def warned(work: Repair, knowledge: Knowledge) -> bool:
    """Whether a work names what nobody should try, or a material that may not keep."""
    return bool(refused(work, knowledge) or doubtful(work, knowledge))


def texts_of(held: Stored[Any], knowledge: Knowledge, log: Log) -> tuple[dict[str, str], list[str]]:
    """The fields of a record for its page, and what has to be said of it."""
    thing, told = held.thing, filled(held.thing)
    if not isinstance(thing, Repair):
        used = {"went into": thing.used_in} if isinstance(thing, Part) and thing.used_in else {}
        return told | used, []
    from appraise.documents.bench import work_notes, work_stuff  # 10 ms

    title = piece_title(log, thing.piece)
    if title:
        told["piece"] = f"{title} ({thing.piece[:8]})"
    if thing.materials:
        told["materials"] = "; ".join(work_stuff(thing, knowledge))
    return told, work_notes(thing, knowledge)
