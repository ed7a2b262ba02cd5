"""Kept pieces in and out of the log: taken over from a purchase, and sold again in one act."""

from __future__ import annotations

import re
from collections.abc import Iterable
from string import digits
from typing import TYPE_CHECKING

from appraise.base.errors import InputError
from appraise.base.logday import sorting
from appraise.base.money import Money
from appraise.collection.wanting import CAME
from appraise.records.entry import Entry
from appraise.records.owned import Event, OwnedPiece
from appraise.records.stored import ChangeSet, Stored
from appraise.store.log import Log
from appraise.store.piece_record import entry_behind, names_of, works_on
from appraise.store.records import change, commit, held, keep

if TYPE_CHECKING:
    from appraise.collection.arrival import Arrival
    from appraise.collection.sale import Sale
    from appraise.knowledge.records import Knowledge

MOST = 1_000


def every(log: Log) -> tuple[Stored[OwnedPiece], ...]:
    """All kept pieces, by their numbers as a person counts, those without one last.

    What is owned no more comes after all the others.
    """

    def key(one: Stored[OwnedPiece]) -> tuple[bool, object]:
        return not one.thing.owned, number_key(one.thing.number)

    return tuple(sorted(held(log, OwnedPiece), key=key))


def number_key(number: str) -> tuple[bool, list[tuple[bool, int, str]]]:
    """Sorts '2' before '10' and 'A9' before 'A10'; no number last."""
    signs = re.findall(r"[0-9]+|[^0-9]", number.casefold())
    parts = [(False, int(one[:18]), one) if one[0] in digits else (True, 0, one) for one in signs]
    return not number, parts


def next_number(pieces: Iterable[Stored[OwnedPiece]]) -> str:
    """The running number after the highest plain one."""
    plain = [one.thing.number for one in pieces]
    return str(max((int(n[:18]) for n in plain if n.isascii() and n.isdigit()), default=0) + 1)


def take(log: Log, kept: OwnedPiece) -> Stored[OwnedPiece]:
    """Keep a new piece.

    Raises:
        InputError: when its number or its purchase is another kept piece's already.
    """
    with log.transaction():
        _free(log, kept, "")
        return keep(log, kept)


def store(log: Log, now: Stored[OwnedPiece], was: OwnedPiece) -> Stored[OwnedPiece]:
    """Keep a piece as it is now.

    Raises:
        InputError: when its number is taken, or it was changed meanwhile.
    """
    with log.transaction():
        _free(log, now.thing, now.id)
        return change(log, now, was)


def _free(log: Log, kept: OwnedPiece, own: str) -> None:
    for other in held(log, OwnedPiece):
        if other.id == own:
            continue
        if kept.number and other.thing.number.casefold() == kept.number.casefold():
            free = next_number(held(log, OwnedPiece))
            raise InputError(
                f"number {kept.number} is '{other.thing.title}'", "number", f"{free} is free."
            )
        if kept.entry and other.thing.entry == kept.entry:
            raise InputError(f"it is on the list already: '{other.thing.title}'", kept.entry[:8])


def to_take(log: Log) -> tuple[Entry, ...]:
    """The newest purchases of the log that are not among the kept pieces, at most `MOST`."""
    with log.snapshot():
        known = {one.thing.entry for one in held(log, OwnedPiece)}
        found = [
            one
            for record in CAME
            for one in log.entries(f"record:{record}", limit=MOST)
            if one.id not in known
        ]
    return tuple(sorted(found, key=lambda one: sorting(one.date), reverse=True)[:MOST])


def parcel_of(log: Log, kept: OwnedPiece, knowledge: Knowledge) -> tuple[Entry, Arrival]:
    """The purchase, and the piece in hand against what was claimed of it then.

    Raises:
        InputError: when there is no purchase in the log to compare with.
    """
    from appraise.collection.arrival import compare  # 60 ms with the reading
    from appraise.collection.examinations import piece_in
    from appraise.records.entry_piece import piece_of

    entry = entry_behind(log, kept)
    if entry is None:
        mend = "An arrival is compared with the piece as it was bought."
        raise InputError("has no purchase in the log", kept.title, mend)
    return entry, compare(piece_of(entry, knowledge), piece_in(kept, knowledge), knowledge)


def spent_since(log: Log, piece: Stored[OwnedPiece]) -> tuple[Money, ...]:
    """What was spent on a piece since it came: on what happened to it, and on works at the bench.

    Parts from one's own stock are left out.
    """
    ids = frozenset({piece.id, piece.thing.entry} - {""})
    works = works_on(log, ids | names_of(log, piece.thing))
    costs = [*(event.cost for event in piece.thing.events), *(work.cost for work in works)]
    return tuple(cost for cost in costs if cost is not None)


def sell(log: Log, piece: Stored[OwnedPiece], sale: Sale) -> tuple[Entry, Stored[OwnedPiece]]:
    """Log a sale, note on the purchase what the piece fetched, and change its status: one act.

    Raises:
        InputError: when the piece is not there to be sold.
    """
    from appraise.collection.sale import outcome_of_sale, sold_entry
    from appraise.collection.transitions import happened
    from appraise.pricing.outcomes import with_outcome

    kept = piece.thing
    bought = entry_behind(log, kept)
    event = Event(sale.day, "sold", sale.to or sale.venue)
    now = Stored(piece.id, happened(kept, event))
    sold = sold_entry(kept, bought, sale)
    edits: tuple[Entry, ...] = ()
    if bought is not None:
        edits = (with_outcome(bought, outcome_of_sale(bought, sale)),)
    (entry_id,) = commit(log, ChangeSet(add=(sold,), change=(now,), edit=edits))
    return sold.named(entry_id), now
