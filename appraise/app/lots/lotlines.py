"""Lots as lines: the table of all, and the page of one."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from appraise.app.bid.bidlines import bid_lines
from appraise.app.lines import EMPTY, Line, clip, cut, ends, fill, fold, line
from appraise.app.marks import WARN, Marks
from appraise.collection.lotsteps import due
from appraise.documents.bid import condition, named
from appraise.documents.budget import promised_line, purse_line
from appraise.documents.lotbid import doubts, grouped, piece_rows
from appraise.documents.lots import LABEL, lot_rows, standing_words
from appraise.verdict.pay import sentences

if TYPE_CHECKING:
    from appraise.collection.budget_status import BudgetStatus
    from appraise.documents.lotbid import LotMaximum
    from appraise.documents.lots import Now
    from appraise.records.lot import Lot
    from appraise.records.stored import Stored

STANDS, BID, VENUE = 22, 17, 24  # cells
WIDE, MIDDLE = 100, 60  # cells from which there are more columns
EMPTY_TABLE = "No marked lots. Press n, or f on a listing or a bid, to add one."


def lots_table(
    lots: Sequence[Stored[Lot]], at: int, now: Now, width: int, rows: int, marks: Marks
) -> list[Line]:
    """A heading and a line for each lot around the marked one, in `rows` lines."""
    if not lots:
        return [EMPTY, *fold(EMPTY_TABLE, max(1, width - 2), "  ")]
    head = _row("  ", "status", "lot", "venue", "bid or limit", width, marks)
    out = [line((head, "quiet"))]
    shown = max(1, rows - 1)
    top = max(0, min(at - shown // 2, len(lots) - shown))
    for place, held in enumerate(lots[top : top + shown], start=top):
        lot, here = held.thing, place == at
        when = due(lot, now.at, now.zone)
        sign = WARN if when.urgent or when.overdue else " "
        stands = standing_words(lot, when, now).removeprefix("closes ")
        signs = f"{marks.here if here else ' '}{sign}"
        row = _row(signs, stands, lot.title, lot.venue, _bid(lot), width, marks)
        out.append(line((row, "here" if here else "warn" if sign == WARN else "")))
    return out


def _bid(lot: Lot) -> str:
    if lot.bid is not None:
        return f"bid {lot.bid.plain}"
    return f"most {lot.ceiling.plain}" if lot.ceiling is not None else "-"


def _row(
    signs: str, stands: str, title: str, venue: str, bid: str, width: int, marks: Marks
) -> str:
    cells = [(stands, min(STANDS, max(1, width // 3)))]
    bids = [(bid, BID)] if width >= MIDDLE else []
    venues = [(venue, VENUE)] if width >= WIDE else []
    used = 3 + sum(room + 2 for _, room in (*cells, *bids, *venues))
    cells += [(title, max(1, width - used)), *venues]
    parts = ["".join(words for words, _ in fill(line(clip(t, n, marks)), n)) for t, n in cells]
    parts += [f"{clip(text, room, marks):>{room}}" for text, room in bids]
    return f"{signs} {'  '.join(parts)}"


def lots_foot(count: int, ended: int, purse: BudgetStatus | None, width: int) -> Line:
    """How many there are, what the bids that stand cost, and what is left to spend."""
    many = "1 lot" if count == 1 else f"{count} lots"
    more = f", {ended} ended: a shows them" if ended else ""
    left = f" {many}{more}"
    parts = [promised_line(purse), purse_line(purse)] if purse is not None else []
    told = "; ".join(part for part in parts if part)
    if parts and len(left) + len(told) + 3 > width:
        told = parts[-1]
    return ends(line((left, "quiet")), line((told, "strong"), " "), width)


def lot_lines(
    held: Stored[Lot], told: LotMaximum | None, waits: str, now: Now, width: int, marks: Marks
) -> list[Line]:
    """The page of a lot: its fields, its pieces, and while it is open the bill and the maximum.

    Args:
        held: The lot.
        told: What to bid; None where that is not known.
        waits: Why it is not known.
        now: From when and where one looks.
        width: Cells.
        marks: The signs to draw with.
    """
    out = _most(told, width) if told is not None and held.thing.open else []
    for name, words in lot_rows(held, now):
        out += fold(words, width, f"{name:<{LABEL}} ", lead_role="quiet")
    if told is not None:
        out += [EMPTY, *_pieces(told, width)]
        out += [row for one in doubts(told) for row in fold(one, width, f"{WARN} ", "warn", "warn")]
        if held.thing.open:
            out += [EMPTY, *bid_lines(told.maximum, now.as_of, width, marks)]
    else:
        out += [EMPTY, *_bare(held.thing, width)]
        out += fold(waits, width, role="doubt")
    return [cut(row, width) for row in out]


def _most(told: LotMaximum, width: int) -> list[Line]:
    """The one figure that a hurried reader wants, first; or why there is none."""
    pay, home = told.advice.pay, told.advice.ceiling.currency
    if pay.limit is None or pay.bill is None:
        return [*fold(" ".join(sentences(pay, home)), width, role="warn"), EMPTY]
    whole = f", {pay.bill.total} in total" if pay.bill.total != pay.limit else ""
    out = [line(f"{named(pay)}: ", (f"{pay.limit}", "head"), (whole, "quiet"))]
    return [*out, *(fold(condition(pay), width, role="doubt") if pay.missing else []), EMPTY]


def _pieces(told: LotMaximum, width: int) -> list[Line]:
    out = [line(("pieces", "head"))] if told.advice.pieces else []
    for number, title, words, share in grouped(piece_rows(told)):
        out += fold(title, width, f"{number:>2} ", "strong", "key")
        out += fold(words + (f"; its share {share}" if share else ""), width, "   ")
    return out


def _bare(lot: Lot, width: int) -> list[Line]:
    """The pieces before they are judged."""
    out = [line(("pieces", "head"))] if lot.items else []
    for number, item in enumerate(lot.items, start=1):
        out += fold(f"{item.title} ({item.plan})", width, f"{number:>2} ", "", "key")
    return out
