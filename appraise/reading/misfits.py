"""Measures that fit no size of the trade, or not the size that the piece is said to be."""

from collections.abc import Iterator

from appraise.knowledge.records import Knowledge
from appraise.reading.fits import far, offset_of
from appraise.reading.plain_warnings import Warning
from appraise.reading.reading import Reading

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
            or offset_of(knowledge, what, piece.found("case.material")) is None
            or not all(far(form, what, piece, knowledge) for form in named or forms)
        ):
            continue
        of = f"a {named[0].name}" if named else "any size of the trade"
        yield Warning(
            "size-fits-nothing",
            f"{what} {measure} does not fit {of}: measure again, or ask what was measured",
            "size", 0.0, "", False, innocent=INNOCENT,
        )  # fmt: skip
