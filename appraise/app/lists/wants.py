"""The want list."""

from __future__ import annotations

from appraise.app.bench import actions
from appraise.app.lines import Line
from appraise.app.lists.facts import as_recorded, counted, totals_line
from appraise.app.lists.spec import ListView, RecordSpec
from appraise.app.widgets.columns import Column
from appraise.records.stored import Stored
from appraise.records.want import Want


def _cell(view: ListView, one: Stored[Want], name: str) -> str:
    want = one.thing
    if name == "years":
        return f"{want.first or ''}-{want.last or ''}" if want.first or want.last else ""
    if name == "most":
        return f"at most {want.most}" if want.most else ""
    if name == "formats":
        return ", ".join(want.formats)
    return str(getattr(want, name))


def _totals(view: ListView) -> Line:
    return totals_line(counted(view, "want", "wants"))


SPEC: RecordSpec[Want] = RecordSpec(
    name="want",
    title="want list",
    area="wants",
    page_area="want",
    columns=(
        Column("title", "title"),
        Column("years", "years", 9, 50, whole=True),
        Column("formats", "sizes", 16, 72),
        Column("most", "limit", 19, 60, right=True, whole=True),
    ),
    cell=_cell,
    acts=actions.WANTS,
    facts=as_recorded,
    totals=_totals,
    empty="Your want list is empty. Press n and type one line.",
    hint="/ filters: vine formats=ninth most=40-80",
    rank={"most": lambda view, one: one.thing.most and one.thing.most.amount},
    down=("most",),
    shows=frozenset({"stock", "work", "want"}),
    tabs=("stock", "work", "want"),
)
