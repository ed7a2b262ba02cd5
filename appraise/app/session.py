"""What all screens share: the open log, the knowledge, the learnt prices. No widgets here."""

from __future__ import annotations

import os
import threading
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import TYPE_CHECKING

from appraise.app.marks import Marks, marks_for
from appraise.base.places import Home
from appraise.base.settings import Settings
from appraise.log.entries import Entry
from appraise.log.store import Log, open_log

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.piece.records import Piece
    from appraise.pricing.estimate import Prices
    from appraise.verdict import Verdict

STALLS = ("market", "fair", "shop")
"""Channels where the seller looks on, so that money stays hidden until asked for."""


@dataclass(frozen=True, slots=True)
class Learnt:
    """The log as the price model knows it.

    Attributes:
        changes: How many changes of this session it has seen.
        prices: The learnt log.
        titles: What the entries are called, by id.
    """

    changes: int
    prices: Prices
    titles: Mapping[str, str]


class Session:
    """One run of the app on one home.

    Attributes:
        as_of: The day for which prices are stated and entries are made.
        settings: The user's, under the currency chosen in the log if one was.
        demo: Whether the home is a throw-away copy of the invented demo.
        knowledge: The trade's knowledge, once it has been read.
        learnt: The learnt prices, which may be behind the log.
        changes: Changes made to the log since the start.
        learning: The changes up to which prices were last asked to be learnt; -1: never.
        bench: Held by the one worker that computes.
    """

    def __init__(
        self,
        home: Home,
        settings: Settings,
        as_of: date,
        clock: Callable[[], datetime],
        machine: str,
        demo: bool = False,
    ) -> None:
        self.home = home
        self.as_of = as_of
        self.clock = clock
        self.demo = demo
        self.knowledge: Knowledge | None = None
        self.learnt: Learnt | None = None
        self.changes = 0
        self.learning = -1
        self.bench = threading.Lock()
        self.log: Log = open_log(home.log, clock, machine)
        chosen = self.log.base_currency if self.log.currency_chosen else settings.currency
        self.settings = replace(settings, currency=chosen)

    def close(self) -> None:
        """Let go of the log."""
        self.log.close()

    @property
    def marks(self) -> Marks:
        """The signs to draw with."""
        return marks_for(self.settings.ascii)

    def choose_currency(self, code: str) -> None:
        """Keep all prices in another currency from now on.

        Raises:
            InputError: when the code is not known.
        """
        self.log.set_base_currency(code)
        self.settings = replace(self.settings, currency=code)
        self.changes += 1

    @property
    def prices(self) -> Prices | None:
        """The learnt prices, or None while there are none."""
        return self.learnt.prices if self.learnt else None

    def title_of(self, entry: str) -> str:
        """What an entry of the log is called."""
        return self.learnt.titles.get(entry, "") if self.learnt else ""

    def new_draft(self) -> str:
        """A name for a draft that no other draft bears."""
        return f"piece {self.log.now()}"

    def keep(self, draft: str, piece: Piece) -> None:
        """Keep a piece under examination as it stands; it is on the disk when this returns.

        Raises:
            StoreError: when the log cannot be written.
        """
        from appraise.piece.write import write_piece  # 10 ms, first time

        self.log.save_draft(draft, write_piece(piece))

    def settle(self, entry: Entry, draft: str) -> Entry:
        """Log a piece and drop its draft, both or neither."""
        with self.log.transaction():
            kept = self.log.add(entry)
            self.log.drop_draft(draft)
        self.changes += 1
        return kept

    def judge(self, piece: Piece) -> Verdict:
        """The verdict on a piece; 15 to 90 ms, so workers call it."""
        from appraise.verdict import judge  # 15 ms, first time

        assert self.knowledge is not None
        return judge(piece, self.knowledge, self.prices, self.as_of, self.settings)

    def learn(self, entries: Sequence[Entry], changes: int) -> Learnt:
        """Learn prices; up to seconds for a long log, so workers call it."""
        # One thread is quicker than several at matrices of this size, and leaves room for keys.
        os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
        from appraise.log.priced import priced_rows
        from appraise.pricing.estimate import learn  # 60 ms with numpy, first time

        assert self.knowledge is not None
        rows = priced_rows(entries, self.knowledge, self.settings.currency, self.as_of)
        titles = {one.id: one.title or one.motif for one in entries}
        return Learnt(changes, learn(rows), titles)
