"""Work and stock in the log: what is used for a work leaves the stock in the same act.

So does what is given back when a work is edited or taken off, and the mark that keeps a piece of
one's own making out of the price model: one undo takes all of it back.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from appraise.base.errors import InputError
from appraise.records.entry import Entry
from appraise.records.owned import OwnedPiece
from appraise.records.part import Part, is_id
from appraise.records.repair import Repair
from appraise.records.stored import ChangeSet, Stored
from appraise.store.log import Log
from appraise.store.piece_record import find
from appraise.store.records import commit, held, one

if TYPE_CHECKING:
    from appraise.collection.fits import Loose
    from appraise.knowledge.records import Knowledge
    from appraise.records.piece import Piece

LOOSE = "kind:loose-plate record:bought,swap,gift,sold,returned"
MOST = 200  # entries, the newest first; each takes some milliseconds to read


def whole_ids(log: Log, texts: Mapping[str, str]) -> dict[str, str]:
    """The texts of a work's fields with the parts that it used named by their whole ids.

    Raises:
        InputError: when there is no such part, or more than one.
    """
    if not texts.get("used", "").strip():
        return dict(texts)
    words = texts["used"].replace(",", " ").replace(";", " ").split()
    return {**texts, "used": " ".join(one(log, Part, word).id for word in words)}


def whole_piece(log: Log, ref: str) -> str:
    """The whole id of the kept piece or the entry that is meant; else the words as they stand.

    A kept piece is meant by its number, the start of its id or its title, an entry by the start of
    its id.
    """
    found = _meant(log, ref) if ref.strip() else None
    return found.id if found else ref.strip() and ref


def _meant(log: Log, ref: str) -> Stored[OwnedPiece] | Entry | None:
    for known in (find, Log.entry):
        try:
            return known(log, ref)
        except InputError:
            continue
    return None


def piece_title(log: Log, piece: str) -> str:
    """What the piece with that id is called; '' for words, and for what is off the log."""
    found = _meant(log, piece) if is_id(piece) else None
    thing = found.thing if isinstance(found, Stored) else found
    return thing.title if thing else ""


def keep_work(log: Log, work: Repair, own: bool = False) -> Stored[Repair]:
    """Keep a new work; the parts that it uses leave the stock.

    `own`: whether the entry of its piece is to be marked as the user's own work, which keeps it
    out of the price model.

    Raises:
        InputError: when a part is not in stock any more, or the piece has no entry to mark.
    """
    with log.transaction():
        parts, marked = _moved(log, (), work), _marked(log, work, own)
        ids = commit(log, ChangeSet(add=(work,), change=parts, edit=marked))
    return Stored(ids[0], work)


def change_work(log: Log, now: Stored[Repair], was: Repair, own: bool = False) -> Stored[Repair]:
    """Keep a work as it is now; stock follows what it uses more or less than before.

    Raises:
        InputError: when it was changed meanwhile, a part is not in stock any more, or the piece has
            no entry to mark.
    """
    with log.transaction():
        log.unchanged(now.id, was)
        parts, marked = _moved(log, was.used, now.thing), _marked(log, now.thing, own)
        commit(log, ChangeSet(change=(now, *parts), edit=marked))
    return now


def drop_work(log: Log, work: Stored[Repair]) -> None:
    """Take a work off the log; what it used goes back into stock."""
    with log.transaction():
        parts = _moved(log, work.thing.used, replace(work.thing, used=()))
        commit(log, ChangeSet(change=parts, drop=(work.id,)))


def _moved(log: Log, before: tuple[str, ...], work: Repair) -> tuple[Stored[Part], ...]:
    """The parts in stock after a work uses what it uses now instead of what it used before."""
    change = Counter(work.used)
    change.subtract(before)
    stock = {each.id: each.thing for each in held(log, Part)}
    out = []
    for name, count in change.items():
        part = stock.get(name)
        if part is None:
            if count > 0:
                raise InputError(f"no part '{name}' in stock", "used", "See 'appraise stock list'.")
            continue  # it was taken off the log since, and nothing is left to give back to
        for _ in range(abs(count)):
            part = part.taken(work.piece or work.title) if count > 0 else part.given_back()
        if part != stock[name]:
            out.append(Stored(name, part))
    return tuple(out)


def _marked(log: Log, work: Repair, own: bool) -> tuple[Entry, ...]:
    """The entry of the work's piece as the user's own work, when that is wished."""
    if not own:
        return ()
    if not is_id(work.piece):
        raise InputError(
            "the piece has no entry in the log that could be marked", "piece", "Name it by its id."
        )
    kept = next((one.thing for one in held(log, OwnedPiece) if one.id == work.piece), None)
    if kept is not None and not kept.entry:
        raise InputError("the piece has no purchase in the log to mark", "piece")
    return (replace(log.entry(kept.entry if kept else work.piece), own_work=True),)


def plates_in(log: Log, knowledge: Knowledge) -> list[tuple[str, Piece]]:
    """Ids and pieces: plates in stock first, then the log's entries, the newest first."""
    from appraise.collection.fits import PLATE  # 60 ms with the reading, here and below
    from appraise.collection.sameyears import plate_piece
    from appraise.collection.wanting import still_here
    from appraise.records.entry_piece import piece_of

    stock = [one for one in held(log, Part) if one.thing.part == PLATE and one.thing.count]
    found = [(one.id, plate_piece(one.thing, knowledge)) for one in stock]
    newest = still_here(log.entries(LOOSE))[::-1][:MOST]
    return [*found, *((one.id, piece_of(one, knowledge)) for one in newest)]


def loose_plates(log: Log, knowledge: Knowledge) -> list[Loose]:
    """The same, read."""
    from appraise.collection.fits import loose

    return [loose(piece, knowledge, name) for name, piece in plates_in(log, knowledge)]
