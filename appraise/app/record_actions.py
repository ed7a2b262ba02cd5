"""What every screen does to a record: a form that changes it, a question before it is removed.

The use cases of `commands` do it; a change is counted, so that prices are learnt anew.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any, TypeVar

from appraise.app import form
from appraise.app.form import FormField, Texts, fields_of
from appraise.app.sheet import Sheet
from appraise.commands import records
from appraise.commands.kinds import KINDS
from appraise.records.fields import Field, Record
from appraise.records.record_types import name_of_thing
from appraise.records.stored import Stored

if TYPE_CHECKING:
    from appraise.app.lists.sheet import RecordSheet

Then = Callable[[], object]
Taken = TypeVar("Taken")
Given = TypeVar("Given")


def ask(
    sheet: Sheet[Any],
    title: str,
    fields: Sequence[FormField],
    take: Callable[[Texts], Taken],
    then: Callable[[Taken], object] | None = None,
    note: str = "",
) -> None:
    """A form whose values make a change; without `then` the screen reads the log anew."""
    form.ask(sheet, title, fields, counting(sheet, take), then or _read(sheet), note)


def ask_values(
    sheet: Sheet[Any],
    title: str,
    fields: Sequence[Field],
    take: Callable[[Mapping[str, Any]], Taken],
    then: Callable[[Taken], object] | None = None,
    **more: Any,
) -> None:
    """The same of fields of no record."""
    form.ask_values(sheet, title, fields, counting(sheet, take), then or _read(sheet), **more)


def _read(sheet: Any) -> Callable[[object], object]:
    return lambda _: sheet.read()


def counting(sheet: Sheet[Any], take: Callable[[Given], Taken]) -> Callable[[Given], Taken]:
    """What changes the log, and counts that."""

    def changed(given: Given) -> Taken:
        taken = take(given)
        sheet.session.changes += 1
        return taken

    return changed


def confirm(sheet: Sheet[Any], asks: str, job: Callable[[], object], then: Then) -> None:
    """A question; yes makes the change."""
    change = counting(sheet, lambda _: job())
    sheet.confirm(asks, lambda: sheet.attempt(lambda: change(None)) and then())


def add(
    sheet: Sheet[Any],
    begun: Record,
    title: str,
    then: Callable[[str], object],
    *,
    shown: Mapping[str, str] | None = None,
    choices: Mapping[str, Sequence[str]] | None = None,
) -> None:
    """A form for a new record, begun as it is given; `then` is told the id it gets."""
    kind, session = KINDS[name_of_thing(begun)], sheet.session

    def take(texts: Texts) -> str:
        return records.add(session, kind, begun, texts).stored.id

    fields = fields_of(begun, session.author(), shown=shown, choices=choices)
    ask(sheet, title, fields, take, then)


def edit(
    sheet: Sheet[Any],
    one: Stored[Any],
    *,
    checked: Callable[[Any], Any] = lambda thing: thing,
    choices: Mapping[str, Sequence[str]] | None = None,
) -> None:
    """A form with every field of a record that a person writes."""
    kind, session = KINDS[name_of_thing(one.thing)], sheet.session

    def take(texts: Texts) -> None:
        records.edit(session, kind, one, texts, then=checked)

    fields = fields_of(one.thing, session.author(), choices=choices)
    ask(sheet, f"Edit: {kind.called(one.thing)}", fields, take)


def remove(sheet: RecordSheet, one: Stored[Any], asks: str = "Remove {}?") -> None:
    """Take a record off, once that was confirmed; undo restores it."""
    kind = KINDS[name_of_thing(one.thing)]

    def job() -> None:
        records.remove(sheet.session, kind, one)

    confirm(sheet, f"{asks.format(kind.called(one.thing))} u: undo.", job, sheet.gone)
