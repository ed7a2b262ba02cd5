"""A price logged in one line, shown as it was understood before it is kept."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual.widgets import Input

from appraise.app.form import Doubts
from appraise.app.lines import EMPTY, Line, fold
from appraise.app.oneline import OneLine
from appraise.base.errors import InputError
from appraise.base.logday import day_in_words
from appraise.knowledge.records import Knowledge
from appraise.records.entry import Entry

if TYPE_CHECKING:
    from appraise.listing.quick import QuickEntry


class QuickLine(OneLine[Entry, "QuickEntry"]):
    """One line in, an entry out."""

    AREA = "line"
    heading = "Log a price"
    EXAMPLES = (
        "sixth ambrotype thermoplastic vine 38 + 6 post, quay market, yesterday",
        "ninth dag leather, asked 65 offered 45 pass, 12 May",
        "sold quarter tintype 55, online, last saturday",
    )
    GUIDE = (
        "Write what it was, what happened, the amounts, where and when, in any order. Default: "
        "bought today."
    )

    def __init__(self) -> None:
        super().__init__()
        self._doubts = Doubts()

    def told_after(self, read: QuickEntry, width: int) -> Sequence[Line]:
        return [EMPTY, *fold(_kept_as(read.entry), max(1, width - 2), " ")]

    def read_line(self, text: str, knowledge: Knowledge) -> QuickEntry:
        from appraise.listing.quick import understand_entry  # 30 ms, first time

        settings, today = self.session.settings, self.session.as_of
        return understand_entry(text, knowledge, settings.currency, today, settings.region)

    def keep(self, read: QuickEntry) -> Entry:
        entry = read.entry
        if entry.price is None and entry.record not in ("gift", "swap"):
            raise InputError("No amount: write one, e.g. 45.")
        self._doubts.once(self._doubt(entry), self.query_one(Input).value, "")
        return self.session.log.add(entry)

    def _doubt(self, entry: Entry) -> str:
        """What is odd about its price; '' where nothing is."""
        from appraise.pricing.slips import slip, usual_price

        session, knowledge = self.session, self.session.trade()
        code, on, book = session.settings.currency, session.as_of, session.book
        worth = usual_price(entry, session.prices, knowledge, code, on, book)
        return slip(entry, worth, code, knowledge.ratios.far, book)


def _kept_as(entry: Entry) -> str:
    """What will be kept, in one sentence."""
    price = f" {entry.price}" if entry.price else ""
    where = entry.venue or entry.channel
    told = f"To be saved as {entry.record}{price} on {day_in_words(entry.date.isoformat())}"
    return f"{told}{f', {where}' if where else ''}."
