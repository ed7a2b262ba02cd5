"""The end of an examination: the piece as a line of the log, bought or passed."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from appraise.app.fieldwords import Values, day_in, money_in, written
from appraise.app.form import Field
from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.log.entries import Entry, Estimate
from appraise.piece.records import Piece
from appraise.pricing.venue import AUCTIONS
from appraise.reading.reading import Reading
from appraise.verdict import Verdict

if TYPE_CHECKING:
    from appraise.pricing.estimate import Estimate as Priced

SURE = 0.5  # chance from which a word is logged for what the piece is


def bought_fields(piece: Piece, as_of: date) -> list[Field]:
    """What is asked when a piece is bought; the price asked stands in for the price paid."""
    posted = [Field("postage", "postage", "", "Carriage, beside the price.")]
    return [
        Field("paid", "paid", written(piece.asking), "What changed hands, as 45 or 45.00 USD."),
        *(posted if piece.channel in AUCTIONS else ()),
        *_common(as_of),
    ]


def passed_fields(piece: Piece, as_of: date) -> list[Field]:
    """What is asked when a piece is passed: what was asked and what one offered."""
    return [
        Field("asked", "asked", written(piece.asking), "What the seller wanted."),
        Field("offered", "offered", "", "What you offered; leave it out if you did not."),
        *_common(as_of),
    ]


def _common(as_of: date) -> list[Field]:
    return [
        Field("date", "day", as_of.isoformat(), "As 2026-11-25."),
        Field("venue", "place", "", "The market, fair, shop or site, in your words."),
        Field("note", "note", "", "Anything else."),
    ]


def bought(verdict: Verdict, values: Values, as_of: date, text: str) -> Entry:
    """The entry of a piece that was bought.

    Args:
        verdict: Of the piece as it stands.
        values: What was typed.
        as_of: The day when none was typed.
        text: The piece file.

    Raises:
        InputError: one line; its `where` is the field.
    """
    paid = money_in(values, "paid", verdict.currency)
    if paid is None:
        raise InputError("write what was paid", "paid", "Press x instead if you passed.")
    postage = money_in(values, "postage", verdict.currency)
    day = day_in(values, "date", as_of)
    return _entry(verdict, "bought", day, values, text, paid=paid, postage=postage)


def passed(verdict: Verdict, values: Values, as_of: date, text: str) -> Entry:
    """The entry of a piece that was passed: refused when an offer was made, else asking."""
    asked = money_in(values, "asked", verdict.currency)
    offered = money_in(values, "offered", verdict.currency)
    if asked is None and offered is None:
        raise InputError("write what was asked", "asked", "Or press d to drop the piece.")
    day = day_in(values, "date", as_of)
    record = "refused" if offered else "asking"
    return _entry(verdict, record, day, values, text, asked=asked, offered=offered)


def _entry(
    verdict: Verdict, record: str, day: date, values: Values, text: str, **amounts: Any
) -> Entry:
    piece, reading = verdict.piece, verdict.reading
    amounts.setdefault("asked", piece.asking)
    return Entry(
        record=record,
        date=day,
        channel=piece.channel,
        kind=piece.kind,
        process=_sure(reading.family, reading.families[reading.family]),
        housing=_housing(reading),
        format=reading.formats.best,
        title=piece.title,
        motif=piece.motif,
        subject=piece.subject,
        appeal=piece.appeal,
        identified=bool(piece.inscription and piece.inscription.text) or None,
        condition_factor=_condition(verdict),
        venue=" ".join(values["venue"].split()),
        note=values["note"],
        belonging=tuple((state, round(p, 4)) for state, p in reading.belonging.items()),
        estimate=_estimate(verdict.estimate, verdict.currency),
        piece=text,
        **amounts,
    )


def _sure(word: str, chance: float) -> str:
    return word if chance >= SURE else ""


def _housing(reading: Reading) -> str:
    if reading.piece.kind != "cased":
        return ""
    return _sure(reading.material, reading.housings[reading.material])


def _condition(verdict: Verdict) -> float | None:
    """What the condition leaves beside the usual, or None when nothing was looked at."""
    seen = any(side.done for side in verdict.reading.condition.sides.values())
    return round(verdict.kept, 4) if seen else None


def _estimate(estimate: Priced | None, currency: str) -> Estimate | None:
    """What the log said such a piece would cost; None without a number."""
    if estimate is None or estimate.low is None or estimate.median is None or estimate.high is None:
        return None
    low, median, high = (
        Money(Decimal(repr(value)), currency).rounded()
        for value in (estimate.low, estimate.median, estimate.high)
    )
    return Estimate(low, median, high)
