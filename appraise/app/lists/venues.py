"""Places to buy as a list, with their terms."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from appraise.app import venue_actions
from appraise.app.lines import Line
from appraise.app.lists.facts import counted, field_lines, totals_line
from appraise.app.lists.spec import ListView, RecordSpec, Writer
from appraise.app.widgets.columns import Column
from appraise.records.fields import filled, typed_fields
from appraise.records.stored import Stored
from appraise.records.venue import TERMS, Venue

if TYPE_CHECKING:
    from appraise.app.session import Session


def _cell(view: ListView, one: Stored[Venue], name: str) -> str:
    if name == "name":
        return one.thing.name
    return typed_fields(Venue)[name].text(one.thing)


def _facts(session: Session, one: Stored[Venue]) -> Writer:
    fields = typed_fields(Venue)
    told = {fields[name].title: text for name, text in filled(one.thing).items()}
    return partial(field_lines, told, (TERMS,))


def _totals(view: ListView) -> Line:
    return totals_line(counted(view, "venue", "venues"), f"   {TERMS}")


SPEC: RecordSpec[Venue] = RecordSpec(
    name="venue",
    title="Venues",
    area="venues",
    page_area="venue",
    columns=(
        Column("name", "venue"),
        Column("channel", "channel", 9, 40),
        Column("currency", "currency", 8, 60),
        Column("premium", "premium %", 22, 72),
        Column("tax", "tax %", 16, 96),
        Column("checked", "checked", 10, 50, whole=True),
    ),
    cell=_cell,
    acts=venue_actions.VENUES,
    facts=_facts,
    totals=_totals,
    empty="No venues yet. Press n to add one with its premium, taxes and fees.",
    hint="/ filters: rooms channel=auction currency=USD",
    shows=frozenset({"venue"}),
)
