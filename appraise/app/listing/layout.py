"""The panes of the Listing screen as lines, and how it is divided, for any size of terminal."""

from __future__ import annotations

from appraise.app.discretion import DOTS, dotted
from appraise.app.examine.panel import NONE, panel
from appraise.app.examine.screen import verdict_band
from appraise.app.examine.shown import Shown
from appraise.app.lines import EMPTY, Line, clip, does, ends, fill, fold, length, line
from appraise.app.listing.items import HEADS
from appraise.app.listing.review import Review
from appraise.app.listing.told import detail, row
from appraise.app.widgets.band import rows_for
from appraise.base.dataclass import dataclass

NARROW, WIDE, VAST = 72, 110, 160  # cells from which there are two columns, three, wide ones
ACROSS = {NARROW: 36, WIDE: 38, VAST: 48}  # cells of the verdict
MOST = 96  # cells of a text: wider lines are hard to read
FRAME = 2  # the head and the line of keys
IN_LIST = "warnings: see the list"
READING = "The text is being read ... You can leave it: it is read to the end when you come back."
UNRELATED = (
    "This does not look like a photograph for sale: no process, size or photo word found. If it "
    "is one, press e and add it."
)


@dataclass(frozen=True, slots=True)
class Sizes:
    """How the screen is divided.

    Attributes:
        text, list, panel: Cells of each column; 0: not shown.
        above: Lines of the text where it stands above the list; 0: it stands beside.
        below: Lines of what there is to say of the line one is at, below the list.
    """

    text: int
    list: int
    panel: int
    above: int
    below: int


def sizes_for(width: int, height: int, verdict: bool) -> Sizes:
    """The division of a screen; `verdict` puts the panel where there is no room for it beside."""
    rows = max(0, height - FRAME - rows_for(height))
    below = min(14, rows * 9 // 20)
    if width < NARROW:
        if verdict:
            return Sizes(0, 0, width, 0, 0)
        above = rows * 2 // 5
        return Sizes(width, width, 0, above, (rows - above) // 3)
    across = next(cells for least, cells in reversed(ACROSS.items()) if width >= least)
    if width < WIDE and verdict:
        return Sizes(0, width - across, across, 0, below)
    room = width - across if width >= WIDE else width
    text = min(MOST, room // 2)
    return Sizes(text, room - text, width - room, 0, below)


def head(review: Review, shown: Shown, width: int, rows: int) -> list[Line]:
    """The title, then how many pieces there are and what is asked."""
    piece, listing = review.piece, review.listing
    lot = f"a lot of {listing.pieces}  " if listing and listing.pieces > 1 else ""
    asked = f"asked {piece.asking if shown.money else DOTS}" if piece.asking else ""
    right = line((lot, "strong"), (f"seller says  {asked}".rstrip(), "quiet"))
    if length(right) > width // 2:
        right = EMPTY
    title = clip(piece.title or "untitled listing", max(4, width - length(right) - 2), shown.marks)
    return [ends(line((title, "head")), right, width)]


def answer(review: Review, shown: Shown, width: int, rows: int) -> list[Line]:
    """The verdict in its one sentence; nothing for a text that is not about a photograph."""
    if review.unrelated:
        return []
    return verdict_band(review.verdict, shown, width, rows)


def told(review: Review, shown: Shown, width: int, rows: int) -> list[Line]:
    """The verdict in full; the warnings of the text stand in the list."""
    if review.unrelated:
        return []
    flags = review.listing.flags if review.listing is not None else ()
    none = IN_LIST if any(one.severity != "note" for one in flags) else NONE
    return panel(review.verdict, shown, width, rows, none)


def said(review: Review, shown: Shown, width: int, rows: int) -> list[Line]:
    """All about the item one is at."""
    item, listing = review.here, review.listing
    if item is None or listing is None or review.reading or review.unrelated:
        return []
    told = detail(item, listing, review.piece, review.knowledge, width, rows)
    if item.amount and not shown.money:
        return [tuple((dotted(words), role) for words, role in row) for row in told]
    return told


def listed(review: Review, shown: Shown, width: int, rows: int) -> list[Line]:
    """So many lines of the list with its headings around the item one is at."""
    if review.listing is None or review.reading:
        return fold(READING, max(1, width - 1), " ", role="quiet")
    if review.unrelated:
        return fold(UNRELATED, max(1, width - 1), " ")
    items, at = review.items, review.at
    low = max(0, min(at - rows // 2, len(items) - 1))
    out: list[Line] = []
    here = 0
    for number in range(low, min(len(items), at + rows + 1)):
        item = items[number]
        if number == low or items[number - 1].section != item.section:
            out += [*([EMPTY] if out else []), line(" ", (HEADS[item.section], "head"))]
        if number == at:
            here = len(out)
        told = row(item, number == at, review.piece, review.knowledge, width, shown.marks)
        out.append(does(told, f"step({number - at})"))
    top = max(0, min(here - rows // 2, len(out) - rows))
    return [fill(one, width) for one in out[top : top + rows]]
