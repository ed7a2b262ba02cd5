"""The log as the price model wants it: every entry on one all-in footing in the base currency."""

from collections.abc import Iterable
from datetime import date

from appraise.base.logday import LogDay, days_wide, middle
from appraise.base.money import Money
from appraise.base.oneline import folded
from appraise.knowledge.records import NAMELESS, Knowledge
from appraise.pricing.cost_basis import EMPTY, all_in_price
from appraise.pricing.features import PricedRow
from appraise.pricing.known import known_ratios
from appraise.pricing.shares import Shares, taken_off
from appraise.records.entry import Entry
from appraise.records.piece_features import degree
from appraise.records.venuebook import VenueBook

PRICED = ("bought", "sold", "asking", "hammer", "unsold", "refused")
YEAR = 365.25  # days
TREND_DAYS = 5 * 366  # the width of "about" a year; a judgement


def priced_rows(
    entries: Iterable[Entry],
    knowledge: Knowledge,
    currency: str,
    as_of: date,
    book: VenueBook = EMPTY,
) -> tuple[PricedRow, ...]:
    """The entries that bear a price, one row each, in the base currency.

    Left out: the user's own work, swaps, gifts and returns, entries without an amount, and those
    in a currency for which there is no rate.

    Args:
        entries: The log.
        knowledge: The trade's words and price ratios.
        currency: ISO 4217 code of the base currency.
        as_of: The day from which years are counted.
        book: The user's venues and rates.
    """
    rows = []
    for entry in entries:
        if entry.own_work or entry.record not in PRICED:
            continue
        cost = all_in_price(entry, currency, book)
        if cost is not None:
            rows.append(_row(entry, cost, knowledge, as_of))
    return tuple(rows)


def stage_of(entry: Entry) -> str:
    """Whether the amount that counts is what is asked, which is above what is paid, or not.

    It goes by the amount and not by the record alone: a piece that was passed over stands in the
    log with what was asked for it.
    """
    asked = entry.asked is not None and entry.price == entry.asked and not entry.paid
    return "asking" if entry.record == "unsold" or (asked and not entry.hammer) else "bought"


def _age(day: LogDay, as_of: date) -> float | None:
    """Years since an entry, by the middle of what its day may have been.

    A day that is known to `TREND_DAYS` or better lies half of that from its middle at most: a
    trend of 5% a year moves its price by an eighth, far less than entries differ by. One that is
    wider, open or unknown has no age: the entry counts as of average age and teaches no trend.
    """
    wide, on = days_wide(day), middle(day)
    if wide is None or on is None or wide > TREND_DAYS:
        return None
    return max(0.0, (as_of - on).days / YEAR)


def _row(entry: Entry, cost: Money, knowledge: Knowledge, as_of: date) -> PricedRow:
    process = knowledge.processes.get(entry.process)
    word = process.family if process else entry.process
    form = knowledge.formats.get(entry.format)
    stage = stage_of(entry)
    housing = knowledge.housings.get(entry.housing, NAMELESS)
    belonging = dict(entry.belonging)
    ratios = known_ratios(knowledge.ratios, entry.format, entry.condition_factor, stage)
    off = taken_off(belonging, Shares(housing.image, housing.case, housing.bond))
    return PricedRow(
        id=entry.id,
        price=float(cost.amount),
        kind=entry.kind or "cased",
        process={word: 1.0} if word else {},
        housing={entry.housing: 1.0} if entry.housing else {},
        area=form.sizes[0][0] * form.sizes[0][1] / 100 if form else None,
        condition=entry.condition_factor,
        channel=entry.channel,
        record=stage,
        subject=entry.subjects,
        quality=entry.quality,
        identified=degree(entry.identified),
        maker=bool(entry.maker) or entry.maker_known,
        maker_name=folded(entry.maker),
        appeal=entry.appeal,
        age=_age(entry.date, as_of),
        motif=entry.motif or entry.title,
        ratios=(*ratios, *off),
        belonging=belonging,
    )
