"""Parts in stock as a list."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from appraise.app.bench import actions
from appraise.app.lines import Line
from appraise.app.lists.facts import counted, field_lines, more, totals_line
from appraise.app.lists.spec import ListView, RecordSpec, Writer
from appraise.app.widgets.columns import Column
from appraise.records.fields import filled
from appraise.records.part import Part
from appraise.records.stored import Stored

if TYPE_CHECKING:
    from appraise.app.session import Session

MARRIED = "   Fitting is not belonging: it makes a married piece."


def _cell(view: ListView, one: Stored[Part], name: str) -> str:
    part, knowledge = one.thing, view.session.knowledge
    if name == "count":
        return str(part.count) if part.count else "used up"
    if name == "part":
        spare = knowledge.spares.get(part.part) if knowledge else None
        return spare.name if spare else part.part
    if name == "made":
        return "" if part.made == "period" else part.made.replace("-", " ")
    if name == "cost":
        return str(part.cost or "")
    return str(getattr(part, name))


def _facts(session: Session, one: Stored[Part]) -> Writer:
    used = {"went into": one.thing.used_in} if one.thing.used_in else {}
    return partial(field_lines, filled(one.thing) | used, ())


def _totals(view: ListView) -> Line:
    return totals_line(counted(view, "part", "parts"), more(view, "used up"), MARRIED)


SPEC: RecordSpec[Part] = RecordSpec(
    name="stock",
    title="parts in stock",
    area="stock",
    page_area="part",
    columns=(
        Column("title", "title"),
        Column("count", "count", 7, 40, right=True, whole=True),
        Column("part", "part", 16, 60),
        Column("format", "size", 8, 72),
        Column("made", "made", 10, 100),
        Column("cost", "cost", 11, 90, right=True, whole=True),
        Column("place", "place", 14, 80),
    ),
    cell=_cell,
    acts=actions.STOCK,
    facts=_facts,
    totals=_totals,
    empty="No parts in stock. Press n and type one line.",
    hint="/ filters: vine format=sixth place=box",
    rank={
        "count": lambda view, one: one.thing.count,
        "cost": lambda view, one: one.thing.cost and one.thing.cost.amount,
    },
    down=("count", "cost"),
    shows=frozenset({"stock", "work", "want"}),
    tabs=("stock", "work", "want"),
)
