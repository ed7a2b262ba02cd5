"""What the desk says of the lots that are followed."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING

from appraise.app.lines import EMPTY, Line, cut, fold, fold_to, line
from appraise.app.marks import WARN, Marks
from appraise.base.dataclass import dataclass

if TYPE_CHECKING:
    from appraise.documents.lots import Now
    from appraise.records.lot import Lot
    from appraise.records.stored import Stored
    from appraise.store.log import Log


@dataclass(frozen=True, slots=True)
class LotGlance:
    """A lot as the desk shows it.

    Attributes:
        title: Its title.
        stands: When it closes, or that no result was noted.
        bid: My bid, or the most I would pay.
        urgent: Whether it is to be pointed at.
    """

    title: str
    stands: str
    bid: str
    urgent: bool


@dataclass(frozen=True, slots=True)
class Purse:
    """The budget as the desk shows it.

    Attributes:
        line: What is left of it, in words.
        paid, bids: The parts of it that were paid, and that the bids which stand would cost.
    """

    line: str
    paid: float
    bids: float


def followed(log: Log, currency: str, on: date) -> tuple[tuple[Stored[Lot], ...], Purse | None]:
    """The lots of a log, and what is left of its budget; nothing where it has none.

    What understands them is imported only where there are some.
    """
    from appraise.store.records import held, keeps

    if not keeps(log, "lot", "budget"):
        return (), None
    from appraise.documents.budget import purse_line
    from appraise.records.lot import Lot  # 10 ms with the budget
    from appraise.store.venue_book import read_budget_status

    status = read_budget_status(log, currency, on)
    if status.budget is None or not status.budget.amount:
        return held(log, Lot), None
    paid, bids = (
        float(one.amount / status.budget.amount) for one in (status.spent, status.if_all_win)
    )
    return held(log, Lot), Purse(purse_line(status), paid, bids)


def glances(lots: Sequence[Stored[Lot]], now: Now) -> tuple[LotGlance, ...]:
    """The open lots, the one that closes first on top."""
    from appraise.collection.lotsteps import by_closing, due  # 5 ms with the words, first time
    from appraise.documents.lots import bid_words, standing_words

    open_lots = [one.thing for one in lots if one.thing.open]
    open_lots.sort(key=lambda one: by_closing(one, now.zone))
    found = []
    for lot in open_lots:
        when = due(lot, now.at, now.zone)
        urgent = when.urgent or when.overdue
        found.append(LotGlance(lot.title, standing_words(lot, when, now), bid_words(lot), urgent))
    return tuple(found)


def closing_lines(
    lots: Sequence[LotGlance], purse: str, width: int, rows: int, marks: Marks
) -> list[Line]:
    """The desk's column of lots in at most so many lines, the budget at its end."""
    out = [line(("closes next", "head")), EMPTY]
    foot = [EMPTY, *fold(purse, width, role="quiet")] if purse else []
    if not lots:
        return [*out, *fold("No marked lots. o: add one.", width), *foot]
    room = rows - len(out) - len(foot)
    for place, one in enumerate(lots):
        block = _block(one, width, marks)
        rest = len(lots) - place
        if len(block) > room - (1 if rest > 1 else 0) and place:
            out.append(line((f"  and {rest} more: ", "quiet"), ("o", "key")))
            break
        out += block
        room -= len(block)
    while out and out[-1] == EMPTY:
        out.pop()
    return [cut(row, width) for row in (*out, *foot)]


def _block(one: LotGlance, width: int, marks: Marks) -> list[Line]:
    sign = WARN if one.urgent else " "
    first, *more = fold_to(one.title, max(1, width - 2), 2, marks)
    role = "warn" if one.urgent else "quiet"
    out = [line((sign, "warn"), " ", (first, "strong" if one.urgent else ""))]
    out += [line("  ", (text, "strong" if one.urgent else "")) for text in more]
    out += [line("  ", (text, role)) for text in fold_to(one.stands, max(1, width - 2), 2, marks)]
    out += [line("  ", (text, "quiet")) for text in fold_to(one.bid, max(1, width - 2), 1, marks)]
    return [*out, EMPTY]
