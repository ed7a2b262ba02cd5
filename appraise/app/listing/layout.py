"""The whole Listing screen as lines, for any size of terminal."""

from __future__ import annotations

from dataclasses import dataclass

from appraise.app.discretion import DOTS, dotted
from appraise.app.examine.panel import panel
from appraise.app.examine.screen import verdict_band
from appraise.app.examine.shown import Shown
from appraise.app.lines import (
    EMPTY,
    Line,
    beside,
    clip,
    does,
    ends,
    fill,
    fold,
    inset,
    length,
    line,
    ruled,
)
from appraise.app.listing.items import HEADS
from appraise.app.listing.marked import Position
from appraise.app.listing.review import Review
from appraise.app.listing.told import detail, row
from appraise.app.widgets.band import rows_for

NARROW, WIDE = 72, 110  # cells from which there are two columns, and three
ACROSS = 34  # cells of the verdict panel
FRAME = 3  # lines of head and rules, without the band
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
        text_rows, list_rows, detail_rows: Lines of each.
    """

    text: int
    list: int
    panel: int
    text_rows: int
    list_rows: int
    detail_rows: int


def body_rows(width: int, height: int) -> int:
    """The lines between head, band and foot."""
    return max(0, height - FRAME - rows_for(height))


def sizes_for(width: int, height: int, verdict: bool) -> Sizes:
    """The division of a screen; `verdict` puts the panel where there is no room for it beside."""
    rows = body_rows(width, height)
    below = min(14, rows * 9 // 20)
    listed = max(0, rows - below - 1)
    if width >= WIDE:
        text = (width - ACROSS - 2) // 2
        return Sizes(text, width - ACROSS - 2 - text, ACROSS, rows, listed, below)
    if width >= NARROW:
        if verdict:
            return Sizes(0, width - ACROSS - 1, ACROSS, 0, listed, below)
        text = (width - 1) // 2
        return Sizes(text, width - 1 - text, 0, rows, listed, below)
    if verdict:
        return Sizes(0, 0, width, 0, 0, 0)
    text_rows = rows * 2 // 5
    below = (rows - text_rows) // 3
    listed = max(0, rows - text_rows - below - 2)
    return Sizes(width, width, 0, text_rows, listed, below)


def screen(
    review: Review, shown: Shown, top: Position, verdict: bool, width: int, height: int
) -> list[Line]:
    """Head, band, text, list with what there is to say, and the panel."""
    sizes = sizes_for(width, height, verdict)
    rows = body_rows(width, height)
    head, rule = _head(review, shown, width), _rule(shown, width)
    last = ruled(review.aside, width, shown.marks)
    told = inset(_band(review, shown, width - 2, height))
    text = _text(review, shown, top, sizes)
    listed = _list(review, shown, sizes)
    if width < NARROW:
        body = (
            inset(panel(review.verdict, shown, width - 2, rows))
            if verdict
            else _stacked(text, listed, rule, sizes)
        )
    else:
        body = _columns(text, listed, review, shown, sizes, rows)
    filled = [*body, *[EMPTY] * rows][:rows]
    return [head, *told, rule, *filled, last][:height]


def _columns(
    text: list[Line], listed: list[Line], review: Review, shown: Shown, sizes: Sizes, rows: int
) -> list[Line]:
    wall = shown.marks.wall
    body, wide = listed, sizes.list
    if sizes.text:
        body = beside(text, listed, (sizes.text, sizes.list), rows, wall)
        wide = sizes.text + 1 + sizes.list
    if sizes.panel:
        told = [] if review.unrelated else panel(review.verdict, shown, sizes.panel - 2, rows)
        body = beside(body, inset(told), (wide, sizes.panel), rows, wall)
    return body


def _stacked(text: list[Line], listed: list[Line], rule: Line, sizes: Sizes) -> list[Line]:
    shown = [*text, *[EMPTY] * sizes.text_rows][: sizes.text_rows]
    return [*shown, rule, *listed]


def _rule(shown: Shown, width: int) -> Line:
    return line((shown.marks.rule * width, "quiet"))


def _head(review: Review, shown: Shown, width: int) -> Line:
    """The title, then how many pieces there are and what is asked."""
    piece, listing = review.piece, review.listing
    lot = f"a lot of {listing.pieces}  " if listing and listing.pieces > 1 else ""
    asked = f"asked {piece.asking if shown.money else DOTS}" if piece.asking else ""
    right = line((lot, "strong"), (f"seller says  {asked}".rstrip(), "quiet"), " ")
    if length(right) > width // 2:
        right = EMPTY
    title = clip(piece.title or "untitled listing", max(4, width - length(right) - 3), shown.marks)
    return ends(line(" ", (title, "head")), right, width)


def _text(review: Review, shown: Shown, top: Position, sizes: Sizes) -> list[Line]:
    wide = max(1, sizes.text - 2)
    review.marked.hides = not shown.money
    return inset(review.marked.window(top, sizes.text_rows, wide, review.place, shown.marks))


def _list(review: Review, shown: Shown, sizes: Sizes) -> list[Line]:
    """The list around the item one is at, a rule, and all about it."""
    if review.listing is None or review.reading:
        return inset(fold(READING, max(1, sizes.list - 2), role="quiet"))
    if review.unrelated:
        return inset(fold(UNRELATED, max(1, sizes.list - 2)))
    listed = _window(review, shown, sizes.list, sizes.list_rows)
    listed = [*listed, *[EMPTY] * sizes.list_rows][: sizes.list_rows]
    item = review.here
    wide = max(1, sizes.list - 2)
    room = sizes.detail_rows
    told = detail(item, review.listing, review.piece, review.knowledge, wide, room) if item else []
    if item is not None and item.amount and not shown.money:
        told = [tuple((dotted(words), role) for words, role in row) for row in told]
    return [*listed, _rule(shown, sizes.list), *inset(told)]


def _window(review: Review, shown: Shown, width: int, rows: int) -> list[Line]:
    """So many lines of the list with its headings; only they are drawn."""
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


def _band(review: Review, shown: Shown, width: int, height: int) -> list[Line]:
    """The verdict in its one sentence; nothing for a text that is not about a photograph."""
    if review.unrelated:
        return [EMPTY] * rows_for(height)
    return verdict_band(review.verdict, shown, width, rows_for(height))
