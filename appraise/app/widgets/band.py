"""The band on top: the answer in its one sentence on the ground of its tone."""

from __future__ import annotations

from collections.abc import Sequence

from appraise.app.lines import EMPTY, Line, fold, fold_to, line
from appraise.app.marks import DOUBT, ORDER, WARN, Marks
from appraise.verdict.headline import DOUBTFUL, STOP, Headline

ROWS, SMALL = 2, 14  # lines kept for it, and of a screen below which there is one line
TONES = {STOP: WARN, DOUBTFUL: DOUBT}
LEAD = 3  # cells before the sentence: the mark of its tone stands there


def rows_for(height: int) -> int:
    """How many lines are kept for it on a screen of so many."""
    return 1 if height < SMALL else ROWS


def band(told: Sequence[str], tone: str, width: int, rows: int, marks: Marks) -> list[Line]:
    """The sentence in so many lines, the mark of its tone before it.

    Args:
        told: The sentence, and shorter forms of it for where it has no room; empty until the first
            has come.
        tone: Of the headline.
        width: Cells of each line.
        rows: Lines kept for it.
        marks: The signs to draw with.
    """
    if not told:
        return [line((" reading ...", "quiet")), *[EMPTY] * (rows - 1)]
    room = max(1, width - LEAD)
    says = next((one for one in told if len(fold(one, room)) <= rows), told[-1])
    sign = marks.sign(TONES.get(tone, ORDER))
    first, *rest = fold_to(says, room, rows, marks)
    out = [line((f" {sign} ", "strong"), (first, "strong"))]
    out += [line(" " * LEAD, (row, "strong")) for row in rest]
    return [*out, *[EMPTY] * (rows - len(out))]


def forms_of(headline: Headline | None, missing: str, money: bool) -> list[str]:
    """The sentence of a verdict, whole, without what is missing, and without the price.

    Args:
        headline: None until the first has come.
        missing: What the limit still waits for.
        money: Whether amounts may be seen.
    """
    if headline is None:
        return []
    whole = str(headline)
    shorter = whole.replace(f": {missing}", "") if missing else whole
    return [*([whole, shorter] if money else []), headline.what]
