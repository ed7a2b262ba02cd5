"""Kept pieces in and out of the log: taken over from a purchase, and sold again in one act."""

import datetime as dt
from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import Any

from appraise.base.errors import InputError
from appraise.collection.transitions import damage_of, look_of, looked
from appraise.knowledge.records import Knowledge
from appraise.records.entry import Entry
from appraise.records.entry_piece import piece_of
from appraise.records.owned import OwnedPiece
from appraise.records.piece import Piece
from appraise.records.piece_file import write_piece
from appraise.store.judged import SURE, entry_of
from appraise.store.log import Log
from appraise.store.records import Stored, change, held, keep
from appraise.verdict import Verdict, judge

CAME = ("bought", "gift", "swap")
"""Records of the log by which a piece comes to its owner."""
ONLINE = ("online", "auction")
UNDER_WAY = 60  # days; what was bought from afar longer ago counts as come


def kept_from_entry(entry: Entry, knowledge: Knowledge, as_of: dt.date) -> OwnedPiece:
    """What is kept of a piece that was bought; its price stays in the log alone.

    What was seen in hand at the purchase counts as its first look. One bought lately from words
    and pictures is on its way until it was looked at.

    Args:
        entry: The purchase.
        knowledge: What the trade knows.
        as_of: The day for which the piece is judged.

    Raises:
        InputError: when the entry is no purchase, or its piece file cannot be read.
    """
    if entry.record not in CAME:
        mend = f"Only these can be added: {', '.join(CAME)}."
        raise InputError(f"'{entry.record}' is not a purchase", entry.id[:8], mend)
    piece = piece_of(entry, knowledge)
    made = kept_from_piece(piece, knowledge, as_of, entry.date)
    return replace(
        made,
        title=entry.title or entry.motif or made.title,
        entry=entry.id,
        piece=entry.piece or made.piece,
        process=entry.process or made.process,
        housing=entry.housing or made.housing,
        format=entry.format or made.format,
        status="ordered" if _under_way(entry, made, as_of) else "kept",
        acquired=entry.date.isoformat(),
    )


def _under_way(entry: Entry, made: OwnedPiece, as_of: dt.date) -> bool:
    lately = (as_of - entry.date).days <= UNDER_WAY
    return lately and entry.channel in ONLINE and not made.looks


def kept_from_piece(
    piece: Piece, knowledge: Knowledge, as_of: dt.date, seen: dt.date | None = None
) -> OwnedPiece:
    """What is kept of a piece from its file.

    Args:
        piece: As it was noted.
        knowledge: What the trade knows.
        as_of: The day for which it is judged.
        seen: The day on which it was looked at; None: on `as_of`.
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


def every(log: Log) -> tuple[Stored[OwnedPiece], ...]:
    """All kept pieces, by their numbers as a person counts, those without one last.

    What is owned no more comes after all the others.
    """

    def key(one: Stored[OwnedPiece]) -> tuple[bool, object]:
        return not one.thing.owned, number_key(one.thing.number)

    return tuple(sorted(held(log, OwnedPiece), key=key))


def number_key(number: str) -> tuple[bool, list[tuple[bool, int, str]]]:
    """Sorts '2' before '10' and 'A9' before 'A10'; no number last."""
    parts: list[tuple[bool, int, str]] = []
    digits = ""
    for sign in [*number.casefold(), ""]:
        if sign.isascii() and sign.isdigit():
            digits += sign
            continue
        if digits:
            parts.append((False, int(digits[:18]), digits))
            digits = ""
        if sign:
            parts.append((True, 0, sign))
    return not number, parts


def next_number(pieces: Iterable[Stored[OwnedPiece]]) -> str:
    """The running number after the highest plain one."""
    plain = [one.thing.number for one in pieces]
    return str(max((int(n[:18]) for n in plain if n.isascii() and n.isdigit()), default=0) + 1)


def find(log: Log, ref: str) -> Stored[OwnedPiece]:
    """The kept piece that is meant: by its number, the start of its id, or its title.

    Raises:
        InputError: when there is none, or more than one.
    """
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
        return change(log, now, was=was)


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


def to_take(log: Log, most: int = 1_000) -> tuple[Entry, ...]:
    """The newest purchases of the log that are not among the kept pieces, at most so many."""
    with log.snapshot():
        known = {one.thing.entry for one in held(log, OwnedPiece)}
        found = [
            one
            for record in CAME
            for one in log.entries(f"record:{record}", limit=most)
            if one.id not in known
        ]
    return tuple(sorted(found, key=lambda one: one.date, reverse=True)[:most])


def entry_behind(log: Log, kept: OwnedPiece) -> Entry | None:
    """The purchase in the log; None without one, or when it was taken off the log."""
    if not kept.entry:
        return None
    try:
        return log.entry(kept.entry)
    except InputError:
        return None
