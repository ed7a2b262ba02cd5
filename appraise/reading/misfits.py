"""Measures that fit no size of the trade, or not the size that the piece is said to be."""

from collections.abc import Iterator

from appraise.base.measures import Measure
from appraise.knowledge.records import Format, Knowledge, Offset
from appraise.piece.records import Piece
from appraise.reading.formats import offset_of
from appraise.reading.plain_warnings import Warning
from appraise.reading.reading import Reading

FAR = 11.8  # squared standard deviations that one measure of two sides in 370 passes by chance
INNOCENT = ("a slip of the ruler or of the record", "a plate or case cut down, or of another trade")


def misfits(reading: Reading, knowledge: Knowledge) -> Iterator[Warning]:
    """Each measure of a cased piece that lies far from every size, or from the one it is named.

    What is better told otherwise (an opening taken for the plate, picture and case of two sizes)
    is left to those warnings. The measure is doubted and never put right.
    """
    piece, formats = reading.piece, reading.formats
    if piece.kind != "cased":
        return
    forms = [form for form in knowledge.formats.values() if piece.kind in form.kinds]
    named = [form for form in forms if form.id == piece.named_format]
    two_sizes = bool(formats.case_format) and formats.best != formats.case_format
    for what, measure in piece.measured.items():
        told = formats.maybe_measured if what == "plate" else two_sizes
        if (
            told
            or len(measure.sides) < 2
            or not _far(piece, what, measure, named or forms, knowledge)
        ):
            continue
        of = f"a {named[0].name}" if named else "any size of the trade"
        yield Warning(
            "size-fits-nothing",
            f"{what} {measure} does not fit {of}: measure again, or ask what was measured",
            "size", 0.0, "", False, innocent=INNOCENT,
        )  # fmt: skip


def _far(
    piece: Piece, what: str, measure: Measure, forms: list[Format], knowledge: Knowledge
) -> bool:
    offset = offset_of(knowledge, what, piece.found("case.material"))
    if len(measure.sides) < 2:
        return False
    return offset is not None and all(_distance(form, measure, offset) > FAR for form in forms)


def _distance(form: Format, measure: Measure, offset: Offset) -> float:
    """Squared distance from the nearest nominal size, in standard deviations."""
    sides = [float(side) for side in measure.sides]
    variance = form.tolerance**2 + offset.spread**2
    return min(
        sum((s - n - a) ** 2 for s, n, a in zip(sides, size, offset.add, strict=False)) / variance
        for size in form.sizes
    )
