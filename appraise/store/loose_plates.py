"""The plates without a housing that the log knows of: such pieces, and plates in stock."""

from dataclasses import replace

from appraise.collection.fits import PLATE, Loose, loose
from appraise.collection.sameyears import as_piece
from appraise.knowledge.records import Knowledge
from appraise.records.entry_piece import piece_of
from appraise.records.part import Part
from appraise.records.piece import Piece
from appraise.store.bench import loose_entries
from appraise.store.log import Log
from appraise.store.records import held

MOST = 200  # entries, the newest first; each takes some milliseconds to read


def plates_in(log: Log, knowledge: Knowledge) -> list[tuple[str, Piece]]:
    """Ids and pieces: plates in stock first, then the log's entries, the newest first."""
    stock = [one for one in held(log, Part) if one.thing.part == PLATE and one.thing.count]
    found = [(one.id, plate_piece(one.thing, knowledge)) for one in stock]
    return [*found, *((e.id, piece_of(e, knowledge)) for e in loose_entries(log, limit=MOST))]


def loose_plates(log: Log, knowledge: Knowledge) -> list[Loose]:
    """The same, read."""
    return [loose(piece, knowledge, name) for name, piece in plates_in(log, knowledge)]


def plate_piece(part: Part, knowledge: Knowledge) -> Piece:
    """A plate in stock as a piece without a housing."""
    measure = part.measure("outside")
    return replace(
        as_piece(part, knowledge),
        kind="loose-plate",
        named_format=part.format if part.format in knowledge.formats else "",
        measured={"plate": measure} if measure else {},
    )
