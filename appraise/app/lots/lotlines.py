"""Lots as lines: the table of all, and the page of one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from appraise.app.lines import EMPTY, Line, clip, ends, fill, fold, line
from appraise.app.marks import WARN, Marks
from appraise.collection.lotsteps import due
from appraise.documents.bid import bid_sections, condition, named
from appraise.documents.budget import promised_line, purse_line
from appraise.documents.document import Block, Document, Paragraph, section
from appraise.documents.lotbid import pieces_section
from appraise.documents.lots import items_section, lot_section, standing_words
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


def lot_page(held: Stored[Lot], told: LotMaximum | None, waits: str, now: Now) -> Document:
    """The page of a lot: its fields, its pieces, and while it is open the bill and the maximum.

    Args:
        held: The lot.
        told: What to bid; None where that is not known.
        waits: Why it is not known.
        now: From when and where one looks.
    """
    lot, fields = held.thing, lot_section(held, now)
    if told is None:
        wait = section("waits", "", Paragraph(waits, "doubt"))
        return Document(lot.title, (*fields, *items_section(lot), *wait))
    open_parts = bid_sections(told.maximum, now.as_of) if lot.open else ()
    head = section("most", "", *_most(told)) if lot.open else ()
    return Document(lot.title, (*head, *fields, *pieces_section(told), *open_parts))


def _most(told: LotMaximum) -> Iterator[Block]:
    """The one figure that a hurried reader wants, first; or why there is none."""
    pay, home = told.advice.pay, told.advice.ceiling.currency
    if pay.limit is None or pay.bill is None:
        yield Paragraph(" ".join(sentences(pay, home)), "warn")
        return
    whole = f", {pay.bill.total} in total" if pay.bill.total != pay.limit else ""
    yield Paragraph(f"{named(pay)}: {pay.limit}{whole}", "lead")
    yield Paragraph(condition(pay), "doubt")
