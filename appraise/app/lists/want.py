"""The want list."""

from __future__ import annotations

from appraise.app.bench import actions
from appraise.app.lists.spec import ListView, RecordSpec
from appraise.app.widgets.columns import Column
from appraise.records.stored import Stored
from appraise.records.want import Want


def _years(view: ListView, one: Stored[Want]) -> str:
    want = one.thing
    return f"{want.first or ''}-{want.last or ''}" if want.first or want.last else ""


SPEC: RecordSpec[Want] = RecordSpec(
    name="want",
    title="want list",
    area="wants",
    page_area="want",
    nouns=("want", "wants"),
    columns=(
        Column("title", "title"),
        Column("years", "years", 9, 50, whole=True),
        Column("formats", "sizes", 16, 72),
        Column("most", "limit", 19, 60, right=True, whole=True),
    ),
    acts=actions.WANTS,
    empty="Your want list is empty. Press n and type one line.",
    hint="/ filters: vine formats=ninth most=40-80",
    cells={
        "years": _years,
        "most": lambda view, one: f"at most {one.thing.most}" if one.thing.most else "",
    },
    tabs=("stock", "work", "want"),
)
