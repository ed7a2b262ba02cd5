"""Repairs and assemblies as a list."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from appraise.app.bench import actions
from appraise.app.lines import Line
from appraise.app.lists.facts import counted, field_lines, more, totals_line
from appraise.app.lists.spec import ListView, RecordSpec, Writer
from appraise.app.widgets.columns import Column
from appraise.records.fields import filled
from appraise.records.repair import Repair
from appraise.records.stored import Stored

if TYPE_CHECKING:
    from appraise.app.session import Session

REVERSIBLE = {"yes": "can be undone", "slow": "hard to undo", "no": "cannot be undone"}


def _cell(view: ListView, one: Stored[Repair], name: str) -> str:
    job = one.thing
    if name == "reversible":
        return REVERSIBLE.get(job.reversible, "")
    if name == "by":
        return "" if job.by == "self" else job.who or job.by
    value = getattr(job, name)
    return "" if value is None else str(value)


def _facts(session: Session, one: Stored[Repair]) -> Writer:
    from appraise.documents.bench import work_notes, work_stuff  # 10 ms
    from appraise.store.bench import piece_title

    job, told, knowledge = one.thing, filled(one.thing), session.trade()
    title = piece_title(session.log, job.piece)
    if title:
        told["piece"] = f"{title} ({job.piece[:8]})"
    if job.materials:
        told["materials"] = "; ".join(work_stuff(job, knowledge))
    return partial(field_lines, told, work_notes(job, knowledge))


def _totals(view: ListView) -> Line:
    return totals_line(counted(view, "job", "jobs"), more(view, "finished"))


SPEC: RecordSpec[Repair] = RecordSpec(
    name="work",
    title="work in progress",
    area="work",
    page_area="job",
    columns=(
        Column("title", "title"),
        Column("begun", "since", 10, 50, whole=True),
        Column("done", "done", 10, 72, whole=True),
        Column("reversible", "undoing", 16, 84),
        Column("by", "by", 14, 64),
    ),
    cell=_cell,
    acts=actions.WORK,
    facts=_facts,
    totals=_totals,
    empty="No job in progress. Press n to add one.",
    hint="/ filters: hinge by=conservator reversible=no",
    shows=frozenset({"stock", "work", "want"}),
    tabs=("stock", "work", "want"),
)
