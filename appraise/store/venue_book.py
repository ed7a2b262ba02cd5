"""What one pays by: venues, exchange rates and the budget, read together and kept as one."""

import datetime as dt
from collections.abc import Sequence
from typing import TYPE_CHECKING

from appraise.base.logday import within
from appraise.records.budget import Budget
from appraise.records.lot import Lot
from appraise.records.rate import Rate
from appraise.records.stored import ChangeSet, Stored
from appraise.records.venue import Venue
from appraise.records.venuebook import VenueBook
from appraise.store.log import Log
from appraise.store.records import commit, held, one

if TYPE_CHECKING:
    from appraise.collection.budget_status import BudgetStatus


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


def find_venue(log: Log, name: str) -> Stored[Venue]:
    """The venue of that name, in any case.

    Raises:
        InputError: when there is none of that name, and which one may be meant.
    """
    return one(log, Venue, read_book(log).named(name).name)


def drop_venue(log: Log, name: str) -> Stored[Venue]:
    """Take a venue off the log; errors as in `find_venue`."""
    with log.transaction():
        gone = find_venue(log, name)
        log.commit(drop=(gone.id,))
    return gone


def read_budget(log: Log) -> Budget | None:
    """The budget that counts: the one begun last; None where there is none."""
    known = held(log, Budget)
    return known[-1].thing if known else None


def keep_budget(log: Log, budget: Budget | None) -> None:
    """Let a budget count from now on, in place of any other; None: no budget. One act."""
    known: Sequence[Stored[Budget]] = held(log, Budget)
    if budget is None:
        commit(log, ChangeSet(drop=tuple(one.id for one in known)))
    elif known:
        kept, others = known[-1], tuple(one.id for one in known[:-1])
        commit(log, ChangeSet(change=(Stored(kept.id, budget),), drop=others))
    else:
        commit(log, ChangeSet(add=(budget,)))


def read_budget_status(log: Log, currency: str, on: dt.date) -> "BudgetStatus":
    """What is left to spend in the period of the budget in which a day lies."""
    from appraise.collection.budget_status import BudgetStatus, period_of, promises, spent_on

    with log.snapshot():
        book, budget = read_book(log), read_budget(log)
        per = budget.per if budget else ""
        first, last = period_of(on, per)
        perhaps = log.entries(f"record:bought date:{first}..{last}")
        standing = promises(held(log, Lot), book, currency, on)
    whole = book.turned(budget.amount, currency, on) if budget else None
    entries = [one for one in perhaps if within(one.date, first, last)]
    total, count, without = spent_on(entries, currency, book)
    unturned = budget.amount if budget and whole is None else None
    return BudgetStatus(
        currency, first, last, per, whole, total, count, without, standing, unturned
    )
