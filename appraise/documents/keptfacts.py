"""What a kept piece is, as its owner would tell it: sizes, writing, sitter, place."""

from collections.abc import Iterator
from dataclasses import dataclass

from appraise.base.ages import birth_years
from appraise.base.dates import year_range
from appraise.base.errors import InputError
from appraise.collection.upkeep import unfit, unfit_words
from appraise.knowledge.records import Knowledge
from appraise.records.owned import MISSING, OwnedPiece
from appraise.records.piece import Piece
from appraise.records.piece_file import parse_piece


@dataclass(frozen=True, slots=True)
class FactRow:
    """A line of a section: a label, what is said, and '!' or '?' where it needs a look."""

    label: str
    says: str
    mark: str = ""


def fact_rows(kept: OwnedPiece, knowledge: Knowledge) -> Iterator[FactRow]:
    """What the piece is and where; what is not noted is asked for."""
    yield FactRow("number", kept.number or "none", "" if kept.number else "?")
    what = " ".join(one for one in (kept.format, kept.process, kept.housing, kept.kind) if one)
    yield FactRow("what it is", what or "not recorded", "" if what else "?")
    yield FactRow("made", kept.dated or "not dated", "" if kept.dated else "?")
    yield from _from_piece(kept, knowledge)
    yield FactRow("place", kept.place or "not recorded", "" if kept.place else "?")
    for row in unfit(kept.place, knowledge):
        yield FactRow("caution", unfit_words(row), "!")
    yield FactRow("status", kept.status, "!" if kept.status in MISSING else "")
    for label, text in (("box and frame", kept.climate), ("note", kept.note)):
        for line in filter(str.strip, text.splitlines()):
            yield FactRow(label, line)
            label = ""


def _from_piece(kept: OwnedPiece, knowledge: Knowledge) -> Iterator[FactRow]:
    """What its piece file tells."""
    if not kept.piece:
        return
    try:
        piece = parse_piece(kept.piece, kept.title, knowledge)
    except InputError as error:
        yield FactRow("piece file", f"cannot be read: {error}", "?")
        return
    for what, measure in piece.measured.items():
        yield FactRow(f"size of the {what}", measure.as_both())
    for label, text in (
        ("subject", ", ".join(piece.subjects)),
        ("motif", piece.motif),
        ("maker", piece.maker),
        ("written", written_words(piece)),
        ("sitter", sitter_words(piece, kept.dated)),
    ):
        if text:
            yield FactRow(label, text)


def written_words(piece: Piece) -> str:
    """What is written on or with it, and the date that it names."""
    if piece.inscription is None:
        return ""
    text = f'"{piece.inscription.text}"' if piece.inscription.text else ""
    dated = f"dated {piece.inscription.date}" if piece.inscription.date else ""
    return ", ".join(one for one in (text, dated) if one)


def sitter_words(piece: Piece, dated: str) -> str:
    """The sitter's apparent age, and the years of birth that follow from the date."""
    if piece.sitter_age is None:
        return ""
    young, old = piece.sitter_age
    age = f"aged {young}" if young == old else f"aged {young} to {old}"
    first, last = year_range(dated, 0) if dated else (None, None)
    if first is None or last is None:
        return age
    born = birth_years((first, last), piece.sitter_age)
    return f"{age}, so born {born[0]} to {born[1]}"
