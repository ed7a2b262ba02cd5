"""The piece behind an entry of the log: its piece file, or what the entry itself tells of it."""

from collections.abc import Iterable
from dataclasses import replace
from typing import TYPE_CHECKING

from appraise.knowledge.records import Knowledge
from appraise.records.entry import Entry
from appraise.records.piece import Piece
from appraise.records.piece_file import parse_piece, write_piece

if TYPE_CHECKING:
    from appraise.records.owned import OwnedPiece


def piece_of(entry: Entry, knowledge: Knowledge) -> Piece:
    """The piece that an entry tells of.

    Raises:
        InputError: when the piece file that it was logged from cannot be read.
    """
    if not entry.piece:
        return plain_piece(entry, knowledge)
    piece = parse_piece(entry.piece, f"the piece of entry {entry.id}", knowledge)
    return replace(piece, pictures=entry.pictures)


GONE = ("sold", "returned")
"""What happened where a piece that one had went."""


def own_entries(
    piece: Piece, entries: Iterable[Entry], entry: Entry | None = None
) -> frozenset[str]:
    """The ids of the entries of this very piece: they are no price to judge it by.

    They are its purchase, entries that were logged from the same piece file, and the sale or return
    of either, which bears the same title, format and process.

    Args:
        piece: The piece at hand.
        entries: The log.
        entry: Its purchase, where that is known.
    """
    text, known = write_piece(replace(piece, pictures=())), tuple(entries)
    bare = not piece.findings
    mine = [
        one
        for one in known
        if (entry is not None and one.id == entry.id) or (not bare and one.piece == text)
    ]
    names = {_named(one) for one in (*mine, *((entry,) if entry is not None else ()))}
    went = [one for one in known if one.record in GONE and one.title and _named(one) in names]
    return frozenset(one.id for one in (*mine, *went))


def _named(entry: Entry) -> tuple[str, str, str]:
    return entry.title, entry.format, entry.process


def plain_piece(entry: Entry, knowledge: Knowledge) -> Piece:
    """What an entry that was logged without a piece file tells of its piece."""
    piece = Piece(
        title=entry.title,
        kind=entry.kind or "cased",
        channel=entry.channel or "market",
        subjects=entry.subjects,
        motif=entry.motif,
        maker=entry.maker,
        named_format=entry.format if entry.format in knowledge.formats else "",
        pictures=entry.pictures,
    )
    return with_words(piece, entry.process, entry.housing, knowledge)


def recorded_piece(kept: "OwnedPiece", knowledge: Knowledge) -> Piece:
    """A kept piece as it was examined last, and where nothing was, what its record tells of it.

    What stands in the record of an examined piece follows from the findings: as evidence of its own
    it would count twice.

    Raises:
        InputError: when its piece file cannot be read.
    """
    piece = Piece(title=kept.title, kind=kept.kind or "cased", channel="private")
    if kept.piece:
        piece = parse_piece(kept.piece, kept.title, knowledge)
    if piece.findings or piece.measured or kept.status == "ordered":  # nobody saw it in hand
        return piece
    named = kept.format if kept.format in knowledge.formats else ""
    piece = replace(piece, named_format=piece.named_format or named)
    return with_words(piece, kept.process, kept.housing, knowledge)


def with_words(piece: Piece, process: str, housing: str, knowledge: Knowledge) -> Piece:
    """A piece with process and housing as they were named, where such a piece can have them."""
    families = {name: one.family for name, one in knowledge.processes.items()}
    for check, word in (
        ("claim.process", families.get(process, process)),
        ("case.material", housing),
    ):
        asked = knowledge.checks.get(check)
        if asked is not None and piece.kind in asked.kinds and asked.index(word) >= 0:
            piece = piece.with_finding(check, word)
    return piece
