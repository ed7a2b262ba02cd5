"""A kept piece as it was bought and as it was looked at since: checks, examinations, arrivals."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from appraise.base.errors import InputError
from appraise.base.logday import UNKNOWN_DAY, bounds
from appraise.collection.judged import SURE, entry_of
from appraise.collection.transitions import damage_of, happened, look_of, looked, with_steps
from appraise.collection.wanting import CAME
from appraise.knowledge.records import Knowledge
from appraise.reading.reading import read
from appraise.records.entry import Entry
from appraise.records.entry_piece import piece_of, recorded_piece
from appraise.records.owned import Event, OwnedPiece
from appraise.records.piece import IN_HAND, Piece
from appraise.records.piece_file import parse_piece, write_piece
from appraise.verdict import Verdict, judge

ONLINE = ("online", "auction")
UNDER_WAY = 60  # days; what was bought from afar longer ago counts as come


def kept_from_entry(entry: Entry, knowledge: Knowledge, as_of: dt.date) -> OwnedPiece:
    """What is kept of a piece that was bought; its price stays in the log alone.

    What was seen in hand at the purchase counts as its first look. One bought lately from words
    and pictures is on its way until it was looked at.

    Raises:
        InputError: when the entry is no purchase, or its piece file cannot be read.
    """
    if entry.record not in CAME:
        mend = f"Only these can be added: {', '.join(CAME)}."
        raise InputError(f"'{entry.record}' is not a purchase", entry.id[:8], mend)
    piece = piece_of(entry, knowledge)
    made = kept_from_piece(piece, knowledge, as_of, entry.middle_day)
    return replace(
        made,
        title=entry.title or entry.motif or made.title,
        entry=entry.id,
        piece=entry.piece or made.piece,
        process=entry.process or made.process,
        housing=entry.housing or made.housing,
        format=entry.format or made.format,
        status="ordered" if _under_way(entry, made, as_of) else "kept",
        acquired="" if entry.date == UNKNOWN_DAY else entry.date.isoformat(),
    )


def _under_way(entry: Entry, made: OwnedPiece, as_of: dt.date) -> bool:
    _, last = bounds(entry.date)
    lately = last is not None and (as_of - last).days <= UNDER_WAY
    return lately and entry.channel in ONLINE and not made.looks


def kept_from_piece(
    piece: Piece, knowledge: Knowledge, as_of: dt.date, seen: dt.date | None = None
) -> OwnedPiece:
    """What is kept of a piece from its file.

    `seen`: the day on which it was looked at; None: on `as_of`.
    """
    verdict = judge(piece, knowledge, None, as_of)
    kept = OwnedPiece(
        title=piece.title or piece.motif or "untitled piece",
        piece=write_piece(piece),
        kind=piece.kind,
        receipt=_receipt(piece),
        **words_for(verdict),
    )
    if not damage_of(piece, knowledge):
        return kept
    return looked(kept, look_of(piece, verdict.reading.condition, knowledge, seen or as_of))


def words_for(verdict: Verdict) -> dict[str, Any]:
    """What a piece is taken for where its reading is sure: process, housing, format, years."""
    reading, words = verdict.reading, entry_of(verdict, "gift", verdict.as_of)
    sure = max(reading.families.values()) >= SURE
    return {
        "process": words.process,
        "housing": words.housing,
        "format": words.format or verdict.piece.named_format,
        "dated": reading.together.edtf if sure else "",
    }


def _receipt(piece: Piece) -> str:
    """The receipt and who gave it; whom one bought from tells nothing of where it was before."""
    if piece.origin is None:
        return ""
    told = (piece.origin.receipt, piece.origin.who, piece.origin.where)
    return ", ".join(one for one in told if one)


def piece_in(kept: OwnedPiece, knowledge: Knowledge) -> Piece:
    """The piece as it was examined last; what its record tells where it has no piece file.

    Raises:
        InputError: when the piece file cannot be read.
    """
    return recorded_piece(kept, knowledge)


def _on_file(kept: OwnedPiece, knowledge: Knowledge) -> Piece:
    """The piece without what its record alone tells: by it the owner's own words are known."""
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

    `steps`: what was found, by question; it goes into the piece file as known in hand. Other
    findings in hand stand as they were.
    `said`: who looked, a note, and the condition in words; the grades stand in for the last.

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
    before = words_for(judge(_on_file(kept, knowledge), knowledge, None, day))
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
