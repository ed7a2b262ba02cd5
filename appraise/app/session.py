"""What all screens share: the open log, the knowledge, the learnt prices. No widgets here."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import AbstractContextManager, contextmanager, nullcontext
from dataclasses import replace
from datetime import date, datetime
from functools import cached_property
from typing import TYPE_CHECKING

from appraise.app.marks import Marks, marks_for
from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.moments import local, on_day
from appraise.base.places import Home
from appraise.base.settings import Settings
from appraise.records.values import Author
from appraise.store.log import Log, open_log
from appraise.store.machines import Machine
from appraise.store.read_entries import ReadEntries, entries_after

if TYPE_CHECKING:
    from appraise.collection.wanting import Owned
    from appraise.commands.learnt import LogState
    from appraise.documents.track import Track
    from appraise.knowledge.records import Knowledge
    from appraise.pricing.estimate import Prices
    from appraise.records.piece import Piece
    from appraise.records.venuebook import VenueBook
    from appraise.records.want import Want
    from appraise.verdict import Verdict

PATIENCE = 3.0  # seconds for a file that is being written when the app is left
READING = "The knowledge is being read ..."
STALLS = ("market", "fair", "shop")
"""Channels where the seller looks on, so that money stays hidden until asked for."""


@dataclass(frozen=True, slots=True)
class Learnt:
    """The log as the price model knows it.

    Attributes:
        changes: How many changes of this session it has seen.
        prices: The learnt log.
        titles: What the entries are called, by id.
        odd: Entries whose price fits nothing else in the log, with what the others say, by id.
        owned: What the user owns by it, for twins.
    """

    changes: int
    prices: Prices
    titles: Mapping[str, str]
    odd: Mapping[str, str]
    owned: Sequence[Owned] = ()


class Session:
    """One run of the app on one home.

    Attributes:
        settings: The user's, under the currency chosen in the log if one was.
        demo: Whether the home is a throw-away copy of the invented demo.
        knowledge: The trade's knowledge, once it has been read.
        learnt: The learnt prices, which may be behind the log.
        changes: Changes made to the log since the start.
        learning: The changes up to which prices were last asked to be learnt; -1: never.
        bench: Held by the one worker that computes.
        learns: Held by the one worker that learns prices.
        wants: What one looks out for, as it was last read: ids and wishes.
        shows: Whether amounts are shown, by the user's word; None before one was given.
    """

    def __init__(
        self,
        home: Home,
        settings: Settings,
        as_of: date,
        clock: Callable[[], datetime],
        machine: str | Machine,
        demo: bool = False,
    ) -> None:
        self.home = home
        self.clock = clock
        self.demo = demo
        self.knowledge: Knowledge | None = None
        self.learnt: Learnt | None = None
        self.changes = 0
        self.learning = -1
        self.bench = threading.Lock()
        self.wants: tuple[tuple[str, Want], ...] = ()
        self.shows: bool | None = None
        self.learns = threading.Lock()
        self._known: tuple[LogState, Prices] | None = None
        self._entries = ReadEntries()
        self._job: threading.Event | None = None
        self._saving: list[threading.Event] = []
        self._stalls: set[str] = set()
        self._less: tuple[object, Prices | None] = (None, None)
        self._twins: tuple[object, tuple[Owned, ...]] = (None, ())
        begun = clock()
        self._shift = on_day(begun, as_of) - begun
        self.log: Log = open_log(home.log, self.moment if demo else clock, machine)
        self._seen = self.log.seen_version()
        chosen = self.log.base_currency if self.log.currency_chosen else settings.currency
        self.settings = replace(settings, currency=chosen)

    @cached_property
    def book(self) -> VenueBook:
        """The user's venues and rates as they were last read; none before."""
        from appraise.records.venuebook import VenueBook  # 12 ms

        return VenueBook()

    def begin_job(self) -> threading.Event:
        """A long job begins; the event is set where it is to end at its next step."""
        self._job = threading.Event()
        return self._job

    def end_job(self) -> None:
        self._job = None

    def cancel_job(self) -> bool:
        """Have the long job end; False where none is running."""
        if self._job is None or self._job.is_set():
            return False
        self._job.set()
        return True

    @contextmanager
    def saving(self) -> Iterator[None]:
        """While a job writes a file; leaving the app waits for its end, though not for long."""
        done = threading.Event()
        self._saving.append(done)
        try:
            yield
        finally:
            done.set()
            self._saving.remove(done)

    def close(self) -> None:
        """Let go of the log; a long job ends at its next step, and what is being written is."""
        self.cancel_job()
        for one in tuple(self._saving):
            one.wait(PATIENCE)
        self.log.close()

    def changed_outside(self) -> bool:
        """Whether another program wrote to the log since this was asked last; it is then counted.

        SQLite counts for each connection what others commit; asking takes a few microseconds.
        """
        seen = self.log.seen_version()
        changed, self._seen = seen != self._seen, seen
        self.changes += changed
        return changed

    def moment(self) -> datetime:
        """The time now, moved by whole days where the app was begun for another day."""
        return self.clock() + self._shift

    @property
    def as_of(self) -> date:
        """Today: the day for which prices are stated and entries are made.

        The clock is asked each time, so that an app that is left open overnight is not a day late.
        """
        return local(self.moment(), None).date()

    @property
    def discreet(self) -> bool:
        """Whether amounts are hidden: by the user's word, else once a piece was met at a stall.

        They stay hidden when the piece has left the table, since the seller still looks on.
        """
        return bool(self._stalls) if self.shows is None else not self.shows

    def meet(self, draft: str, channel: str) -> None:
        """A piece under examination is met there, or by a better word was met there.

        Each one met at a stall begins with amounts hidden, whatever was shown of the one before.
        """
        if channel in STALLS:
            if draft not in self._stalls:
                self.shows = None
            self._stalls.add(draft)
        else:
            self._stalls.discard(draft)

    def leave(self, draft: str) -> None:
        """A piece was logged: where it was met at a stall, the seller looks at the desk as well."""
        if draft in self._stalls:
            self.shows = None

    @property
    def marks(self) -> Marks:
        return marks_for(self.settings.ascii)

    @property
    def prices(self) -> Prices | None:
        return self.learnt.prices if self.learnt else None

    def odd(self, entry: str) -> str:
        """Why the price of an entry should be checked; empty where it fits the log."""
        return self.learnt.odd.get(entry, "") if self.learnt else ""

    def read_book(self) -> None:
        """Read venues, rates and currency anew; only the thread that opened the log may."""
        from appraise.store.venue_book import read_book

        self.book = read_book(self.log)
        if self.log.currency_chosen:
            self.settings = replace(self.settings, currency=self.log.base_currency)

    def read_wants(self) -> None:
        """Read what one looks out for anew; only the thread that opened the log may."""
        from appraise.records.want import Want  # 3 ms
        from appraise.store.records import held

        self.wants = tuple((one.id, one.thing) for one in held(self.log, Want))

    def aside(self, verdict: Verdict, own: frozenset[str] = frozenset()) -> str:
        """That a piece is on the list, or has a twin: one line, or ''. For the worker that judges.

        It names no price, since a seller may look on.
        Where nothing is looked out for and nothing owned there is nothing to compare.
        """
        owned = self.learnt.owned if self.learnt else ()
        if self.knowledge is None or not (self.wants or owned):
            return ""
        from appraise.collection.wanting import key_of, matching, sight_of, twins  # 5 ms

        sight = sight_of(verdict.reading)
        wanted = [one.title for one in matching(self.wants, sight, self.knowledge)]
        asked = (owned, key_of(sight, self.knowledge), sight.motif)
        if self._twins[0] != asked:  # they change with few answers
            self._twins = asked, twins(owned, sight, self.knowledge)
        mine = [one.title for one in self._twins[1] if one.id not in own]
        told = (("on your list", wanted), ("you already own a similar one", mine))
        return "; ".join(f"{says}: {_first(titles)}" for says, titles in told if titles)

    def author(self, knows: bool = True) -> Author:
        """Who types into the fields of a record, on this machine and today."""
        code, sells = self.settings.currency, self.book.sells
        return Author(code, self.as_of, self.knowledge, sells=sells)

    # As a workspace of use cases

    @property
    def currency(self) -> str:
        return self.settings.currency

    def opened(self) -> AbstractContextManager[Log]:
        return nullcontext(self.log)

    def trade(self) -> Knowledge:
        """What the trade knows, once it has been read."""
        if self.knowledge is None:
            raise InputError(READING)
        return self.knowledge

    def new_draft(self) -> str:
        return f"piece {self.log.now()}"

    def keep(self, draft: str, piece: Piece) -> None:
        """Keep a piece under examination as it stands; it is on the disk when this returns.

        Raises:
            StoreError: when the log cannot be written.
        """
        from appraise.records.piece_file import write_piece  # 10 ms, first time

        self.log.save_draft(draft, write_piece(piece))

    def judge(self, piece: Piece, own: frozenset[str] = frozenset()) -> Verdict:
        """The verdict on a piece; 15 to 90 ms, so workers call it.

        Args:
            piece: The piece.
            own: Ids of its own entries in the log, by which it is not judged.
        """
        from appraise.records.venuebook import sale_of
        from appraise.verdict import judge  # 15 ms, first time

        assert self.knowledge is not None
        currency = self.settings.currency
        terms, why = self.book.terms_or_why(sale_of(piece), currency, self.as_of)
        return judge(
            piece, self.knowledge, self._others(own), self.as_of, self.settings, terms, no_terms=why
        )

    def _others(self, own: frozenset[str]) -> Prices | None:
        """The learnt prices over entries other than some; the last such log is kept."""
        learnt = self.learnt
        if learnt is None or not own:
            return self.prices
        at, prices = self._less
        if at != (learnt.changes, own) or prices is None:
            prices = learnt.prices.without(own)
            self._less = (learnt.changes, own), prices
        return prices

    def opened_anew(self) -> Log:
        """The log over a connection of its own, for a thread."""
        return open_log(self.log.path, self.log.clock, self.log.machine)

    def learn(self, changes: int) -> Learnt:
        """Learn prices; up to seconds for a long log, so workers call it, one at a time.

        What did not change since it was learnt last is not read again.
        """
        from appraise.collection.wanting import owned
        from appraise.commands.learnt import PriceSource

        assert self.knowledge is not None
        currency = self.settings.currency
        with self.opened_anew() as log, log.snapshot():
            source = PriceSource(self.home, log, self.knowledge, currency, self.as_of)
            self._known = source.after(self._known)
            self._entries = entries_after(log, self._entries)
        prices, entries = self._known[1], self._entries.by_id
        titles = {one.id: one.title or one.motif for one in entries.values()}
        odd = {one.id: one.says(currency) for one in prices.doubtful()}
        mine = owned(entries.values(), self.knowledge)
        return Learnt(changes, prices, titles, odd, mine)

    def track(self, again: bool, step: Callable[[int, int], None]) -> Track:
        """The track record; workers call it. `again`: every price estimated anew."""
        from appraise.documents.track import track_of  # 5 ms

        with self.opened_anew() as log:
            entries = log.entries()
        currency, forecasts = self.settings.currency, None
        if again and self.knowledge is not None:
            from appraise.pricing.price_rows import priced_rows
            from appraise.pricing.replay import replay

            rows = priced_rows(entries, self.knowledge, currency, self.as_of, self.book)
            forecasts = replay(rows, step=step)
        return track_of(entries, currency, self.book, forecasts)


def _first(titles: Sequence[str]) -> str:
    """The first title, and how many there are beside it."""
    return titles[0] if len(titles) == 1 else f"{titles[0]} and {len(titles) - 1} more"
