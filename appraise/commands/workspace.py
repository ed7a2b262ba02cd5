"""What a use case works with: the log, the knowledge, the user's prices, and the clock.

`Workspace` is what use cases ask for; `AtHome` is one on a home directory that opens the log for
each act, as a command does. The app's session is another, which holds it open.
"""

from __future__ import annotations

from collections.abc import Callable, Collection
from contextlib import AbstractContextManager
from dataclasses import field, replace
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError, StoreError
from appraise.base.places import Home
from appraise.base.settings import Settings, load_settings

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.pricing.estimate import Prices
    from appraise.records.piece import Piece
    from appraise.records.values import Author
    from appraise.records.venue import Venue
    from appraise.records.venuebook import SalePlace, VenueBook
    from appraise.store.log import Log
    from appraise.verdict import Verdict


class Workspace(Protocol):
    """The surroundings of a use case."""

    @property
    def as_of(self) -> date:
        """Today: the day for which prices are stated and records are begun."""

    @property
    def currency(self) -> str:
        """ISO 4217 code of the user's own currency."""

    def moment(self) -> datetime:
        """The time now, in UTC."""

    def opened(self) -> AbstractContextManager[Log]:
        """The open log."""

    def trade(self) -> Knowledge:
        """What the trade knows."""

    def author(self, knows: bool = False) -> Author:
        """Who types into the fields of a record; `knows`: by the words of the trade."""


@dataclass(frozen=True, slots=True)
class AtHome:
    """A workspace on a home directory; the log is opened for each act.

    Attributes:
        as_of: The day for which prices and ages are stated.
        zone: The time zone of hours that name none; empty: this machine's.
        say: Takes a line of talk.
    """

    home: Home
    as_of: date
    zone: str = ""
    say: Callable[[str], None] = print
    _read: list[Knowledge] = field(default_factory=list, compare=False, repr=False)

    def settings(self) -> Settings:
        """The user's settings, under the currency that was chosen in the log if one was."""
        settings = load_settings(self.home.settings)
        return replace(settings, currency=self._chosen_currency() or settings.currency)

    def _chosen_currency(self) -> str:
        """The log's currency; empty where none was chosen, or the log cannot be read."""
        if not self.home.log.exists():
            return ""
        try:
            with open_at(self.home.log) as log:
                return log.base_currency if log.currency_chosen else ""
        except StoreError:
            return ""

    @property
    def currency(self) -> str:
        """The user's own currency."""
        return self.settings().currency

    def moment(self) -> datetime:
        """The time now, moved by whole days where it is asked as of another day."""
        from appraise.base.moments import on_day

        return on_day(now(), self.as_of)

    def knowledge(self) -> Knowledge:
        """The shipped knowledge with the user's overlay; what is wrong with that is said, once."""
        if not self._read:
            from appraise.knowledge.ready import ready

            self._read.append(ready(self.home.known, self.home.knowledge))
            for line in self._read[0].faults:
                self.say(line)
        return self._read[0]

    trade = knowledge

    def log(self) -> Log:
        """The user's log, made when there is none, and backed up once a day.

        A backup that cannot be made is told and does not stand in the way; damage does.
        """
        log = open_at(self.home.log)
        from appraise.store.backup import daily
        from appraise.store.faults import DamagedLogError

        try:
            daily(log.path, log.now())
        except DamagedLogError:
            log.close()
            raise
        except StoreError as error:
            self.say(f"no backup today: {error}")
        return log

    opened = log

    def prices(
        self,
        knowledge: Knowledge,
        currency: str,
        log: Path | None = None,
        without: Collection[str] = (),
    ) -> Prices | None:
        """The learnt log, less the entries of the piece at hand; None where there is no log.

        Nothing is made.
        """
        path = log or self.home.log
        if not path.exists():
            if log is not None:
                raise InputError("there is no log", str(log))
            return None
        from appraise.commands.learnt import PriceSource

        with open_at(path) as store:
            source = PriceSource(self.home, store, knowledge, currency, self.as_of)
            if path == self.home.log and not without:
                return source.learnt()
            return source.without(without)

    def judge(
        self, knowledge: Knowledge, log: Path | None = None, without: Collection[str] = ()
    ) -> Callable[[Piece], Verdict]:
        """What judges a piece, by the user's prices and by the terms where it is sold; as `prices`.

        Prices and terms are read once.
        """
        from appraise.records.venuebook import sale_of
        from appraise.verdict import judge

        settings, book = self.settings(), self.book()
        prices = self.prices(knowledge, settings.currency, log, without)

        def judged(piece: Piece) -> Verdict:
            terms, why = book.terms_or_why(sale_of(piece), settings.currency, self.as_of)
            return judge(piece, knowledge, prices, self.as_of, settings, terms, no_terms=why)

        return judged

    def own(self, piece: Piece, log: Path | None = None) -> frozenset[str]:
        """The ids of the log's entries of this very piece, by its file; nothing is made."""
        from appraise.store.piece_record import own_of

        path = log or self.home.log
        if not (piece.findings and path.exists()):
            return frozenset()
        with open_at(path) as store:
            return own_of(store, piece)

    def author(self, knows: bool = False) -> Author:
        """Who types into the fields of a record."""
        from appraise.base.moments import zone_named
        from appraise.records.values import Author

        knowledge = self.knowledge() if knows else None
        code, sells = self.currency, self.book().sells
        return Author(code, self.as_of, knowledge, zone_named(self.zone), self.zone, sells)

    def book(self) -> VenueBook:
        """The user's venues and rates; an empty book where there is no log."""
        from appraise.records.venuebook import VenueBook
        from appraise.store.venue_book import read_book

        if not self.home.log.exists():
            return VenueBook()
        with open_at(self.home.log) as log:
            return read_book(log)

    def terms_for(self, sale: SalePlace, currency: str, venue: str = "") -> Venue:
        """The terms of a sale, at a named venue or where it takes place; base currency `currency`.

        Raises:
            InputError: when a venue is named that is not in the book, or a rate is missing.
        """
        book = self.book()
        if venue:
            terms = book.terms_at(book.named(venue), currency, self.as_of)
            return book.sent(terms, sale.shipping, self.as_of)
        return book.venue_for(sale, currency, self.as_of)


def day(text: str | None) -> date:
    """A day as YYYY-MM-DD; today when none is given."""
    if not text:
        return date.today()
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise InputError(f"'{text}' is not a day", "--as-of", "Write 2026-11-25.") from None


def now() -> datetime:
    """The time now, in UTC."""
    return datetime.now(UTC)


def open_at(path: Path) -> Log:
    """The log at a path, made when there is none; beside a file of another sort nothing is made."""
    from appraise.store.log import open_log  # 15 ms with sqlite3
    from appraise.store.machines import Machine, machine_at

    def signs() -> Machine:
        return machine_at(path.parent)

    new = not path.exists()
    return open_log(path, now, signs() if new else signs)  # a new one: by what lay there before
