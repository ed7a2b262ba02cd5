"""The warnings of a verdict at the top of its panel, strong ones first."""

from __future__ import annotations

from typing import TYPE_CHECKING

from appraise.app.lines import EMPTY, Line, fold_to, line
from appraise.app.marks import DOUBT, WARN, Marks

if TYPE_CHECKING:
    from appraise.verdict import Verdict

LOW, TALL, LEAST = 4, 8, 1  # lines kept: in a low panel, in a tall one, in a tiny one
ROOM = 16  # lines of a panel from which it is not tiny
EACH = 2  # lines of one warning
NONE = "no warnings so far"


def warning_lines(
    verdict: Verdict, marks: Marks, width: int, height: int, tall: bool
) -> list[Line]:
    """The warnings in a fixed number of lines; the last line says how many there is no room for."""
    rows = TALL if tall else LOW if height >= ROOM else LEAST
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
