"""The plates without a housing that the log knows of: such pieces, and plates in stock."""

from dataclasses import replace

from appraise.keeping.fits import PLATE, Loose, loose
from appraise.keeping.sameyears import as_piece
from appraise.keeping.stock import Part
from appraise.knowledge.records import Knowledge
from appraise.log.bench import loose_entries
from appraise.log.holdings import held
from appraise.log.pieces import piece_of
from appraise.log.store import Log
from appraise.piece.records import Piece

MOST = 200  # entries, the newest first; each takes some milliseconds to read


def loose_plates(log: Log, knowledge: Knowledge) -> list[Loose]:
    """The plates, read: those in stock first, then the log's, the newest first."""
    stock = [one for one in held(log, Part) if one.thing.part == PLATE and one.thing.count]
    found = [loose(plate_piece(one.thing, knowledge), knowledge, one.id) for one in stock]
    entries = loose_entries(log, limit=MOST)
    return [*found, *(loose(piece_of(one, knowledge), knowledge, one.id) for one in entries)]


def plate_piece(part: Part, knowledge: Knowledge) -> Piece:
    """A plate in stock as a piece without a housing."""
    measure = part.measure("outside")
    return replace(
        as_piece(part, knowledge),
        kind="loose-plate",
        named_format=part.format if part.format in knowledge.formats else "",
        measured={"plate": measure} if measure else {},
    )
