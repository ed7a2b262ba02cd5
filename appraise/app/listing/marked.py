"""A text with numbered places marked in it, folded a block at a time.

Only what is drawn is folded, so a text of a million characters costs no more to show than a short
one. A position is a block and a line within it.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections import OrderedDict
from collections.abc import Iterator, Sequence

from rich.cells import cell_len

from appraise.app.discretion import dotted
from appraise.app.lines import Bit, Line
from appraise.app.marks import PLAIN, Marks
from appraise.base.dataclass import dataclass

Position = tuple[int, int]
Sign = tuple[str, str, int]  # a character, its role, and where it stands in the text

CHUNK = 1200  # characters of a block at most
KEPT = 160  # folded blocks that are kept
_BLOCK = re.compile(rf"[^\n]{{1,{CHUNK}}}(?:\n|\s|$)|[^\n]{{1,{CHUNK}}}|\n")
_SOFT = re.compile(r"(?<=[^\n]{40})\n(?=[a-z])")
"""A line break within a sentence, as e-mails have them: the pane folds by its own width."""
_RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
CLAIM, FLAG = ("[", "]"), ("{", "}")
HERE, HERE_PLAIN = ("›", "‹"), (">", "<")
"""Round what claims, round what flags, and round what one is at; all as wide as each other."""


@dataclass(frozen=True, slots=True)
class Place:
    """A stretch of the text that something is said about; its number is its place in the row.

    Attributes:
        start: Where it starts.
        end: Where it ends, not included.
        flag: Whether a flag stands here; else only claims.
        sign: How grave: '!', '?' or nothing.
    """

    start: int
    end: int
    flag: bool
    sign: str


class Marked:
    """A text and its places; folds what is asked for.

    Attributes:
        amounts: Where amounts stand.
        hides: Whether they are hidden.
    """

    def __init__(
        self, text: str, places: Sequence[Place], amounts: Sequence[tuple[int, int]] = ()
    ) -> None:
        self.text = text = _SOFT.sub(" ", text)
        self.amounts = amounts
        self.hides = False
        self.places = tuple(places)
        self._starts = [match.start() for match in _BLOCK.finditer(text)] or [0]
        self._within: dict[int, list[int]] = {}
        for number, place in enumerate(places):
            last = self.block_of(max(place.start, place.end - 1))
            for block in range(self.block_of(place.start), last + 1):
                self._within.setdefault(block, []).append(number)
        self._folded: OrderedDict[tuple[int, int, int, bool, bool], list[list[Sign]]] = (
            OrderedDict()
        )

    @property
    def blocks(self) -> int:
        return len(self._starts)

    def block_of(self, at: int) -> int:
        """The block in which a character stands."""
        return max(0, bisect_right(self._starts, at) - 1)

    def rows(self, block: int, width: int, here: int, marks: Marks) -> list[list[Sign]]:
        """A block in lines of at most `width` cells; the place `here` is marked as the current."""
        shown = here if here in self._within.get(block, ()) else -1
        key = (block, width, shown, marks is PLAIN, self.hides)
        if key in self._folded:
            self._folded.move_to_end(key)
            return self._folded[key]
        rows = list(_folded(list(self._signs(block, shown, marks)), max(1, width)))
        self._folded[key] = rows
        if len(self._folded) > KEPT:
            self._folded.popitem(last=False)
        return rows

    def window(self, top: Position, height: int, width: int, here: int, marks: Marks) -> list[Line]:
        """The lines from a position on."""
        out: list[Line] = []
        block, row = top
        while block < self.blocks and len(out) < height:
            rows = self.rows(block, width, here, marks)
            out += [_line(signs) for signs in rows[row : row + height - len(out)]]
            block, row = block + 1, 0
        return out

    def moved(self, top: Position, by: int, width: int, marks: Marks) -> Position:
        """The position so many lines on, within the text."""
        block, row = min(top[0], self.blocks - 1), top[1] + by
        while row < 0 and block > 0:
            block -= 1
            row += len(self.rows(block, width, -1, marks))
        while row >= (many := len(self.rows(block, width, -1, marks))):
            if block + 1 >= self.blocks:
                return block, many - 1
            block, row = block + 1, row - many
        return block, max(0, row)

    def filled(self, top: Position, height: int, width: int, marks: Marks) -> Position:
        """The position, or the last one from which the text still fills so many lines."""
        end = (self.blocks - 1, len(self.rows(self.blocks - 1, width, -1, marks)) - 1)
        return min(top, self.moved(end, 1 - height, width, marks))

    def shows(self, top: Position, height: int, width: int, at: Position, marks: Marks) -> bool:
        """Whether a position is among so many lines from `top` on."""
        if at < top:
            return False
        lines = -top[1]
        for block in range(top[0], at[0]):
            lines += len(self.rows(block, width, -1, marks))
            if lines >= height:
                return False
        return lines + at[1] < height

    def position(self, at: int, width: int, marks: Marks) -> Position:
        """The position of the line in which a character stands."""
        block = self.block_of(at)
        rows = self.rows(block, width, -1, marks)
        found = 0
        for number, signs in enumerate(rows):
            if signs and signs[0][2] <= at:
                found = number
        return block, found

    def start_of(self, at: Position, width: int, marks: Marks) -> int:
        """The first character of the line at a position."""
        rows = self.rows(at[0], width, -1, marks)
        signs = rows[min(at[1], len(rows) - 1)]
        return signs[0][2] if signs else self._starts[at[0]]

    def number(self, place: int, marks: Marks) -> str:
        """The number of a place as it stands in the text."""
        told = str(place + 1)
        return told if marks is PLAIN else told.translate(_RAISED)

    def _signs(self, block: int, here: int, marks: Marks) -> Iterator[Sign]:
        """The characters of a block with the marks of its places between them."""
        low = self._starts[block]
        high = self._starts[block + 1] if block + 1 < self.blocks else len(self.text)
        inside = self._within.get(block, [])
        opens: dict[int, list[int]] = {}
        closes: dict[int, list[int]] = {}
        for number in inside:
            opens.setdefault(self.places[number].start, []).append(number)
            closes.setdefault(self.places[number].end, []).insert(0, number)
        for at in range(low, high + 1):
            for number in closes.get(at, ()):
                yield from self._edge(number, at, here, marks, closing=True)
            if at == high:
                return
            for number in opens.get(at, ()):
                yield from self._edge(number, at, here, marks, closing=False)
            sign = dotted(self.text[at]) if self._hidden(at) else self.text[at]
            yield sign, self._role(at, inside, here), at

    def _edge(
        self, number: int, at: int, here: int, marks: Marks, *, closing: bool
    ) -> Iterator[Sign]:
        place = self.places[number]
        pair = FLAG if place.flag else CLAIM
        if number == here:
            pair = HERE_PLAIN if marks is PLAIN else HERE
        role = "here" if number == here else "key"
        if not closing:
            yield pair[0], role, at
            return
        for sign in f"{pair[1]}{place.sign}{self.number(number, marks)}":
            yield sign, role, max(place.start, at - 1)

    def _hidden(self, at: int) -> bool:
        """Whether a character stands in an amount that is hidden."""
        return self.hides and any(start <= at < end for start, end in self.amounts)

    def _role(self, at: int, inside: Sequence[int], here: int) -> str:
        covering = [n for n in inside if self.places[n].start <= at < self.places[n].end]
        if here in covering:
            return "here"
        if any(self.places[n].flag for n in covering):
            return "flagged"
        return "said" if covering else ""


def _folded(signs: Sequence[Sign], width: int) -> Iterator[list[Sign]]:
    """The characters in lines; a word wider than a line is cut where it must be."""
    row: list[Sign] = []
    room = width
    blank: Sign | None = None
    for word in _words(signs):
        if word[0][0].isspace():
            blank = word[0]
            continue
        wide = sum(cell_len(sign[0]) for sign in word)
        if row and wide + (blank is not None) > room:
            yield row
            row, room, blank = [], width, None
        if row and blank is not None:
            row.append((" ", blank[1], blank[2]))
            room -= 1
        blank = None
        for sign in word:
            cells = cell_len(sign[0])
            if row and cells > room:
                yield row
                row, room = [], width
            row.append(sign)
            room -= cells
    yield row


def _words(signs: Sequence[Sign]) -> Iterator[list[Sign]]:
    """Runs of blanks and of anything else, in turn."""
    run: list[Sign] = []
    for sign in signs:
        if run and run[-1][0].isspace() != sign[0].isspace():
            yield run
            run = []
        run.append(sign)
    if run:
        yield run


def _line(signs: Sequence[Sign]) -> Line:
    """Characters with one role after another joined."""
    bits: list[Bit] = []
    for char, role, _ in signs:
        if bits and bits[-1][1] == role:
            bits[-1] = (bits[-1][0] + char, role)
        else:
            bits.append((char, role))
    return tuple(bits)
