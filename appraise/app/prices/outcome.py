"""What became of a piece after it was logged: asked in a form."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from appraise.app import record_actions
from appraise.app.lists.sheet import RecordSheet
from appraise.knowledge.basics import BELONGING
from appraise.pricing.outcomes import SURE, Outcome, outcome_of, with_outcome
from appraise.records.entry import Entry
from appraise.records.fields import Field
from appraise.records.quantities import AmountKind
from appraise.records.stored import Stored
from appraise.records.values import WordKind

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
