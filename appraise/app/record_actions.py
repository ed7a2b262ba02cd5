"""What every screen does to a record: a form that changes it, a question before it is removed.

The use cases of `commands` do it; a change is counted, so that prices are learnt anew.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from appraise.app.form import Form, FormField, fields_of
from appraise.commands import records
from appraise.commands.kinds import KINDS
from appraise.records.record_types import name_of_thing

if TYPE_CHECKING:
    from appraise.app.lists.sheet import RecordSheet
    from appraise.app.sheet import Sheet
    from appraise.records.stored import Stored

Then = Callable[[], object]
Values = Mapping[str, str]


def ask(
    sheet: Sheet[Any],
    title: str,
    fields: Sequence[FormField],
    take: Callable[[Values], object],
    then: Then,
    note: str = "",
) -> None:
    """A form whose values make a change; it stays until they are right."""

    def keep(values: Values) -> None:
        take(values)
        sheet.session.changes += 1

    sheet.open(Form(title, fields, keep, note), lambda _: then())


def confirm(sheet: Sheet[Any], asks: str, job: Callable[[], object], then: Then) -> None:
    """A question; yes makes the change."""

    def take() -> None:
        job()
        sheet.session.changes += 1

    sheet.confirm(asks, lambda: sheet.attempt(take) and then())


def edit(
    sheet: Sheet[Any],
    one: Stored[Any],
    then: Then,
    *,
    checked: Callable[[Any], Any] = lambda thing: thing,
    choices: Mapping[str, Sequence[str]] | None = None,
) -> None:
    """A form with every field of a record that a person writes."""
    kind, session = KINDS[name_of_thing(one.thing)], sheet.session

    def take(values: Values) -> None:
        records.edit(session, kind, one, values, then=checked)

    fields = fields_of(one.thing, session.knowledge, None, choices, session.author())
    ask(sheet, f"Edit: {kind.called(one.thing)}", fields, take, then)


def remove(sheet: Sheet[Any], one: Stored[Any], then: Then, asks: str = "Remove {}?") -> None:
    """Take a record off, once that was confirmed; undo restores it."""
    kind = KINDS[name_of_thing(one.thing)]

    def job() -> None:
        records.remove(sheet.session, kind, one)

    confirm(sheet, f"{asks.format(kind.called(one.thing))} u: undo.", job, then)


def edit_here(sheet: RecordSheet, one: Stored[Any]) -> None:
    """A form with every field of the record one is at."""
    edit(sheet, one, sheet.read)


def remove_here(sheet: RecordSheet, one: Stored[Any]) -> None:
    """Remove the record one is at, once that was confirmed."""
    remove(sheet, one, sheet.gone)
