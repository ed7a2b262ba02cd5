"""A price logged in one line, shown as it was understood before it is kept."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual.widgets import Input

from appraise.app.fieldwords import AGAIN
from appraise.app.lines import EMPTY, Line, fold
from appraise.app.oneline import OneLine
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
        self._asked = ""

    def told_after(self, read: QuickEntry, width: int) -> Sequence[Line]:
        return [EMPTY, *fold(_kept_as(read.entry), max(1, width - 2), " ")]

    def read_line(self, text: str, knowledge: Knowledge) -> QuickEntry:
        from appraise.listing.quick import understand_entry  # 30 ms, first time

        settings, today = self.session.settings, self.session.as_of
        return understand_entry(text, knowledge, settings.currency, today, settings.region)

    def action_take(self) -> None:
        if self.read is None:
            self.say("Nothing typed yet. esc: back.")
            return
        entry, kept = self.read.entry, list[Entry]()
        if entry.price is None and entry.record not in ("gift", "swap"):
            self.say("No amount: write one, e.g. 45.")
        elif self._doubted(entry):
            return
        elif self.attempt(lambda: kept.append(self.session.log.add(entry))):
            self.session.changes += 1
            self.dismiss(kept[0])

    def _doubted(self, entry: Entry) -> bool:
        """Whether the price is asked about now; a line that is taken again stands."""
        from appraise.pricing.slips import slip, usual_price

        session, knowledge = self.session, self.session.knowledge
        line = self.query_one(Input).value
        if knowledge is None or line == self._asked:
            return False
        code, on, book = session.settings.currency, session.as_of, session.book
        worth = usual_price(entry, session.prices, knowledge, code, on, book)
        doubt = slip(entry, worth, code, knowledge.ratios.far, book)
        if doubt:
            self._asked = line
            self.say(f"{doubt}. {AGAIN}", "warn")
        return bool(doubt)


def _kept_as(entry: Entry) -> str:
    """What will be kept, in one sentence."""
    price = f" {entry.price}" if entry.price else ""
    where = entry.venue or entry.channel
    told = f"To be saved as {entry.record}{price} on {day_in_words(entry.date.isoformat())}"
    return f"{told}{f', {where}' if where else ''}."
