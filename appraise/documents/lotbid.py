"""One maximum for a whole lot: its pieces with their worths, the bill, and each one's share."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import date
from itertools import groupby
from typing import TYPE_CHECKING, Any

from appraise.base.dataclass import dataclass
from appraise.base.jsonvalues import picked
from appraise.base.money import as_json
from appraise.collection.budget_status import BudgetStatus, lot_terms, over_words
from appraise.collection.lotworth import NONE_KNOWN, LotAdvice, Valued, all_valued, lot_advice
from appraise.documents.bid import PURPOSE, Maximum, bid_json, bid_sections, shaded
from appraise.documents.document import (
    Bullets,
    Document,
    Facts,
    Paragraph,
    Section,
    fact,
    section,
)
from appraise.pricing.money import in_currency_of, terms_of
from appraise.records.lot import Lot
from appraise.records.venue import Venue

if TYPE_CHECKING:
    from appraise.base.settings import Settings
    from appraise.records.venuebook import VenueBook
    from appraise.verdict import Verdict

PLANNED = {"keep": "keep", "resell": "resell", "parts": "parts"}


@dataclass(frozen=True, slots=True)
class LotMaximum:
    """One maximum for a lot, and what it rests on.

    Attributes:
        advice: Its ceiling, bid, bill and shares.
        house: Where it is sold; None: no terms are noted.
        bidders: How many bid, the user included.
        purse: What is left to spend; None where that is not asked.
    """

    lot: Lot
    advice: LotAdvice
    house: Venue | None
    venue: Venue
    bidders: int
    purse: BudgetStatus | None = None

    @property
    def maximum(self) -> Maximum:
        """As a maximum for one piece is shown."""
        advice = self.advice
        return Maximum(
            self.house, self.venue, advice.ceiling, advice.pay, why_of(self),
            held=advice.holds, asked=in_currency_of(self.venue, self.lot.asking),
        )  # fmt: skip


def lot_maximum(
    lot: Lot,
    verdicts: Sequence[Verdict | None],
    settings: Settings,
    book: VenueBook,
    on: date,
    bidders: int | None = None,
) -> LotMaximum:
    """The maximum for a lot, before what is left to spend is looked at.

    `bidders`: how many bid, the user included; None: by the settings.

    Raises:
        InputError: where a rate is missing, with the way to enter it; where it holds no piece and
            no limit was decided.
    """
    code, venue = settings.currency, lot_terms(lot, book, settings.currency, on)
    house = book.for_sale(lot.venue, lot.channel)
    house = house if house and house.currency == lot.currency else None
    terms = terms_of(settings, (house.channel if house else "") or lot.channel)
    terms = terms if bidders is None else replace(terms, bidders=bidders)
    pieces = all_valued(lot, verdicts, lambda one: book.turned(one, code, on))
    return LotMaximum(lot, lot_advice(lot, pieces, terms, venue), house, venue, terms.bidders)


def why_of(told: LotMaximum) -> str:
    """Where the ceiling comes from."""
    advice, lot = told.advice, told.lot
    if advice.decided:
        return f"as you decided{f' on {lot.ceiling_on}' if lot.ceiling_on else ''}"
    words = shaded(advice.total, advice.ceiling.currency, advice.factor, told.bidders)
    words += f"; worth {advice.extra:,.2f} extra to you" if advice.extra else ""
    words += f"; {advice.less:,.2f} set aside for repair and margin" if advice.less else ""
    words += "; limited by the budget in your settings" if advice.capped else ""
    return words if len(advice.pieces) == 1 else f"{len(advice.pieces)} pieces, together {words}"


def _words(one: Valued, selling: int) -> str:
    """A piece's plan and worth: 'keep, worth 41.00 by your log, worth 10.00 extra to you'."""
    plan = PLANNED[one.item.plan]
    if one.item.plan == "parts":
        worth = f"parts worth {one.parts:,.2f}"
    elif one.worth is None:
        return f"{plan}; no worth: {one.basis}"
    else:
        worth = f"worth {one.worth:,.2f} {one.basis}"
    extra = (
        f", worth {one.extra:,.2f} extra to you" if one.extra and one.item.plan == "keep" else ""
    )
    less = f", less {selling}% selling costs" if selling and one.item.plan != "keep" else ""
    return f"{plan}, {worth}{less}{extra}"


def _pieces(told: LotMaximum) -> Iterator[tuple[str, str, str]]:
    """Each piece as its title, its worth in words, and its share of the bill ('' without one)."""
    advice = told.advice
    for place, one in enumerate(advice.pieces):
        share = advice.shares[place].plain if advice.shares else ""
        yield one.item.title, _words(one, told.lot.selling), share


def no_worth_known(told: LotMaximum) -> str:
    """Why nothing can be said of what to bid: no worth of any piece is known; '' elsewhere."""
    advice = told.advice
    if advice.decided or not advice.pieces or len(advice.unknown) < len(advice.pieces):
        return ""
    return NONE_KNOWN


def doubts(told: LotMaximum) -> Iterator[str]:
    """What the reader must know before trusting the sum: unknown worths, the budget."""
    count = len(told.advice.unknown)
    if count and not told.advice.decided:
        are = "1 piece is" if count == 1 else f"{count} pieces are"
        yield f"{are} valued at 0 because the worth is not known: enter a value or describe it"
    bill = told.advice.bill
    if bill is not None and told.purse is not None:
        yield from over_words(told.purse, bill.total)


def _grouped(rows: Iterable[tuple[str, str, str]]) -> Iterator[tuple[int, str, str, str]]:
    """The rows with their numbers from 1; those that follow each other alike are told once."""
    number = 1
    for (title, words, share), same in groupby(rows):
        count = sum(1 for _ in same)
        each = f"{share} each" if share and count > 1 else share
        yield number, (f"{count} x {title}" if count > 1 else title), words, each
        number += count


def lot_bid_document(told: LotMaximum, as_of: date) -> Document:
    """The pieces, then the bill and the maximum as for one piece."""
    said = no_worth_known(told)
    most = (
        section("none", "", Paragraph(said, "warn")) if said else bid_sections(told.maximum, as_of)
    )
    parts = pieces_section(told, warned=not said)
    return Document(told.lot.title, (*parts, *most), purpose=PURPOSE)


def pieces_section(told: LotMaximum, warned: bool = True) -> tuple[Section, ...]:
    """Each piece with its plan, its worth and its share of the bill; what to know beforehand."""
    rows = (
        fact(f"{number} {title}", f"{words}; its share {share}" if share else words)
        for number, title, words, share in _grouped(_pieces(told))
    )
    doubtful = Bullets(tuple(doubts(told)) if warned else (), "warn")
    return section("pieces", "Pieces", Facts(tuple(rows)), doubtful)


def lot_bid_json(told: LotMaximum, as_of: date, lot_id: str = "") -> dict[str, Any]:
    """The same as JSON: schema "appraise.bid/1" with the lot and its pieces."""
    advice = told.advice
    pieces = [
        {
            **picked(one.item, "title plan"),
            **picked(one, "basis doubt extra"),
            "worth": None if one.worth is None else round(one.worth, 2),
            "parts": round(one.parts, 2),
            "share": as_json(advice.shares[place]) if advice.shares else None,
        }
        for place, one in enumerate(advice.pieces)
    ]
    lot = picked(told.lot, "title selling", id=lot_id)
    more = {"lot": lot, "decided": advice.decided, "pieces": pieces, "warnings": [*doubts(told)]}
    return {**bid_json(told.maximum, as_of), **more}
