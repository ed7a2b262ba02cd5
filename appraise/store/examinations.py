"""A kept piece looked at: condition checks, new examinations, and arrivals against the listing."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import replace

from appraise.base.errors import InputError
from appraise.collection.arrival import Arrival, compare
from appraise.collection.transitions import damage_of, happened, look_of, looked, with_steps
from appraise.knowledge.records import Knowledge
from appraise.reading.reading import read
from appraise.records.entry import Entry
from appraise.records.entry_piece import piece_of
from appraise.records.owned import Event, OwnedPiece
from appraise.records.piece import Piece
from appraise.records.piece_file import parse_piece, write_piece
from appraise.store.log import Log
from appraise.store.owned_pieces import entry_behind, words_for
from appraise.verdict import judge

IN_HAND = "in-hand"


def piece_in(kept: OwnedPiece, knowledge: Knowledge) -> Piece:
    """The piece as it was examined last; what its record tells where it has no piece file.

    Raises:
        InputError: when the piece file cannot be read.
    """
    if kept.piece:
        return parse_piece(kept.piece, kept.title, knowledge)
    return Piece(title=kept.title, kind=kept.kind or "cased", channel="private")


def checked(
    kept: OwnedPiece,
    steps: Mapping[str, str],
    knowledge: Knowledge,
    day: dt.date,
    said: tuple[str, str, str] = ("", "", ""),
) -> OwnedPiece:
    """The piece after a condition check.

    Args:
        kept: As it was.
        steps: What was found, by question; it goes into the piece file as known in hand. Other
            findings in hand stand as they were.
        knowledge: What the trade knows.
        day: The day of the check.
        said: Who looked, a note, and the condition in words; the grades stand in for the last.

    Raises:
        InputError: when a finding is none.
    """
    by, note, says = said
    piece = with_steps(piece_in(kept, knowledge), steps, knowledge)
    condition = read(piece, knowledge).condition
    look = look_of(piece, condition, knowledge, day, by, note, says)
    text = write_piece(piece) if steps else kept.piece
    return looked(replace(kept, piece=text), look)


def examined(kept: OwnedPiece, piece: Piece, knowledge: Knowledge, day: dt.date) -> OwnedPiece:
    """The piece with a new examination; a look is noted where damage was asked after in hand.

    What it is taken for follows the new reading, but for what the owner put there by hand.
    """
    before = words_for(judge(piece_in(kept, knowledge), knowledge, None, day))
    verdict = judge(piece, knowledge, None, day)
    told = {
        name: word
        for name, word in words_for(verdict).items()
        if word and getattr(kept, name) in ("", before[name])
    }
    now = replace(kept, piece=write_piece(piece), **told)
    if not damage_of(piece, knowledge):
        return now
    return looked(now, look_of(piece, verdict.reading.condition, knowledge, day))


def arrived(kept: OwnedPiece, piece: Piece, knowledge: Knowledge, day: dt.date) -> OwnedPiece:
    """The piece with its examination on arrival; one that was ordered is at home from now on.

    Raises:
        InputError: when nothing in the examination is known in hand.
    """
    known = [one for one in piece.findings.values() if one.known == IN_HAND]
    if not known and not piece.measured:
        mend = "Write 'known: in-hand' with what you saw, or 'channel: private' above."
        raise InputError("no answer in it was given in hand", kept.title, mend)
    now = examined(kept, piece, knowledge, day)
    return happened(now, Event(day, "arrived")) if kept.status == "ordered" else now


def sent_back(kept: OwnedPiece, day: dt.date, to: str) -> OwnedPiece:
    """The piece after it went back to where it was bought."""
    return happened(kept, Event(day, "returned", to))


def parcel_of(log: Log, kept: OwnedPiece, knowledge: Knowledge) -> tuple[Entry, Arrival]:
    """The purchase, and the piece in hand against what was claimed of it then.

    Raises:
        InputError: when there is no purchase in the log to compare with.
    """
    entry = entry_behind(log, kept)
    if entry is None:
        mend = "An arrival is compared with the piece as it was bought."
        raise InputError("has no purchase in the log", kept.title, mend)
    return entry, compare(piece_of(entry, knowledge), piece_in(kept, knowledge), knowledge)
