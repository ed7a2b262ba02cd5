"""Repairs and assemblies as a list."""

from __future__ import annotations

from functools import partial

from appraise.app.bench import actions
from appraise.app.lists.facts import field_lines
from appraise.app.lists.spec import RecordSpec
from appraise.app.session import Session
from appraise.app.widgets.columns import Column
from appraise.app.widgets.reading import Write
from appraise.records.fields import filled
from appraise.records.repair import Repair
from appraise.records.stored import Stored

REVERSIBLE = {"yes": "can be undone", "slow": "hard to undo", "no": "cannot be undone"}


def _facts(session: Session, one: Stored[Repair]) -> Write:
    from appraise.documents.bench import work_notes, work_stuff  # 10 ms
    from appraise.store.bench import piece_title

    job, told, knowledge = one.thing, filled(one.thing), session.trade()
    title = piece_title(session.log, job.piece)
    if title:
        told["piece"] = f"{title} ({job.piece[:8]})"
    if job.materials:
        told["materials"] = "; ".join(work_stuff(job, knowledge))
    return partial(field_lines, told, work_notes(job, knowledge))


SPEC: RecordSpec[Repair] = RecordSpec(
    name="work",
    title="work in progress",
    area="work",
    page_area="job",
    nouns=("job", "jobs"),
    columns=(
        Column("title", "title"),
        Column("begun", "since", 10, 50, whole=True),
        Column("done", "done", 10, 72, whole=True),
        Column("reversible", "undoing", 16, 84),
        Column("by", "by", 14, 64),
    ),
    acts=actions.WORK,
    empty="No job in progress. Press n to add one.",
    hint="/ filters: hinge by=conservator reversible=no",
    cells={
        "reversible": lambda view, one: REVERSIBLE.get(one.thing.reversible, ""),
        "by": lambda view, one: "" if one.thing.by == "self" else one.thing.who or one.thing.by,
    },
    facts=_facts,
    less="finished",
    tabs=("stock", "work", "want"),
)
