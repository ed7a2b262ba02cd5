"""Things told by a mark: parts of a piece in a rail, and the sides of its condition in one row."""

from __future__ import annotations

from collections.abc import Sequence

from appraise.app.lines import EMPTY, Line, clip, does, fill, length, line
from appraise.app.marks import DOUBT, ORDER, UNSEEN, WARN, Marks
from appraise.base.dataclass import dataclass

ROLES = {WARN: "warn", DOUBT: "doubt", ORDER: "good", UNSEEN: "quiet"}


@dataclass(frozen=True, slots=True)
class PartMark:
    """A thing with its mark.

    Attributes:
        name: What it is called.
        state: One of the states of `marks`.
        told: A count or a word beside the mark.
        act: What a click on it does.
    """

    name: str
    state: str
    told: str = ""
    act: str = ""


def rail(parts: Sequence[PartMark], at: int, width: int, height: int, marks: Marks) -> list[Line]:
    """A line for each part, in `height` lines around the one that is looked at.

    Args:
        parts: In their order.
        at: The place of the part that is looked at, or -1.
        width: Cells of each line.
        height: Lines in all.
        marks: The signs to draw with.
    """
    first = max(0, min(at - height // 2, len(parts) - height))
    return [
        _rail_row(part, place == at, width, marks)
        for place, part in enumerate(parts)
        if first <= place < first + height
    ]


def _rail_row(part: PartMark, here: bool, width: int, marks: Marks) -> Line:
    sign = (f"{marks.sign(part.state)}", ROLES[part.state])
    lead, role = (f"{marks.here} ", "head") if here else ("  ", "")
    room = max(1, width - len(lead) - 2 - len(part.told) - 1)
    name = f"{clip(part.name, room, marks):<{room}}"
    row = line((lead, role), (name, role), " ", sign, " ", (part.told, "quiet"))
    return does(fill(row, width), part.act) if part.act else row


def strip(parts: Sequence[PartMark], at: int, width: int, marks: Marks) -> Line:
    """The same in one line: as many parts as fit around the one that is looked at."""
    rows = [_strip_part(part, place == at, marks) for place, part in enumerate(parts)]
    if not rows:
        return EMPTY
    room = width - 2 * (len(marks.more) + 1)
    here = max(0, at)
    first, last = here, here + 1
    while last < len(rows) or first > 0:
        wider = [(first, min(len(rows), last + 1)), (max(0, first - 1), last)]
        grown = [
            (a, b)
            for a, b in wider
            if (a, b) != (first, last) and sum(map(length, rows[a:b])) + b - a <= room
        ]
        if not grown:
            break
        first, last = min(grown, key=lambda pair: abs(sum(pair) - 2 * here - 1))
    out: list[tuple[str, str]] = [(f"{marks.more if first else ' '}", "quiet")]
    for row in rows[first:last]:
        out += [(" ", ""), *row]
    return (*out, (f" {marks.more}" if last < len(rows) else "", "quiet"))


def _strip_part(part: PartMark, here: bool, marks: Marks) -> Line:
    name = (part.name, "head" if here else "quiet")
    row = line(
        (marks.here if here else " ", "head"),
        name,
        " ",
        (marks.sign(part.state), ROLES[part.state]),
    )
    return does(row, part.act) if part.act else row


def mark_row(lead: str, sides: Sequence[PartMark], width: int, marks: Marks) -> Line:
    """The sides in one line, each by name, mark and count; counts and lead go first."""
    for before, told, gap in ((lead, True, 2), (lead, False, 2), (lead, False, 1), ("", False, 1)):
        row = line((before, "quiet"))
        for side in sides:
            sign = (f" {marks.sign(side.state)}", ROLES[side.state])
            count = (f" {side.told}" if told and side.told else "", "")
            row = (*row, *line(" " * gap if row else "", (side.name, "quiet"), sign, count))
        if length(row) <= width:
            return row
    return row
