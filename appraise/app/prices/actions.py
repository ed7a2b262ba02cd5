"""What is done to prices from a screen: log, edit, another like it, remove, and the rest."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import partial
from typing import Any

from appraise.app import photos, record_actions, reports
from appraise.app.currency import with_currency
from appraise.app.form import Texts, fields_of
from appraise.app.lists.sheet import RecordSheet
from appraise.app.lists.spec import Act, later
from appraise.base.errors import InputError
from appraise.commands.kinds import KINDS
from appraise.knowledge.basics import BELONGING
from appraise.pricing.outcomes import SURE, Outcome, outcome_of, with_outcome
from appraise.records.entry import Entry
from appraise.records.fields import Field, changed
from appraise.records.quantities import AmountKind
from appraise.records.stored import Stored
from appraise.records.values import Author, WordKind

AMOUNTS = ("asked", "offered", "paid", "hammer")


def log_price(sheet: RecordSheet, here: None) -> None:
    """Log a price in one line."""

    def ask() -> None:
        from appraise.app.prices.quickline import QuickLine  # 5 ms

        sheet.open(QuickLine(), lambda entry: _logged(sheet, entry))

    with_currency(sheet, ask)


def _logged(sheet: RecordSheet, entry: Entry) -> None:
    """Go to a new entry, unless the filter leaves it out."""
    sheet.read(entry.id)
    sheet.say("Logged. u: undo.", "good")


def edit(sheet: RecordSheet, one: Stored[Entry]) -> None:
    """A form with the entry's simple fields."""
    record_actions.edit(sheet, one, checked=lambda after: priced(one.thing, after))


def duplicate(sheet: RecordSheet, one: Stored[Entry]) -> None:
    """A form for another entry like this one, of today."""
    session = sheet.session
    twin = replace(like(one.thing), date=session.as_of)

    def take(texts: Texts) -> Entry:
        return session.log.add(entry_with(twin, texts, session.author()))

    title = f"Another like: {KINDS['price'].called(one.thing)}"
    fields = fields_of(twin, session.author())
    record_actions.ask(sheet, title, fields, take, partial(_logged, sheet))


def like(entry: Entry) -> Entry:
    """What another piece has in common with this one: not its file, pictures or estimates."""
    return replace(
        entry, id="", piece="", pictures=(), estimate=None, belonging=(), extra={}, note=""
    )


def entry_with(entry: Entry, texts: Texts, by: Author) -> Entry:
    """The entry with what was typed.

    Raises:
        InputError: one line; its `where` is the field.
    """
    return priced(entry, changed(entry, texts, by))


def priced(entry: Entry, after: Entry) -> Entry:
    """The entry as it is to be; its amounts are above 0, and one that had a price keeps one."""
    for name in AMOUNTS:
        money = getattr(after, name)
        if money != getattr(entry, name) and money is not None and money.amount <= 0:
            raise InputError("an amount must be above 0", name)
    if after.price is None and entry.price is not None:
        raise InputError("an entry needs an amount", "paid", "Remove it instead.")
    return after


def hold(sheet: RecordSheet, one: Stored[Entry]) -> None:
    """Add this purchase to the pieces you own."""
    from appraise.app.kept.actions import take_bought  # 20 ms

    take_bought(sheet, one.id)


NOTE = "Used in the track record, to measure how good the estimates are."
OUTCOME = (
    Field(
        "found",
        "whether its parts belong together, as found by you or a conservator",
        WordKind(BELONGING),
    ),
    Field("sure", "how sure whoever found it is", WordKind(SURE, needed=True), label="how sure"),
    Field("by", "found by whom, in your words", label="found by"),
    Field("price", "the price of a later sale, e.g. 38 USD", AmountKind(), label="later price"),
)


def ask_outcome(sheet: RecordSheet, one: Stored[Entry]) -> None:
    """A form for what was found out about a piece, or what it fetched later."""
    session, entry, known = sheet.session, one.thing, outcome_of(one.thing)

    def take(told: Mapping[str, Any]) -> None:
        given = {name: value for name, value in told.items() if value is not None}
        session.log.edit(with_outcome(entry, Outcome(session.as_of, **given)), was=entry)

    shown = {"sure": SURE[1]}
    if known is not None:
        shown = {each.name: each.kind.write(getattr(known, each.name) or "") for each in OUTCOME}
    record_actions.ask_values(sheet, "Outcome", OUTCOME, take, shown=shown, note=NOTE)


PRICES = {
    "new": Act(log_price, free=True),
    "edit": Act(edit),
    "duplicate": Act(duplicate),
    "remove": Act(record_actions.remove),
    "hold": Act(hold),
    "disagree": Act(later("prices.disagreements", "open_disagreements"), free=True),
    "import": Act(later("importing.screen", "ask_import"), free=True, knows=True),
    "report": Act(reports.tell_record, knows=True),
    "outcome": Act(ask_outcome),
    **photos.ACTS,
}
