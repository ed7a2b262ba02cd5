"""What every command needs: home, day and settings, and knowledge and log when asked for."""

from __future__ import annotations

import argparse
import json
import platform
import sys
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from appraise.base.errors import InputError, StoreError
from appraise.base.places import Home, home
from appraise.base.settings import Settings, load_settings

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.log.store import Log
    from appraise.pricing.estimate import Prices
    from appraise.records.values import Author
    from appraise.records.venue import Venue
    from appraise.records.venuebook import SalePlace, VenueBook


@dataclass(frozen=True, slots=True)
class Context:
    """The surroundings of one command.

    Attributes:
        home: The user's data directory.
        as_of: The day for which prices and ages are stated.
        json: Print one JSON object and nothing else.
    """

    home: Home
    as_of: date
    json: bool
    _read: list[Knowledge] = field(default_factory=list, compare=False, repr=False)

    @classmethod
    def of(cls, args: argparse.Namespace) -> Context:
        """From the parsed options."""
        return cls(home(args.home), day(getattr(args, "as_of", None)), getattr(args, "json", False))

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

    def knowledge(self) -> Knowledge:
        """The shipped knowledge with the user's overlay; what is wrong with that is said, once."""
        if not self._read:
            from appraise.knowledge.ready import ready

            self._read.append(ready(self.home.known, self.home.knowledge))
            if self._read[0].problems:
                from appraise.report.own_rows import faults

                for line in faults(self._read[0]):
                    print(f"  {line}", file=sys.stderr)
        return self._read[0]

    def log(self) -> Log:
        """The user's log, made when there is none, and backed up once a day.

        A backup that cannot be made is told and does not stand in the way; damage does.
        """
        log = open_at(self.home.log)
        from appraise.log.backup import daily
        from appraise.log.faults import DamagedLogError

        try:
            daily(log.path, log.now())
        except DamagedLogError:
            log.close()
            raise
        except StoreError as error:
            print(f"  no backup today: {error}", file=sys.stderr)
        return log

    def prices(
        self, knowledge: Knowledge, currency: str, log: Path | None = None, without: str = ""
    ) -> Prices | None:
        """The learnt log, less one entry if its id is given; None where there is no log.

        Nothing is made.
        """
        path = log or self.home.log
        if not path.exists():
            if log is not None:
                raise InputError("there is no log", str(log))
            return None
        from appraise.log.bookkeeping import read_book
        from appraise.log.priced import priced_rows
        from appraise.pricing.estimate import learn  # 60 ms with numpy

        with open_at(path) as store:
            entries, book = store.entries(), read_book(store)
        rest = [one for one in entries if one.id != without]
        return learn(priced_rows(rest, knowledge, currency, self.as_of, book))

    def author(self, knowledge: Knowledge | None = None, zone: str = "") -> Author:
        """Who types into the fields of a record; `zone` is that of an hour that names none."""
        from appraise.base.moments import zone_named
        from appraise.records.values import Author

        code, sells = self.settings().currency, self.book().sells
        return Author(code, self.as_of, knowledge, zone_named(zone), zone, sells)

    def book(self) -> VenueBook:
        """The user's venues and rates; an empty book where there is no log."""
        from appraise.log.bookkeeping import read_book
        from appraise.records.venuebook import VenueBook

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

    def show(self, document: dict[str, Any], text: str) -> None:
        """Print the JSON object or the text, whichever was asked for."""
        if self.json:
            json.dump(document, sys.stdout, ensure_ascii=False, indent=2)
            sys.stdout.write("\n")
        else:
            sys.stdout.write(text if text.endswith("\n") else f"{text}\n")


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


def machine() -> str:
    """The name under which this machine signs its revisions."""
    return platform.node().strip() or "this computer"


def open_at(path: Path) -> Log:
    """The log at a path, made when there is none."""
    from appraise.log.store import open_log  # 15 ms with sqlite3

    return open_log(path, now, machine())
