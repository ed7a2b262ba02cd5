"""The top of the verdict panel: the verdict in a sentence, then the warnings, strong ones first."""

from __future__ import annotations

from typing import TYPE_CHECKING

from appraise.app.lines import EMPTY, Line, fold_to, line
from appraise.app.marks import DOUBT, WARN, Marks
from appraise.verdict.headline import DOUBTFUL, STOP

if TYPE_CHECKING:
    from appraise.app.examine.shown import Shown
    from appraise.verdict import Verdict

HEAD_TALL, HEAD_LOW, HEAD_LEAST = 5, 3, 2  # lines kept for the headline, in the same panels
LOW, TALL, LEAST = 3, 6, 1  # lines kept for warnings: in a low panel, a tall one, a tiny one
ROOM = 18  # lines of a panel from which it is not tiny
EACH = 2  # lines of one warning
NONE = "no warnings so far"


def top_lines(verdict: Verdict, shown: Shown, width: int, height: int, tall: bool) -> list[Line]:
    """The headline and the warnings, each in a fixed number of lines.

    What to do about the price stands in it only where there is room for all of it; elsewhere the
    amounts stand below, whole.
    """
    told, marks = verdict.headline, shown.marks
    says = str(told) if tall and shown.money else told.what
    role = {STOP: "warn", DOUBTFUL: "doubt"}.get(told.tone, "strong")
    room = HEAD_TALL if tall else HEAD_LOW if height >= ROOM else HEAD_LEAST
    head = [line((row, role)) for row in fold_to(says, width, room, marks)]
    head += [EMPTY] * (room - len(head))
    rows = TALL if tall else LOW if height >= ROOM else LEAST
    return [*head, *_warnings(verdict, marks, width, rows)]


def _warnings(verdict: Verdict, marks: Marks, width: int, rows: int) -> list[Line]:
    told = verdict.warnings
    out: list[Line] = [] if told else [line((NONE, "quiet"))]
    for place, one in enumerate(told):
        mark, role = (WARN, "warn") if one.strong else (DOUBT, "doubt")
        room = rows - len(out) - (place + 1 < len(told))
        block = fold_to(one.says, max(1, width - 2), max(1, min(EACH, room)), marks)
        if len(out) + len(block) > rows - (place + 1 < len(told)):
            more = (f"  and {len(told) - place} more: ", "quiet"), ("w", "key")
            out = [*out[: rows - 1], line(*more)]
            break
        out.append(line((f"{mark} ", role), block[0]))
        out += [line("  ", row) for row in block[1:]]
    return [*out, *[EMPTY] * (rows - len(out))][:rows]
