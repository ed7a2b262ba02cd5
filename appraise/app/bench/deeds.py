"""What is done on the bench: new, edit, done, removed, and what fits."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from appraise.app.form import Field, Form
from appraise.app.prices.deeds import with_currency
from appraise.app.sheet import Question
from appraise.base.errors import InputError
from appraise.keeping import stocktext, wanttext, worktext
from appraise.keeping.fieldtext import YES_NO, flag_of
from appraise.keeping.stock import MADE, Part, is_id
from appraise.keeping.wants import Want
from appraise.keeping.work import HANDS, REVERSIBLE, Work
from appraise.knowledge.records import KINDS, REGIONS
from appraise.log.bench import (
    change_work,
    drop_work,
    keep_work,
    piece_title,
    whole_ids,
    whole_origin,
    whole_piece,
)
from appraise.log.holdings import Held, change, drop
from appraise.piece.records import SUBJECTS

if TYPE_CHECKING:
    from appraise.app.sheet import Sheet
    from appraise.knowledge.records import Knowledge
    from appraise.log.store import Log

Then = Callable[[], object]
Values = Mapping[str, str]
OWN = "own-entry"
OWN_HINT = "Yes marks the piece's entry as your own work: it then teaches the tool no price."


def new_part(sheet: Sheet[Any], then: Callable[[str], object]) -> None:
    """Note a part in one line."""
    from appraise.app.bench.typed import PartLine  # 5 ms

    _typed(sheet, PartLine, then)


def new_want(sheet: Sheet[Any], then: Callable[[str], object]) -> None:
    """Note something to look out for in one line."""
    from appraise.app.bench.typed import WantLine  # 5 ms

    _typed(sheet, WantLine, then)


def _typed(sheet: Sheet[Any], line: Callable[[], Any], then: Callable[[str], object]) -> None:
    def done(held: Held[Any] | None) -> None:
        if held is not None:
            then(held.id)

    with_currency(sheet, lambda: sheet.app.push_screen(line(), done))


def new_work(
    sheet: Sheet[Any], knowledge: Knowledge, then: Callable[[str], object], used: str = ""
) -> None:
    """A form for a work; `used` is the id of a part that goes into it."""
    work = Work("", sheet.session.as_of)
    shown = {**worktext.written(work), "used": used, "done": ""}
    made: list[str] = []

    def keep(values: Values) -> None:
        after, own = _work(sheet, work, values, {}, knowledge)
        if not after.title:
            raise InputError("a work has a title", "title")
        made.append(keep_work(sheet.session.log, after, own).id)
        sheet.session.changes += 1

    def kept() -> None:
        then(made[0])

    _form(sheet, "A work", _work_fields(shown), keep, kept)


def edit(sheet: Sheet[Any], held: Held[Any], knowledge: Knowledge, then: Then) -> None:
    """A form with every field of a record."""
    thing, log = held.thing, sheet.session.log
    title = f"Edit: {thing.title}"
    currency = sheet.session.settings.currency
    if isinstance(thing, Work):
        edit_work(sheet, held, knowledge, then, title)
        return
    text: Any = stocktext if isinstance(thing, Part) else wanttext
    shown = text.written(thing)

    def keep(values: Values) -> None:
        told = _touched(values, shown)
        told = whole_origin(log, told)
        change(log, Held(held.id, text.changed(thing, told, knowledge, currency)), was=thing)
        sheet.session.changes += 1

    _form(sheet, title, _fields(text.MEANING, shown, _choices(knowledge)), keep, then)


def edit_work(
    sheet: Sheet[Any],
    held: Held[Work],
    knowledge: Knowledge,
    then: Then,
    title: str,
    more: Mapping[str, str] | None = None,
) -> None:
    """A form with every field of a work; `more` stands in it beside what was noted."""
    shown = worktext.written(held.thing)

    def keep(values: Values) -> None:
        after, own = _work(sheet, held.thing, values, shown, knowledge)
        change_work(sheet.session.log, Held(held.id, after), held.thing, own)
        sheet.session.changes += 1

    _form(sheet, title, _work_fields({**shown, **(more or {})}), keep, then)


def done(sheet: Sheet[Any], held: Held[Work], knowledge: Knowledge, then: Then) -> None:
    """Finish a work: the form with its day filled in, and a sentence where one is to be said."""
    work = held.thing
    more = {"done": sheet.session.as_of.isoformat()}
    if work.made_by_me and not work.disclosure:
        more["disclosure"] = worktext.proposed_disclosure(work)
    edit_work(sheet, held, knowledge, then, f"Done: {work.title}", more)


def remove(sheet: Sheet[Any], held: Held[Any], then: Then) -> None:
    """Take a record off, once that was confirmed."""
    log = sheet.session.log

    def take() -> None:
        if isinstance(held.thing, Work):
            drop_work(log, held)
        else:
            drop(log, [held.id])
        sheet.session.changes += 1

    def answered(yes: bool | None) -> None:
        if yes and sheet.attempt(take):
            then()

    asks = f"Take off {held.thing.title}? u brings it back."
    sheet.app.push_screen(Question(asks, sheet.session.marks), answered)


def _work(
    sheet: Sheet[Any], work: Work, values: Values, shown: Values, knowledge: Knowledge
) -> tuple[Work, bool]:
    """The work as the form has it, and whether the piece's entry is to be marked."""
    log, told = sheet.session.log, dict(values)
    own = flag_of(OWN, told.pop(OWN, ""))
    texts = whole_ids(log, _touched(told, shown))
    if texts.get("piece"):
        texts["piece"] = whole_piece(log, texts["piece"])
    after = worktext.changed(work, texts, knowledge, sheet.session.settings.currency)
    if own and not is_id(after.piece):
        raise InputError("needs the id of the piece's entry above", "piece")
    return after, own


def _touched(values: Values, shown: Values) -> dict[str, str]:
    """What was changed in a form; the rest stays as it is, text of several lines included."""
    return {
        name: text for name, text in values.items() if text != " ".join(shown.get(name, "").split())
    }


def _fields(
    meaning: Mapping[str, str], shown: Values, choices: Mapping[str, Sequence[str]]
) -> list[Field]:
    return [
        Field(
            name,
            name,
            " ".join(shown.get(name, "").split()),
            f"{says[0].upper()}{says[1:]}.",
            choices.get(name, ()),
        )
        for name, says in meaning.items()
    ]


def _work_fields(shown: Values) -> list[Field]:
    choices = {"by": HANDS, "reversible": REVERSIBLE, "made-by-me": YES_NO}
    own = Field(OWN, "own entry", "", OWN_HINT, YES_NO)
    return [*_fields(worktext.MEANING, shown, choices), own]


def _choices(knowledge: Knowledge) -> dict[str, Sequence[str]]:
    families = dict.fromkeys(one.family for one in knowledge.processes.values())
    return {
        "part": tuple(knowledge.spares),
        "made": MADE,
        "region": REGIONS,
        "kind": KINDS,
        "process": tuple(families),
        "housing": tuple(knowledge.housings),
        "subject": SUBJECTS,
    }


def _form(
    sheet: Sheet[Any], title: str, fields: list[Field], keep: Callable[[Values], None], then: Then
) -> None:
    def answered(kept: bool | None) -> None:
        if kept:
            then()

    sheet.app.push_screen(Form(title, fields, keep), answered)


def warned(work: Work, knowledge: Knowledge) -> bool:
    """Whether a work names what nobody should try, or a material that may not keep."""
    return bool(worktext.refused(work, knowledge) or worktext.doubtful(work, knowledge))


def texts_of(held: Held[Any], knowledge: Knowledge, log: Log) -> tuple[dict[str, str], list[str]]:
    """The fields of a record for its page, and what has to be said of it."""
    thing = held.thing
    if isinstance(thing, Work):
        from appraise.report.bench import work_notes, work_stuff  # 10 ms

        told = worktext.written(thing)
        title = piece_title(log, thing.piece)
        if title:
            told["piece"] = f"{title} ({thing.piece[:8]})"
        if thing.materials:
            told["materials"] = "; ".join(work_stuff(thing, knowledge))
        return told, work_notes(thing, knowledge)
    if isinstance(thing, Part):
        used = {"went into": thing.used_in} if thing.used_in else {}
        return {**stocktext.written(thing), **used}, []
    assert isinstance(thing, Want)
    return wanttext.written(thing), []
