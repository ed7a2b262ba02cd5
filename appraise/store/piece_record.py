"""All that the log holds on one piece: its price, the piece as owned, the work done on it."""

from __future__ import annotations

from collections.abc import Callable, Set
from dataclasses import replace
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.oneline import folded
from appraise.records.entry import Entry
from appraise.records.picture_file import PictureFile
from appraise.records.stored import Stored
from appraise.store import current_state
from appraise.store.log import Log
from appraise.store.pictures import path_of
from appraise.store.records import held, keeps

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.records.owned import OwnedPiece
    from appraise.records.piece import Piece
    from appraise.records.repair import Repair


@dataclass(frozen=True, slots=True)
class PieceRecord:
    """One piece and what the log holds on it.

    Attributes:
        piece: As it was examined last.
        works: Work done on it, the earliest first.
        photos: The files of its photos.
        own: Ids of the log's entries of this very piece, by which it is not judged.
    """

    piece: Piece
    entry: Entry | None = None
    kept: OwnedPiece | None = None
    works: tuple[Repair, ...] = ()
    photos: tuple[Path, ...] = ()
    own: frozenset[str] = frozenset()


def piece_record(log: Log, ref: str, knowledge: Knowledge) -> PieceRecord:
    """All that the log holds on the piece of an entry, or on a kept piece.

    `ref`: the number, id or title of a kept piece, else the id of an entry or the first letters
    of it.

    Raises:
        InputError: when there is none, or its piece file cannot be read.
    """
    mine = _kept(log, ref)
    if mine is None:
        entry: Entry | None = log.entry(ref)
        mine = _kept(log, entry.id) if entry is not None else None
    else:
        entry = entry_behind(log, mine.thing)
    ids = {one for one in (entry.id if entry else "", mine.id if mine else "") if one}
    kept = mine.thing if mine else None
    piece = _piece(entry, kept, knowledge)
    photos = files_of(log.path, entry.pictures if entry else (), piece.pictures)
    own = own_of(log, piece, entry)
    works = works_on(log, ids | (names_of(log, kept) if kept else frozenset()))
    return PieceRecord(piece, entry, kept, works, photos, own)


_SAME_PIECE = (
    "SELECT revision.body, shelf.entry FROM shelf JOIN revision USING (number) "
    "WHERE shelf.entry = ? OR CASE WHEN instr(body, '\"piece\":') AND json_valid(body)"
    " THEN json_extract(body, '$.piece') = ? END"
)
MOST_WORDS = 100  # that are looked for in a text at once
_MAY_HAVE_PIECE = "SELECT 1 FROM shelf JOIN revision USING (number) WHERE instr(body, '\"piece\":')"
_GONE = (
    "SELECT revision.body, shelf.entry FROM shelf JOIN revision USING (number) "
    "WHERE record IN (?, ?) AND shelf.title = ?"
)


def own_of(log: Log, piece: Piece, entry: Entry | None = None) -> frozenset[str]:
    """The ids of the log's entries of this very piece, as `own_entries` tells them.

    Only entries that may be are read: those of its piece file, and sales and returns of that title.
    """
    if entry is None and not _may_be_kept(log, piece):
        return frozenset()
    from appraise.records.entry_piece import GONE, own_entries  # 15 ms with yaml, here and below
    from appraise.records.piece_file import write_piece

    text = write_piece(replace(piece, pictures=()))
    with log.snapshot():
        rows = log.connection.execute(_SAME_PIECE, (entry.id if entry else "", text)).fetchall()
        mine = [current_state.price(body, each) for body, each in rows]
        for title in {folded(one.title) for one in (*mine, *([entry] if entry else []))}:
            gone = log.connection.execute(_GONE, (*GONE, title)).fetchall()
            mine += [current_state.price(body, each) for body, each in gone]
    return own_entries(piece, mine, entry)


def _may_be_kept(log: Log, piece: Piece) -> bool:
    """Whether an entry may bear the piece's file: one that has all words that stand in it."""
    words = [word for word in piece.title.split() if word.isascii() and word.isalnum()]
    sure = [*piece.findings, *words][:MOST_WORDS]
    sql = " AND ".join((_MAY_HAVE_PIECE, *["instr(body, ?)"] * len(sure)))
    with log.snapshot():
        return log.connection.execute(f"{sql} LIMIT 1", sure).fetchone() is not None


def files_of(log_path: Path, *listed: tuple[PictureFile, ...]) -> tuple[Path, ...]:
    """The files of photos, each once."""
    return tuple(path_of(log_path, one) for one in dict.fromkeys(chain(*listed)))


def _kept(log: Log, ref: str) -> Stored[OwnedPiece] | None:
    """The kept piece of that number, id, purchase or title; None where there is none."""
    try:
        return find(log, ref) if keeps(log, "kept") else None
    except InputError:
        return None


def find(log: Log, ref: str) -> Stored[OwnedPiece]:
    """The kept piece that is meant: by its number, the start of its id, or its title.

    Raises:
        InputError: when there is none, or more than one.
    """
    from appraise.records.owned import OwnedPiece  # 10 ms

    wanted = ref.strip().casefold()
    known = held(log, OwnedPiece)
    tests: tuple[Callable[[Stored[OwnedPiece]], bool], ...] = (
        lambda one: one.thing.number.casefold() == wanted,
        lambda one: one.id.startswith(wanted) and len(wanted) > 3,
        lambda one: one.thing.entry.startswith(wanted) and len(wanted) > 3,
        lambda one: one.thing.title.casefold() == wanted,
    )
    for test in tests:
        found = [one for one in known if wanted and test(one)]
        if len(found) == 1:
            return found[0]
        if found:
            ids = ", ".join(one.id[:8] for one in found[:3])
            raise InputError(f"'{ref}' is more than one owned piece ({ids})", mend="Write its id.")
    raise InputError(f"no owned piece '{ref}'", mend="'appraise kept list' shows all.")


def entry_behind(log: Log, kept: OwnedPiece) -> Entry | None:
    """The purchase in the log; None without one, or when it was taken off the log."""
    try:
        return log.entry(kept.entry) if kept.entry else None
    except InputError:
        return None


def names_of(log: Log, kept: OwnedPiece) -> frozenset[str]:
    """What a job may call a kept piece beside its ids, in small letters.

    Its number, and its title where no other has the same.
    """
    from appraise.records.owned import OwnedPiece

    title = kept.title.casefold()
    alike = sum(one.thing.title.casefold() == title for one in held(log, OwnedPiece))
    names = {kept.number.casefold(), title if alike == 1 else ""}
    return frozenset(names - {""})


def works_on(log: Log, names: Set[str]) -> tuple[Repair, ...]:
    """Work done on a piece that goes by these ids or names, the earliest first."""
    if not keeps(log, "work"):
        return ()
    from appraise.records.repair import Repair

    found = [each.thing for each in held(log, Repair) if each.thing.piece.casefold() in names]
    return tuple(sorted(found, key=lambda work: work.begun))


def _piece(entry: Entry | None, kept: OwnedPiece | None, knowledge: Knowledge) -> Piece:
    """As it was examined last: as it is kept, else as it was bought."""
    from appraise.records.entry_piece import piece_of, recorded_piece

    if kept is not None and (kept.piece or entry is None):
        return recorded_piece(kept, knowledge)
    assert entry is not None
    return piece_of(entry, knowledge)
