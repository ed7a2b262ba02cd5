"""A part or a wish in one line, shown as it was understood before it is kept."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, TypeVar

from appraise.app.currency import with_currency
from appraise.app.lists.sheet import RecordSheet
from appraise.app.oneline import OneLine
from appraise.knowledge.records import Knowledge
from appraise.records.part import Part
from appraise.records.stored import Stored
from appraise.records.want import Want
from appraise.store.records import keep

if TYPE_CHECKING:
    from appraise.listing.bench_line import Understood

T = TypeVar("T", Part, Want)


class RecordLine(OneLine[Stored[T], "Understood[T]"]):
    """One line in, a kept record out."""

    AREA = "line"

    def keep(self, read: Understood[T]) -> Stored[T]:
        return keep(self.session.log, read.thing)


class PartLine(RecordLine[Part]):
    """A part that comes into stock."""

    heading = "Add a part to stock"
    EXAMPLES = (
        "sixth thermoplastic case vine, hinge good, 12",
        "2 x brass mat sixth octagon, 3",
        "half case leather ninth, recess 54 x 66 mm",
    )
    GUIDE = (
        "Write the part, the plate size, the motif, measures, cost and place (kept in the hatbox), "
        "in any order. e edits all fields later."
    )

    def read_line(self, text: str, knowledge: Knowledge) -> Understood[Part]:
        from appraise.listing.bench_line import understand_part  # 30 ms, first time

        session = self.session
        return understand_part(text, knowledge, session.settings.currency, session.as_of)


class WantLine(RecordLine[Want]):
    """Something to look out for."""

    heading = "Add to the want list"
    EXAMPLES = (
        "ninth thermoplastic vine, up to 75",
        "sixth or quarter ambrotype soldier, 1861-1865",
        "carte de visite, fire engine",
    )
    GUIDE = (
        "Write size, process, case, motif, years and your limit, in any order. Matching pieces "
        "and listings are flagged."
    )

    def read_line(self, text: str, knowledge: Knowledge) -> Understood[Want]:
        from appraise.listing.wish_line import understand_want  # 30 ms, first time

        session = self.session
        read = understand_want(text, knowledge, session.settings.currency, session.as_of)
        read.thing.telling()
        return read


def new_part(sheet: RecordSheet, here: object) -> None:
    """Add a part in one line."""
    _ask(sheet, PartLine)


def new_want(sheet: RecordSheet, here: object) -> None:
    """Add something to look out for in one line."""
    _ask(sheet, WantLine)


def _ask(sheet: RecordSheet, line: Callable[[], RecordLine[Any]]) -> None:
    with_currency(sheet, lambda: sheet.open(line(), lambda held: sheet.read(held.id)))
