"""What happens to a piece that one owns: taken up, moved, lent, checked, received, sold.

Each is one change, which one undo takes back.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from appraise.base.dataclass import dataclass
from appraise.commands.kinds import KINDS
from appraise.commands.records import Done
from appraise.records.fields import changed
from appraise.records.owned import Event, OwnedPiece, Showing

if TYPE_CHECKING:
    from appraise.collection.arrival import Arrival
    from appraise.collection.sale import Gain, Sale
    from appraise.commands.workspace import Workspace
    from appraise.records.entry import Entry
    from appraise.records.piece import Piece
    from appraise.records.stored import Stored
    from appraise.store.log import Log

Texts = Mapping[str, str]
_KIND = KINDS["kept"]


def keep(
    work: Workspace, begun: OwnedPiece | Entry | Piece | str, texts: Texts
) -> Done[OwnedPiece]:
    """Add a piece to those one owns, under the next running number unless one is typed.

    `begun`: what is known of it; a purchase of the log or the start of its id; or a piece as
    noted.

    Raises:
        InputError: when it is no purchase, or its number or purchase is another piece's.
    """
    from appraise.store.owned_pieces import every, next_number

    with work.opened() as log:
        made = changed(_begun(work, log, begun), texts, work.author(knows=True))
        if not texts.get("number"):
            made = replace(made, number=next_number(every(log)))
        stored = _KIND.keep(log, made)
    return Done(f"Added as number {stored.thing.number}.", stored)


def _begun(work: Workspace, log: Log, begun: OwnedPiece | Entry | Piece | str) -> OwnedPiece:
    from appraise.collection.examinations import kept_from_entry, kept_from_piece
    from appraise.records.entry import Entry

    if isinstance(begun, OwnedPiece):
        return begun
    if isinstance(begun, str):
        begun = log.entry(begun)
    if isinstance(begun, Entry):
        return kept_from_entry(begun, work.trade(), work.as_of)
    return kept_from_piece(begun, work.trade(), work.as_of)


def change(
    work: Workspace, one: Stored[OwnedPiece] | str, job: Callable[[OwnedPiece], OwnedPiece]
) -> Done[OwnedPiece]:
    """Change a piece; what would change nothing is not written."""
    from appraise.records.stored import Stored

    with work.opened() as log:
        was = _KIND.meant(log, one)
        now = Stored(was.id, job(was.thing))
        if now.thing != was.thing or isinstance(one, str):
            _KIND.change(log, now, was.thing)
    return Done("", now)


def happen(
    work: Workspace,
    one: Stored[OwnedPiece] | str,
    sort: str,
    texts: Texts,
    place: str | None = None,
) -> Done[OwnedPiece]:
    """Record what happened to a piece.

    `sort`: 'moved', 'light', or a word for an event: lent, back, cleaned, given, lost.
    `place`: where it is now; None: as before.

    Raises:
        InputError: when that cannot happen to it, or a text does not fit.
    """
    from appraise.collection.transitions import happened, moved, shown

    by = work.author()
    if sort == "light":
        showing = changed(Showing(work.as_of, 1, 0), texts, by)
        return change(work, one, lambda kept: shown(kept, showing))
    event = changed(Event(work.as_of, sort), texts, by)
    if sort == "moved":
        return change(work, one, lambda kept: moved(kept, event.day, place or ""))
    return change(work, one, lambda kept: happened(kept, event, place))


def check(
    work: Workspace,
    one: Stored[OwnedPiece] | str,
    steps: Mapping[str, str],
    said: tuple[str, str, str],
    on: dt.date | None = None,
) -> Done[OwnedPiece]:
    """Record a condition check.

    `steps`: what was found, 0 to 3 by question.
    `said`: who checked, a note, and the condition in words.
    """
    from appraise.collection.examinations import checked  # 40 ms with the reading

    knowledge, day = work.trade(), on or work.as_of
    return change(work, one, lambda kept: checked(kept, steps, knowledge, day, said))


@dataclass(frozen=True, slots=True)
class Received:
    """A piece that came, beside what was claimed of it."""

    stored: Stored[OwnedPiece]
    entry: Entry
    arrival: Arrival


def receive(
    work: Workspace, one: Stored[OwnedPiece] | str, piece: Piece | None, returned: bool
) -> Received:
    """Compare a piece with its listing; record it as seen in hand, or as sent back.

    Raises:
        InputError: when it has no purchase, or nothing in `piece` is known in hand.
    """
    from appraise.collection.examinations import arrived, sent_back
    from appraise.records.stored import Stored
    from appraise.store.owned_pieces import parcel_of

    knowledge = work.trade()
    with work.opened() as log:
        was = _KIND.meant(log, one)
        now: OwnedPiece = was.thing
        if piece is not None:
            now = arrived(now, piece, knowledge, work.as_of)
        entry, arrival = parcel_of(log, now, knowledge)
        if returned:
            now = sent_back(now, work.as_of, entry.venue)
        stored = Stored(was.id, now)
        if now != was.thing:
            _KIND.change(log, stored, was.thing)
    return Received(stored, entry, arrival)


def gain(work: Workspace, one: Stored[OwnedPiece] | str, sale: Sale) -> Gain:
    """What a sale would bring beside all that the piece cost."""
    from appraise.collection.sale import gain_of
    from appraise.store.owned_pieces import spent_since
    from appraise.store.piece_record import entry_behind
    from appraise.store.venue_book import read_book

    with work.opened() as log:
        held = _KIND.meant(log, one)
        entry, costs = entry_behind(log, held.thing), spent_since(log, held)
        return gain_of(costs, entry, sale, log.base_currency, read_book(log))


def sell(
    work: Workspace, one: Stored[OwnedPiece] | str, sale: Sale
) -> tuple[Entry, Done[OwnedPiece]]:
    """Log a sale, which takes the piece off what one owns: one act.

    Raises:
        InputError: when the piece is gone already.
    """
    from appraise.store.owned_pieces import sell

    with work.opened() as log:
        entry, stored = sell(log, _KIND.meant(log, one), sale)
    return entry, Done("Sale logged. u: undo everything.", stored)
