"""The drawn timeline: a row for each dated part with its flanks, and the combined date below."""

from collections.abc import Sequence

from appraise.app.lines import Line, line
from appraise.app.marks import DOUBT
from appraise.documents.timeline import Axis, axis_for, between, dated_parts, labels, row_of
from appraise.reading.reading import Reading
from appraise.reading.spans import Span

__all__ = ["LABEL", "between", "timeline"]

LABEL = 10  # cells


def timeline(reading: Reading, order: Sequence[str], width: int, rows: int) -> list[Line]:
    """Axis, `rows` lines for parts (blank where there are fewer) and the combined date.

    Args:
        reading: The reading.
        order: The parts in the order in which they are drawn.
        width: Cells in all; the labels take ten of them.
        rows: Lines for parts. Where there are more, the odd part and the first ones stay.
    """
    found = dated_parts(reading)
    combined = reading.combined
    ends = [year for parts in found.values() for one in parts for year in (one.first, one.last)]
    axis = axis_for([*ends, combined.first, combined.last], max(8, width - LABEL - 2))
    odd = reading.odd_one_out.part if reading.odd_one_out else ""
    shown = [part for part in order if part in found]
    while len(shown) > rows:
        shown.remove(next(part for part in reversed(shown) if part != odd or len(shown) == 1))
    out = [line((" " * LABEL + labels(axis), "quiet"))]
    for part in shown:
        mark = f" {DOUBT}" if part == odd else ""
        drawn = row_of(found[part], axis)
        out.append(line((f"{part:<{LABEL}}", "quiet"), (drawn, "bar"), (mark, "doubt")))
    out += [line()] * (rows - len(shown))
    out.append(_combined(combined, axis))
    return out


def _combined(span: Span, axis: Axis) -> Line:
    """The combined date, its years written where there is room."""
    start, end = axis.cell(span.first), axis.cell(span.last)
    carets, told = "^" * (end - start + 1), between(span)
    label = (f"{'combined':<{LABEL}}", "quiet")
    if axis.cells - end > len(told) + 1:
        return line(label, " " * start, (carets, "strong"), f" {told}")
    if start > len(told):
        return line(label, f"{told:>{start - 1}} ", (carets, "strong"))
    return line(label, " " * start, (carets, "strong"))
