"""The band on top: the verdict in its one sentence, whole wherever there is room for all of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from appraise.app.lines import EMPTY, Line, fold, fold_to, line
from appraise.verdict.headline import DOUBTFUL, STOP

if TYPE_CHECKING:
    from appraise.app.examine.shown import Shown
    from appraise.verdict import Verdict

ROWS, TALL_ROWS = 2, 3  # lines kept for it, in a low screen and in a tall one
TALL, SMALL = 28, 14  # lines of a screen from which it is tall, and below which there is one line
ROLES = {STOP: "warn", DOUBTFUL: "doubt"}


def band(verdict: Verdict | None, shown: Shown, width: int, height: int) -> list[Line]:
    """The sentence in a number of lines that hangs on the size of the screen alone.

    What to do about the price stands in it where amounts may be seen and all of it has room;
    elsewhere it stands below. Of several images, the piece's own sentence is that of the worse.
    """
    rows = rows_for(height)
    if verdict is None:
        return [line(("reading ...", "quiet")), *[EMPTY] * (rows - 1)]
    told = verdict.headline
    whole = str(told) if shown.money and shown.learnt else told.what
    says = whole if len(fold(whole, width)) <= rows else told.what
    role = ROLES.get(told.tone, "strong")
    out = [line((row, role)) for row in fold_to(says, width, rows, shown.marks)]
    return [*out, *[EMPTY] * (rows - len(out))]


def rows_for(height: int) -> int:
    """How many lines are kept for it on a screen of so many."""
    return 1 if height < SMALL else TALL_ROWS if height >= TALL else ROWS
