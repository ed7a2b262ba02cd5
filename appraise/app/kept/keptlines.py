"""Kept pieces as lines: the table and its foot."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rich.cells import cell_len

from appraise.app.lines import EMPTY, Line, clip, cut, ends, line
from appraise.app.marks import WARN, Marks
from appraise.base.dates import year_range
from appraise.collection.upkeep import Due
from appraise.records.owned import OwnedPiece
from appraise.records.stored import Stored

SIGN = 3  # cells before the first column: where one is, a warning, and a blank
ROOMY, MIDDLE, NARROW, SMALL, LEAST = 72, 56, 44, 36, 28  # cells from which there are more columns
WIDE = 110  # cells from which a place has more room
SOON = 90  # days within which something that is due is shown in the table
SHORT = {"on-show": "exhibited", "with-conservator": "conserv.", "for-sale": "for sale"}
DUE_WORDS = {"look": "look", "loan": "back", "return": "return", "origin": "origin"}


@dataclass(frozen=True, slots=True)
class KeptList:
    """What the table shows.

    Attributes:
        pieces: In order.
        dues: What is due of each, by its id.
        at: The place one is at.
        of: How many there are without the filter.
        query: The filter.
        why: Why the filter cannot be read; empty where it can.
    """

    pieces: Sequence[Stored[OwnedPiece]]
    dues: dict[str, tuple[Due, ...]]
    at: int
    of: int
    query: str
    why: str = ""


def columns(width: int) -> tuple[tuple[str, int], ...]:
    """The columns that fit, with their cells; the title takes what the others leave."""
    left = [("number", 6)] if width >= SMALL else []
    right = [
        *([("place", 14 if width < WIDE else 28)] if width >= ROOMY else []),
        *([("status", 9)] if width >= NARROW else []),
        *([("made", 9)] if width >= MIDDLE else []),
        *([("due", 12)] if width >= LEAST else []),
    ]
    used = SIGN + sum(cells + 1 for _, cells in (*left, *right))
    return (*left, ("title", max(4, width - used - 1)), *right)


def heading(width: int) -> Line:
    """The names of the columns."""
    told = " ".join(f"{name:<{cells}}"[:cells] for name, cells in columns(width))
    return cut(line((" " * SIGN + told, "quiet")), width)


def table(shelf: KeptList, rows: int, width: int, marks: Marks) -> list[Line]:
    """The lines around the one that one is at."""
    top = max(0, min(shelf.at - rows // 2, len(shelf.pieces) - rows))
    window = shelf.pieces[top : top + rows]
    return [
        _row(one, shelf.dues.get(one.id, ()), top + place == shelf.at, width, marks)
        for place, one in enumerate(window)
    ]


def _row(
    one: Stored[OwnedPiece], dues: Sequence[Due], here: bool, width: int, marks: Marks
) -> Line:
    urgent = bool(dues) and dues[0].now
    signs = f"{marks.here if here else ' '}{WARN if urgent else ' '} "
    role = "here" if here else "" if one.thing.owned else "quiet"
    cells = [
        _padded(clip(_cell(one.thing, name, dues), room, marks), room)
        for name, room in columns(width)
    ]
    return cut(line((signs + " ".join(cells), role)), width)


def _padded(text: str, room: int) -> str:
    return text + " " * (room - cell_len(text))


def _cell(kept: OwnedPiece, name: str, dues: Sequence[Due]) -> str:
    if name == "made":
        return years(kept.dated)
    if name == "due":
        return due_word(dues)
    if name == "status":
        return SHORT.get(kept.status, kept.status)
    return str(getattr(kept, name))


def years(dated: str) -> str:
    """The years of a date in few cells: '1855-62'."""
    if not dated:
        return ""
    first, last = year_range(dated, 0)
    if first == last:
        return str(first)
    if first and last and first // 100 == last // 100:
        return f"{first}-{last % 100:02}"
    return f"{first or ''}-{last or ''}"


def due_word(dues: Sequence[Due]) -> str:
    """What presses most, in few cells; empty where nothing is due soon."""
    if not dues or dues[0].left > SOON:
        return ""
    first = dues[0]
    word = DUE_WORDS[first.sort]
    if first.on is None:
        return f"{word} now"
    return f"{word} now" if first.left <= 0 else f"{word} in {first.left} d"


def foot(shelf: KeptList, order: str, width: int) -> Line:
    """How many there are, how many want something, and the order."""
    if shelf.why:
        return line(" ", (clip(shelf.why, width - 2), "warn"))
    many = "1 piece" if len(shelf.pieces) == 1 else f"{len(shelf.pieces)} pieces"
    of = f" of {shelf.of}" if shelf.query else ""
    gone = sum(1 for one in shelf.pieces if not one.thing.owned)
    of += f", {gone} no longer owned" if gone else ""
    now = sum(1 for one in shelf.pieces if any(each.now for each in shelf.dues.get(one.id, ())))
    told = line(f" {many}{of}", (f"   {now} with something due" if now else "", "doubt"))
    return ends(told, line((f"by {order} ", "quiet")), width)


def nothing(shelf: KeptList) -> list[Line]:
    """What stands in an empty table."""
    if shelf.query:
        return [EMPTY, line("  No piece matches the filter; ", ("esc", "key"), " clears it.")]
    return [
        EMPTY,
        line("  Nothing here yet. ", ("n", "key"), " adds a purchase from the log,"),
        line("  ", ("N", "key"), " any other piece."),
    ]
