"""The learnt log kept beside it, so that a long log is learnt once for each of its states.

A state is the log's last revision, the currency, the day, venues and rates, and the files by which
prices are learnt. After a change the entries concerned are read anew, and the prices learnt from
all; what comes of it is the same as if all had been read. The file is made anew whenever it is
missing.
"""

from __future__ import annotations

import os
import zlib
from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from contextlib import suppress
from mmap import ACCESS_READ, mmap
from pathlib import Path
from typing import TYPE_CHECKING

from appraise.base.collecting import without_collecting
from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.files import write_new
from appraise.base.places import Home, shipped_data
from appraise.store.revisions import CHANGED, changed_since, last

if TYPE_CHECKING:
    from datetime import date

    from appraise.knowledge.records import Knowledge
    from appraise.pricing.estimate import Prices
    from appraise.pricing.features import PricedRow
    from appraise.store.log import Log

LEAST = 20
"""Entries from which a learnt log is kept; below, to learn it takes a few milliseconds."""
_LONGEST = 1_000  # bytes of the line that tells the state
LEARNS = ("pricing", "knowledge", "records", "base")
"""Rooms of the program by which prices are learnt."""


@dataclass(frozen=True, slots=True)
class LogState:
    """What the learnt prices follow from.

    Attributes:
        newest: Id of the revision written last; empty in a log that holds none.
        number: Its number in this log.
        basis: Everything else: currency, day, files, venues and rates.
    """

    newest: str
    number: int
    basis: str

    @property
    def text(self) -> str:
        """One line, another one for each other state."""
        return f"{self.newest} {self.number} {self.basis}"

    @classmethod
    def of(cls, text: str) -> LogState | None:
        """What `text` wrote; None where it is anything else."""
        newest, _, rest = text.partition(" ")
        number, _, basis = rest.partition(" ")
        return cls(newest, int(number), basis) if number.isdecimal() else None


@dataclass(frozen=True, slots=True)
class PriceSource:
    """What the learnt log is made of: a home, its open log, and how its prices are read."""

    home: Home
    log: Log
    knowledge: Knowledge
    currency: str
    as_of: date

    def learnt(self) -> Prices:
        """The learnt log: as it was kept, or learnt now and kept if that can be."""
        from appraise.pricing.estimate import learn  # 60 ms with numpy
        from appraise.pricing.packed import pack, unpack, unpack_rows

        with self.log.snapshot(), without_collecting():
            state, (was, data) = self._state(), self._kept()
            if was == state:
                with suppress(InputError):
                    return unpack(data)
            prices = learn(self._rows(state, was, lambda: unpack_rows(data)))
        if len(prices.rows) >= LEAST:
            with suppress(InputError, OSError):
                parts = (state.text.encode(), b"\n", pack(prices))
                write_new(self.home.learnt, parts, over=True, durable=False)
        return prices

    def after(self, known: tuple[LogState, Prices] | None) -> tuple[LogState, Prices]:
        """The learnt log with its state; nothing is kept where it was learnt before."""
        from appraise.pricing.estimate import learn

        with self.log.snapshot(), without_collecting():
            state = self._state()
            if known is None:
                return state, self.learnt()
            if known[0] == state:
                return known
            return state, learn(self._rows(state, known[0], lambda: known[1].rows))

    def without(self, ids: Collection[str]) -> Prices:
        """The log learnt without some entries: those of the piece at hand."""
        from appraise.pricing.estimate import learn
        from appraise.pricing.packed import unpack_rows

        with self.log.snapshot(), without_collecting():
            was, data = self._kept()
            rows = self._rows(self._state(), was, lambda: unpack_rows(data))
            return learn([row for row in rows if row.id not in ids])

    def _state(self) -> LogState:
        return state_of(self.home, self.log, self.currency, self.as_of)

    def _kept(self) -> tuple[LogState | None, memoryview]:
        """What was kept last, and the state that it is of; None where nothing was.

        It is mapped, so that of rows and model only what is wanted is fetched.
        """
        with suppress(OSError, ValueError), self.home.learnt.open("rb") as file:
            told = file.readline(_LONGEST).rstrip(b"\n").decode()
            data = memoryview(mmap(file.fileno(), 0, access=ACCESS_READ))
            return LogState.of(told), data[file.tell() :]
        return None, memoryview(b"")

    def _rows(
        self, state: LogState, was: LogState | None, kept: Callable[[], Sequence[PricedRow]]
    ) -> Sequence[PricedRow]:
        """The rows of the log; where only entries changed since some were kept, only these anew."""
        if was is None or was.basis != state.basis:
            return self._read(_ALL, ())
        changed = changed_since(self.log.connection, was.number, was.newest)
        known: Sequence[PricedRow] | None = None
        with suppress(InputError):
            known = kept()
        if changed is None or known is None:
            return self._read(_ALL, ())
        rest = [row for row in known if row.id not in changed]
        return in_order([*rest, *self._read(_SINCE, (was.number,))])

    def _read(self, sql: str, values: tuple[int, ...]) -> Sequence[PricedRow]:
        from appraise.pricing.price_texts import priced_texts
        from appraise.store.current_state import price
        from appraise.store.venue_book import read_book

        book, texts = read_book(self.log), self.log.connection.execute(sql, values)
        rows = priced_texts(texts, price, self.knowledge, self.currency, self.as_of, book)
        return in_order(rows)


_ALL = "SELECT body, shelf.entry FROM shelf JOIN revision USING (number)"
_SINCE = f"{_ALL} WHERE shelf.entry IN ({CHANGED})"


def state_of(home: Home, log: Log, currency: str, as_of: date) -> LogState:
    """The state of a log now."""
    from appraise.store.venue_book import read_book

    with log.snapshot():
        number, newest = last(log.connection)
        book = zlib.crc32(repr(read_book(log)).encode())
    return LogState(newest, number, f"{currency} {as_of} {files_state(home)} {book:08x}")


def in_order(rows: Iterable[PricedRow]) -> list[PricedRow]:
    """Rows newest first and then by their ids, however they were come by."""
    return sorted(rows, key=lambda row: (row.age is None, row.age or 0.0, row.id))


def files_state(home: Home) -> str:
    """Sizes and times of all files by which prices are learnt, as one number."""
    program = Path(__file__).parent.parent
    places = (*(program / room for room in LEARNS), shipped_data(), home.knowledge)
    found = [sorted(_stamps(str(place))) for place in places]
    return f"{zlib.crc32(repr(found).encode()):08x}"


def _stamps(place: str) -> Iterator[tuple[str, int, int]]:
    """Path, size and time of each file of program or knowledge in a directory and below it."""
    for directory, _, names in os.walk(place):  # pathlib takes three times as long
        for name in names:
            if name.endswith((".py", ".yaml")):
                path = os.path.join(directory, name)
                with suppress(OSError):  # it went meanwhile
                    told = os.stat(path)
                    yield path, told.st_size, told.st_mtime_ns
