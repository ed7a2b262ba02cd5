"""The venues and exchange rates of a log, read together and changed one by one."""

from appraise.records.rate import Rate
from appraise.records.venue import Venue
from appraise.records.venuebook import VenueBook
from appraise.store.log import Log
from appraise.store.records import ChangeSet, Stored, commit, drop, held, one


def read_book(log: Log) -> VenueBook:
    """The venues and rates of a log, by name and by day; what cannot be read is left out."""
    with log.snapshot():
        venues = sorted((each.thing for each in held(log, Venue)), key=lambda venue: venue.key)
        rates = sorted((each.thing for each in held(log, Rate)), key=lambda rate: rate.key)
    return VenueBook(tuple(venues), tuple(rates))


def keep_book(log: Log, book: VenueBook) -> None:
    """Keep all venues and rates of a book as one act, in place of those of the same name."""
    commit(log, ChangeSet(add=(*book.venues, *book.rates)))


def keep_venue(log: Log, venue: Venue) -> None:
    """Keep a venue's terms, in place of those of the same name; one of a channel is usual."""
    with log.transaction():
        keep_book(log, VenueBook(read_book(log).with_venue(venue).venues))


def drop_venue(log: Log, name: str) -> Stored[Venue]:
    """Take a venue off the log.

    Raises:
        InputError: when there is none of that name, and which one may be meant.
    """
    with log.transaction():
        gone = one(log, Venue, read_book(log).named(name).name)
        drop(log, [gone.id])
    return gone
