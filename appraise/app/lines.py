"""Text for the screen as plain values: a line is a row of (words, role) pairs.

Roles name a meaning, never a colour; `themes` gives each its look. A role may carry what a click on
its words does, after an @, as the screen library writes it: 'key@answer(2)'. What builds lines is
pure and can be read in a test as text.
"""

from collections.abc import Iterable, Sequence

from rich.cells import cell_len, set_cell_size

from appraise.app.marks import FINE, PLAIN, Marks
from appraise.base.oneline import visible
from appraise.base.wrapping import FIGURE, folded

Bit = tuple[str, str]
Line = tuple[Bit, ...]

LOOKS = {
    "": "",
    "quiet": "$quiet",
    "strong": "bold",
    "head": "bold $accent",
    "key": "bold $accent",
    "bar": "$accent",
    "warn": "bold $warn",
    "doubt": "$doubt",
    "good": "$good",
    "stop": "$warn",
    "here": "bold $paper on $accent",
    "said": "underline",
    "flagged": "bold underline $warn",
    "pointed": "on $card",
    "on-paper": "on $paper",
    "on-sheet": "on $sheet",
    "on-rail": "on $rail",
}
"""The look of each role, in the variables of the themes; a role may be several with blanks between,
and what is no role is a look by itself."""

ACT, DOES = "@", "does"  # before an action in a role, and its name in a cell of the screen
EMPTY: Line = ()


def line(*parts: str | Bit) -> Line:
    """A line from words and (words, role) pairs; empty words are left out."""
    bits = ((part, "") if isinstance(part, str) else part for part in parts)
    return tuple((visible(words), role) for words, role in bits if words)


def length(row: Line) -> int:
    """The cells that a line takes."""
    return sum(cell_len(words) for words, _ in row)


def words_of(row: Line) -> str:
    """The words of a line alone."""
    return "".join(words for words, _ in row)


def clip(text: str, room: int, marks: Marks = FINE) -> str:
    """The text cut to `room` cells, with a mark where something is missing."""
    text = " ".join(text.split())
    if cell_len(text) <= room:
        return text
    if room <= len(marks.more):
        return set_cell_size(text, max(0, room))
    kept = set_cell_size(text, room - len(marks.more))
    return unbroken(kept, text).rstrip() + marks.more


def cut(row: Line, room: int) -> Line:
    """The line cut to `room` cells; of a figure that does not fit nothing is left but a mark."""
    if length(row) <= room:
        return tuple(row)
    kept: list[Bit] = []
    for words, role in row:
        left = room - length(tuple(kept))
        if left <= 0:
            break
        kept.append((words if cell_len(words) <= left else set_cell_size(words, left), role))
    return _unbroken_row(tuple(kept), row)


def unbroken(kept: str, whole: str) -> str:
    """The beginning of a text without the figure in which it was cut.

    An amount, a range and a date are each one figure: part of it would be another one.
    """
    place = len(kept)
    if not whole.startswith(kept):  # half of a wide sign became a blank
        return kept
    inside = (one.start() for one in FIGURE.finditer(whole) if one.start() < place < one.end())
    return kept[: next(inside, place)]


def _unbroken_row(kept: Line, whole: Line) -> Line:
    words = words_of(kept)
    short = unbroken(words, words_of(whole))
    if short == words:
        return kept
    room, out, left = cell_len(words), list[Bit](), len(short)
    for text, role in kept:
        out.append((text[:left], role))
        left -= len(text[:left])
    gap = room - cell_len(short)
    return line(*out, (f"{PLAIN.more[:gap]:<{gap}}", "quiet"))


def fill(row: Line, room: int) -> Line:
    """The line cut or filled with blanks to exactly `room` cells."""
    short = cut(row, room)
    return (*short, (" " * (room - length(short)), ""))


def ends(left: Line, right: Line, room: int) -> Line:
    """One line with a part at either end; the right one stays whole, the left one is cut."""
    space = room - length(right)
    if space < 1:
        return cut(right, room)
    gap = min(2, space - 1)
    return (*fill(left, space - gap), (" " * gap, ""), *right)


def fold(text: str, room: int, lead: str = "", role: str = "", lead_role: str = "") -> list[Line]:
    """The text in lines of at most `room` cells, the lead before the first, blanks before others.

    A word wider than the room is cut where it must be; a figure stays in one line if it can.
    """
    rows = folded(text, max(1, room - cell_len(lead)), cell_len)
    blank = " " * cell_len(lead)
    return [
        line((blank if place else lead, lead_role), (row, role)) for place, row in enumerate(rows)
    ]


def fold_to(text: str, room: int, most: int, marks: Marks = FINE) -> list[str]:
    """The text in at most so many lines, the last one cut where there is more."""
    rows = [words_of(row) for row in fold(text, room)]
    if len(rows) <= most:
        return rows
    return [*rows[: most - 1], clip(" ".join(rows[most - 1 :]), room, marks)]


def beside(
    left: Sequence[Line], right: Sequence[Line], widths: tuple[int, int], rows: int, wall: str
) -> list[Line]:
    """Two columns of `rows` lines with a wall between them; what is longer is cut."""
    out = []
    for place in range(rows):
        one = left[place] if place < len(left) else EMPTY
        two = right[place] if place < len(right) else EMPTY
        out.append((*fill(one, widths[0]), (wall, "quiet"), *cut(two, widths[1])))
    return out


def spread(groups: Sequence[Line], room: int, gap: int = 2) -> list[Line]:
    """Groups of words side by side, each whole; one that does not fit begins another line."""
    out: list[Line] = []
    for group in groups:
        if out and length(out[-1]) + gap + length(group) <= room:
            out[-1] = (*out[-1], (" " * gap, ""), *group)
        else:
            out.append(group)
    return out


def inset(rows: Iterable[Line]) -> list[Line]:
    """The lines moved in from the left by a cell."""
    return [((" ", ""), *row) for row in rows]


def does(row: Line, act: str) -> Line:
    """The line, with what a click anywhere on its words does."""
    return tuple((words, f"{role}{ACT}{act}") for words, role in row)


def grounded(row: Line, ground: str) -> Line:
    """The line on another ground."""
    parted = ((words, *role.partition(ACT)) for words, role in row)
    return tuple(
        (words, f"{name} {ground}{sign}{act}".strip()) for words, name, sign, act in parted
    )
