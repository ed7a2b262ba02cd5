"""The Bench as lines: three lists, side by side where there is room, else one at a time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rich.cells import cell_len

from appraise.app.lines import EMPTY, Line, clip, cut, ends, fill, fold, line
from appraise.app.marks import Marks
from appraise.records.part import Part
from appraise.records.repair import Repair
from appraise.records.want import Want

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.records.stored import Stored

WIDE = 108  # cells from which the lists stand side by side
ABOVE = 2  # lines of names above a list
LOW = 4  # lines up to which a list stands without its name
REVERSIBLE = {"yes": "can be undone", "slow": "hard to undo", "no": "cannot be undone"}


@dataclass(frozen=True, slots=True)
class BenchRow:
    """One record on the bench.

    Attributes:
        id: In the log.
        text: What it is called.
        note: What matters of it beside that.
    """

    id: str
    text: str
    note: str


@dataclass(frozen=True, slots=True)
class BenchColumn:
    """One list.

    Attributes:
        name: What is in it.
        rows: In their order.
        empty: What to say where there are none.
        more: How many are not shown.
    """

    name: str
    rows: tuple[BenchRow, ...]
    empty: str
    more: int = 0


def part_row(held: Stored[Part], knowledge: Knowledge | None) -> BenchRow:
    """A part in stock."""
    part = held.thing
    spare = knowledge.spares.get(part.part) if knowledge else None
    count = "used up" if not part.count else f"{part.count} x" if part.count > 1 else ""
    made = "" if part.made in ("", "period") else part.made.replace("-", " ")
    told = [count, spare.name if spare else part.part, made, part.place]
    return BenchRow(held.id, part.title, ", ".join(filter(None, told)))


def work_row(held: Stored[Repair]) -> BenchRow:
    """A work."""
    work = held.thing
    when = f"since {work.begun}" if work.done is None else f"done {work.done}"
    hand = "" if work.by == "self" else work.who or work.by
    told = [when, REVERSIBLE.get(work.reversible, ""), hand]
    return BenchRow(held.id, work.title, ", ".join(filter(None, told)))


def want_row(held: Stored[Want]) -> BenchRow:
    """A wish."""
    want = held.thing
    years = (
        "" if want.first is None and want.last is None else f"{want.first or ''}-{want.last or ''}"
    )
    most = f"at most {want.most}" if want.most else ""
    return BenchRow(
        held.id, want.title, ", ".join(filter(None, (most, years, ", ".join(want.formats))))
    )


def bench_lines(
    columns: Sequence[BenchColumn], which: int, at: int, size: tuple[int, int], marks: Marks
) -> list[Line]:
    """The lists in `size`: cells across and lines; the line one is at lies in column `which`."""
    width, rows = size
    if width < WIDE:
        above = [_names(columns, which, width), EMPTY] if rows > LOW else []
        room = max(1, rows - len(above))
        return [*above, *_single(columns[which], at, width, room, marks)][:rows]
    each = (width - 8) // 3
    drawn = [
        _stacked(one, at if place == which else -1, each, rows, marks)
        for place, one in enumerate(columns)
    ]
    out: list[Line] = []
    for place in range(min(rows, max(map(len, drawn)))):
        cells = [column[place] if place < len(column) else EMPTY for column in drawn]
        first, second, third = (fill(cell, each) for cell in cells)
        out.append(((" ", ""), *first, ("   ", ""), *second, ("   ", ""), *third))
    return out


def _names(columns: Sequence[BenchColumn], which: int, width: int) -> Line:
    """The names of the lists with their numbers and how many are in each, the shown one strong."""
    bits: list[tuple[str, str]] = [(" ", "")]
    for place, one in enumerate(columns):
        role = "head" if place == which else "quiet"
        bits += [(str(place + 1), "key"), (f" {one.name} {len(one.rows)}", role), ("   ", "")]
    return cut(tuple(bits), width)


def _single(column: BenchColumn, at: int, width: int, rows: int, marks: Marks) -> list[Line]:
    """A list by itself, a line for each record."""
    if not column.rows:
        return [*fold(column.empty, max(1, width - 4), "  "), *_more(column)]
    top = max(0, min(at - rows // 2, len(column.rows) - rows))
    out: list[Line] = []
    for place, one in enumerate(column.rows[top : top + rows], start=top):
        here = place == at
        sign = marks.here if here else " "
        note = clip(one.note, max(width * 2 // 5, width - cell_len(one.text) - 8), marks)
        row = ends(
            line(f" {sign} ", clip(one.text, max(1, width - len(note) - 7), marks)),
            line((note, "" if here else "quiet"), " "),
            width,
        )
        out.append(tuple((text, "here") for text, _ in fill(row, width)) if here else row)
    return [*out, *_more(column)] if len(out) < rows else out


def _stacked(column: BenchColumn, at: int, width: int, rows: int, marks: Marks) -> list[Line]:
    """A list as a column, two lines for each record."""
    role = "head" if at >= 0 else "strong"
    out = [line((f"{column.name} {len(column.rows)}", role)), EMPTY]
    if not column.rows:
        return [*out, *fold(column.empty, width), *_more(column)]
    room = max(1, (rows - ABOVE) // 2)
    top = max(0, min(max(0, at) - room // 2, len(column.rows) - room))
    for place, one in enumerate(column.rows[top : top + room], start=top):
        here = place == at
        sign = marks.here if here else " "
        text = line(f"{sign} ", clip(one.text, max(1, width - 2), marks))
        out.append(tuple((bit, "here") for bit, _ in fill(text, width)) if here else text)
        out.append(line("  ", (clip(one.note, max(1, width - 2), marks), "quiet")))
    return [*out, *_more(column)]


def _more(column: BenchColumn) -> list[Line]:
    if not column.more:
        return []
    return [line("  ", (f"{column.more} more: ", "quiet"), ("a", "key"))]
