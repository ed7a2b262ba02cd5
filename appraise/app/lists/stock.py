"""Parts in stock as a list."""

from __future__ import annotations

from functools import partial

from appraise.app.bench import actions
from appraise.app.lists.facts import field_lines
from appraise.app.lists.spec import ListView, RecordSpec
from appraise.app.session import Session
from appraise.app.widgets.columns import Column
from appraise.app.widgets.reading import Write
from appraise.records.fields import filled
from appraise.records.part import Part
from appraise.records.stored import Stored


def _part(view: ListView, one: Stored[Part]) -> str:
    """What sort of part it is, by its name."""
    knowledge = view.session.knowledge
    spare = knowledge.spares.get(one.thing.part) if knowledge else None
    return spare.name if spare else one.thing.part


def _facts(session: Session, one: Stored[Part]) -> Write:
    used = {"went into": one.thing.used_in} if one.thing.used_in else {}
    return partial(field_lines, filled(one.thing) | used, ())


SPEC: RecordSpec[Part] = RecordSpec(
    name="stock",
    title="parts in stock",
    area="stock",
    page_area="part",
    nouns=("part", "parts"),
    columns=(
        Column("title", "title"),
        Column("count", "count", 7, 40, right=True, whole=True),
        Column("part", "part", 16, 60),
        Column("format", "size", 8, 72),
        Column("made", "made", 10, 100),
        Column("cost", "cost", 11, 90, right=True, whole=True),
        Column("place", "place", 14, 80),
    ),
    acts=actions.STOCK,
    empty="No parts in stock. Press n and type one line.",
    hint="/ filters: vine format=sixth place=box",
    cells={
        "count": lambda view, one: one.thing.count or "used up",
        "part": _part,
        "made": lambda view, one: one.thing.made.replace("period", "").replace("-", " "),
    },
    facts=_facts,
    less="used up",
    foot="Fitting is not belonging: it makes a married piece.",
    tabs=("stock", "work", "want"),
)
