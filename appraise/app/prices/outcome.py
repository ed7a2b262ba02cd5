"""What became of a piece after it was logged: asked in a form."""

from __future__ import annotations

from typing import TYPE_CHECKING

from appraise.app import record_actions
from appraise.app.fieldwords import Values
from appraise.app.form import FormField
from appraise.base.money import Money
from appraise.knowledge.basics import BELONGING
from appraise.pricing.outcomes import SURE, Outcome, outcome_of, with_outcome
from appraise.records.entry import Entry

if TYPE_CHECKING:
    from appraise.app.lists.sheet import RecordSheet
    from appraise.records.stored import Stored

NOTE = "Used in the track record, to measure how good the estimates are."
FOUND = "Whether its parts belong together, as found by you or a conservator."


def ask_outcome(sheet: RecordSheet, one: Stored[Entry]) -> None:
    """A form for what was found out about a piece, or what it fetched later."""
    session, entry = sheet.session, one.thing

    def keep(values: Values) -> None:
        price = values["price"]
        outcome = Outcome(
            session.as_of,
            values["found"].lower(),
            values["sure"].lower() or SURE[1],
            values["by"],
            Money.parse(price, session.settings.currency) if price else None,
        )
        session.log.edit(with_outcome(entry, outcome), was=entry)

    record_actions.ask(sheet, "Outcome", fields_of(outcome_of(entry)), keep, sheet.read, NOTE)


def fields_of(known: Outcome | None) -> list[FormField]:
    """The fields of the form, with what is known so far."""
    price = str(known.price) if known and known.price else ""
    return [
        FormField("found", "found", known.found if known else "", FOUND, BELONGING, True),
        FormField(
            "sure",
            "how sure",
            known.sure if known else SURE[1],
            choices=SURE,
            only=True,
            needed=True,
        ),
        FormField("by", "found by", known.by if known else "", "Found by whom, in your words."),
        FormField(
            "price", "later price", price, "The price of a later sale, e.g. 38 USD.", amount=True
        ),
    ]
