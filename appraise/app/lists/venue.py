"""Places to buy as a list, with their terms."""

from __future__ import annotations

from functools import partial

from appraise.app import venue_actions
from appraise.app.lists.facts import field_lines
from appraise.app.lists.spec import RecordSpec
from appraise.app.session import Session
from appraise.app.widgets.columns import Column
from appraise.app.widgets.reading import Write
from appraise.records.fields import filled, typed_fields
from appraise.records.stored import Stored
from appraise.records.venue import TERMS, Venue


def _facts(session: Session, one: Stored[Venue]) -> Write:
    fields = typed_fields(Venue)
    told = {fields[name].title: text for name, text in filled(one.thing).items()}
    return partial(field_lines, told, (TERMS,))


SPEC: RecordSpec[Venue] = RecordSpec(
    name="venue",
    title="Venues",
    area="venues",
    page_area="venue",
    nouns=("venue", "venues"),
    columns=(
        Column("name", "venue"),
        Column("channel", "channel", 9, 40),
        Column("currency", "currency", 8, 60),
        Column("premium", "premium %", 22, 72),
        Column("tax", "tax %", 16, 96),
        Column("checked", "checked", 10, 50, whole=True),
    ),
    acts=venue_actions.VENUES,
    empty="No venues yet. Press n to add one with its premium, taxes and fees.",
    hint="/ filters: rooms channel=auction currency=USD",
    facts=_facts,
    foot=TERMS,
)
