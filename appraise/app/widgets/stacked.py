"""One stacked bar with its parts named under it."""

from __future__ import annotations

from collections.abc import Sequence

from appraise.app.lines import Line, line, spread
from appraise.app.marks import Marks
from appraise.base.dataclass import dataclass
from appraise.base.percents import percent

TOLD, LISTED = 0.005, 0.01  # a share that is drawn at all, and one that is always named


@dataclass(frozen=True, slots=True)
class BarPart:
    """A part of the bar: what it is, its share of 1, and the role of its tone."""

    name: str
    share: float
    role: str


def stacked(parts: Sequence[BarPart], width: int, marks: Marks, rows: int = 2) -> list[Line]:
    """The bar, and its parts by name and share in the lines that are left, each part whole."""
    drawn = [part for part in parts if part.share >= TOLD]
    cells = shared_out([part.share for part in drawn], max(1, width - len(drawn) + 1))
    bar: Line = ()
    for n, (part, many) in enumerate(zip(drawn, cells, strict=True)):
        fill = marks.fills[min(n, len(marks.fills) - 1)]
        bar = (*bar, *line(" " if n else "", (fill * many, part.role)))
    told = [
        line((f"{part.name} ", part.role), (percent(part.share), "" if n else "strong"))
        for n, part in enumerate(parts)
    ]
    listed = [row for row, part in zip(told, parts, strict=True) if part.share >= LISTED]
    forms = [spread(told, width), spread(told, width, 1), spread(listed, width, 1)]
    named = next((form for form in forms if len(form) < rows), forms[-1])
    return [bar, *named][:rows]


def shared_out(shares: Sequence[float], cells: int) -> list[int]:
    """Cells for each share, in sum all of them; a share that can be told has one at least."""
    out = [max(1, int(share * cells)) if share >= TOLD else 0 for share in shares]
    left = cells - sum(out)
    while left:
        order = range(len(out))
        if left > 0:
            place = max(order, key=lambda n: shares[n] * cells - out[n])
        else:
            place = max(order, key=lambda n: (out[n] > 1, out[n] - shares[n] * cells))
        out[place] += 1 if left > 0 else -1
        left += -1 if left > 0 else 1
    return out
