"""What the desk says of pieces under examination, of lots, and of what one owns.

What understands these is imported only where there are some.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING

from appraise.app.session import Session
from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.records.stored import Stored
from appraise.store.drafts import Draft
from appraise.store.log import Log

if TYPE_CHECKING:
    from appraise.documents.lots import Now
    from appraise.records.lot import Lot

BEGINS = 60  # signs of a text that stand for its title
MET = "market"  # where a piece is met whose file does not say


@dataclass(frozen=True, slots=True)
class Glance:
    """A draft as the desk shows it.

    Attributes:
        title: Its title, or what stands for it.
        answers: How many checks were answered.
        day: When it was last touched.
        channel: Where it is met; empty where that cannot be read.
        unread: Whether it is a listing whose text has still to be read.
    """

    title: str
    answers: int
    day: date
    channel: str = ""
    unread: bool = False


def glance(draft: Draft) -> Glance:
    """The title of a draft and how far it has come; one that cannot be read says so."""
    from appraise.base.yamls import compose  # 20 ms, and only where there is a draft

    day = date.fromisoformat(draft.time[:10])
    try:
        top = compose(draft.text, "the draft")
        title = top.text("title", "") or "untitled piece"
        if "listing" in top:
            bare = not top.text("title", "")
            title = f"listing: {_begins(top.text('listing')) if bare else title}"
        unread = "read-from" in top
        answers = len(list(top.row("findings"))) if "findings" in top else 0
    except InputError:
        return Glance("a piece that cannot be read", 0, day)
    return Glance(title, answers, day, top.text("channel", MET), unread)


def _begins(text: str) -> str:
    """How a text begins, as its title until it has been read."""
    first = text.strip().split("\n", 1)[0]
    return first if len(first) <= BEGINS else f"{first[:BEGINS].rsplit(' ', 1)[0]} ..."


def wanting(session: Session) -> str:
    """How many kept pieces want something now, in one line; empty where none does."""
    from appraise.store.records import held, keeps

    if session.knowledge is None or not keeps(session.log, "kept"):
        return ""
    from appraise.collection.upkeep import due  # 10 ms with the reader of records
    from appraise.records.owned import OwnedPiece

    known = [one.thing for one in held(session.log, OwnedPiece)]
    many = sum(
        any(one.now for one in due(kept, session.knowledge, session.as_of)) for kept in known
    )
    if not many:
        return ""
    return (
        "1 of your pieces needs attention: press h, then d."
        if many == 1
        else f"{many} of your pieces need attention: press h, then d."
    )


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
    """The lots of a log, and what is left of its budget; nothing where it has none."""
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
