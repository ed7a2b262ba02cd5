"""What a winning bid costs in all, line by line, and the largest bid that stays within a sum.

Every line is rounded half up at its currency's minor unit, as invoices are (common practice, no
source); the inverse runs on the rounded bill by bisection, never by dividing by 1 + rate.
"""

import datetime as dt
from collections.abc import Iterator
from decimal import ROUND_DOWN, ROUND_HALF_UP, Decimal

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.money import EXPONENTS, Money
from appraise.records.terms import NOTHING, Rung, Tax, TaxForm
from appraise.records.venue import Venue

HIGHEST = 10**15
"""Minor units beyond which no bid is sought."""
LISTED = "as listed"
"""Said of shipping that a listing asks."""
TAXED = {
    TaxForm.HAMMER: "hammer",
    TaxForm.PREMIUM: "premium",
    TaxForm.SURCHARGE: "surcharge",
    TaxForm.FEE: "fee",
    TaxForm.INSURANCE: "insurance",
    TaxForm.SHIPPING: "shipping",
}
"""The lines that can be taxed, as they are called."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a bill: its name, its amount, and what there is to say about it."""

    name: str
    amount: Money
    note: str = ""


@dataclass(frozen=True, slots=True)
class Exchange:
    """The rate by which an invoice was converted.

    Attributes:
        currency: ISO 4217 code of the invoice.
        base: ISO 4217 code of the total.
        rate: Units of `base` for one of `currency`.
        on: The day of the rate; None: not said.
    """

    currency: str
    base: str
    rate: Decimal
    on: dt.date | None


@dataclass(frozen=True, slots=True)
class Bill:
    """A bill: its lines in order, the sum at the venue, and the sum in the base currency.

    `exchange` is the rate between the two; None where both are in one currency.
    """

    lines: tuple[Line, ...]
    invoice: Money
    total: Money
    exchange: Exchange | None = None


def premium(venue: Venue, hammer: Decimal) -> Decimal:
    """The buyer's premium before rounding: marginal by bands, or one rate on the whole.

    Above the last band's end the last rate goes on.
    """
    due, start = NOTHING, NOTHING
    for place, band in enumerate(venue.bands):
        last = place == len(venue.bands) - 1 or band.upto is None
        end = hammer if last or band.upto is None else min(hammer, band.upto)
        if venue.whole and end == hammer:
            return hammer * band.rate
        due += max(end - start, NOTHING) * band.rate
        start = max(start, end)
    return due


def _rounder(currency: str) -> Decimal:
    return Decimal(1).scaleb(-EXPONENTS[currency])


def _round(amount: Decimal, unit: Decimal) -> Decimal:
    return amount.quantize(unit, rounding=ROUND_HALF_UP)


def tax_words(tax: Tax) -> str:
    """A tax in words: '20% on hammer and premium'."""
    rate = f"{(tax.rate * 100).normalize():f}"
    return f"{rate}% on {' and '.join(TAXED[one] for one in tax.on)}"


def _venue_lines(venue: Venue, hammer: Decimal) -> Iterator[tuple[str, Decimal, str]]:
    """The lines in the venue's currency with what there is to say of each, each rounded."""
    unit = _rounder(venue.currency)
    taxed = {
        TaxForm.HAMMER: hammer,
        TaxForm.PREMIUM: _round(venue.held("premium", premium(venue, hammer)), unit),
        TaxForm.SURCHARGE: _round(venue.held("surcharge", hammer * venue.surcharge), unit),
        TaxForm.FEE: _round(venue.fee, unit),
        TaxForm.INSURANCE: _round(venue.held("insurance", hammer * venue.insurance), unit),
        TaxForm.SHIPPING: _round(venue.carriage, unit),
    }
    yield "hammer", hammer, ""
    yield "premium", taxed[TaxForm.PREMIUM], ""
    yield "surcharge", taxed[TaxForm.SURCHARGE], ""
    yield "lot fee", taxed[TaxForm.FEE], ""
    several = len(venue.all_taxes) > 1
    for tax in venue.all_taxes:
        due = sum((taxed[one] for one in tax.on), NOTHING) * tax.rate
        yield "tax", _round(due, unit), tax_words(tax) if several else ""
    yield "insurance", taxed[TaxForm.INSURANCE], ""
    yield "carriage", taxed[TaxForm.SHIPPING], LISTED if venue.listed else ""
    value = taxed[TaxForm.HAMMER] + taxed[TaxForm.PREMIUM]
    value += taxed[TaxForm.INSURANCE] + taxed[TaxForm.SHIPPING]
    yield "import tax", _round(value * venue.import_tax, unit), ""


def _invoiced(venue: Venue, hammer: Decimal) -> list[tuple[str, Decimal, str]]:
    """The venue's lines, the fee for paying last: it is on all others."""
    lines = list(_venue_lines(venue, hammer))
    invoice = sum((amount for _, amount, _ in lines), NOTHING)
    fee = _round(venue.held("payment", invoice * venue.payment), _rounder(venue.currency))
    return [*lines, ("payment fee", fee, "")]


def all_in(venue: Venue, hammer: Money) -> Bill:
    """The bill for a winning bid; lines of nothing are left out.

    The hammer price stays, and so does shipping that a listing says is free.

    Raises:
        InputError: when the bid is in another currency or below 0.
    """
    if hammer.currency != venue.currency or hammer.amount < 0:
        raise InputError(
            f"a bid of {hammer} at {venue.name}", mend=f"Bid in {venue.currency}, 0 or more."
        )
    lines = _invoiced(venue, hammer.rounded().amount)
    invoice = sum((amount for _, amount, _ in lines), NOTHING)
    rows = [Line(name, Money(amount, venue.currency), note) for name, amount, note in lines]
    unit = _rounder(venue.home)
    total = _round(invoice * (venue.exchange or Decimal(1)), unit)
    for name, amount in (
        ("exchange fee", _round(venue.held("exchange_fee", total * venue.exchange_fee), unit)),
        ("travel", _round(venue.travel, unit)),
    ):
        rows.append(Line(name, Money(amount, venue.home)))
    extra = rows[-1].amount.amount + rows[-2].amount.amount
    kept = tuple(row for row in rows if row.name == "hammer" or row.amount.amount or row.note)
    return Bill(
        kept, Money(invoice, venue.currency), Money(total + extra, venue.home), _exchange(venue)
    )


def _exchange(venue: Venue) -> Exchange | None:
    if venue.exchange is None or venue.home == venue.currency:
        return None
    return Exchange(venue.currency, venue.home, venue.exchange, venue.exchange_on)


def _highest(venue: Venue, low: int, high: int, ceiling: Decimal) -> int | None:
    """The largest bid of low..high minor units whose bill is within `ceiling`, or None.

    The bill must not fall within low..high.
    """

    def within(minor: int) -> bool:
        return all_in(venue, Money.of_minor(minor, venue.currency)).total.amount <= ceiling

    if low > high or not within(low):
        return None
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if within(middle) else (low, middle - 1)
    return low


def _stretches(venue: Venue, top: int) -> list[tuple[int, int]]:
    """Stretches of minor units over which the bill never falls, lowest first.

    Where a premium's rate holds for the whole price, the bill may fall from one to the next.
    """
    start, found = 0, list[tuple[int, int]]()
    if venue.whole:
        for band in venue.bands[:-1]:
            if band.upto is None:
                break
            end = min(int(band.upto.scaleb(EXPONENTS[venue.currency])), top)
            found.append((start, end))
            start = end + 1
    found.append((start, top))
    return found


def highest_hammer(venue: Venue, ceiling: Money) -> Money | None:
    """The largest hammer price, to the minor unit, whose whole bill is within `ceiling`.

    None when even a bid of nothing costs more. Where the bill falls at the edge of a band, lower
    prices may cost more than the ceiling: `walk_away` minds that.

    Raises:
        InputError: when the ceiling is not in the venue's base currency.
    """
    for low, high in reversed(_stretches(venue, _top(venue, ceiling))):
        minor = _highest(venue, low, high, ceiling.amount)
        if minor is not None:
            return Money.of_minor(minor, venue.currency)
    return None


def _top(venue: Venue, ceiling: Money) -> int:
    """Minor units that no hammer price within the ceiling exceeds; errors as above."""
    if ceiling.currency != venue.home:
        raise InputError(
            f"a limit in {ceiling.currency} at {venue.name}", mend=f"Write it in {venue.home}."
        )
    rate = venue.exchange or Decimal(1)
    most = (ceiling.amount / rate + 1).scaleb(EXPONENTS[venue.currency])
    return max(0, min(int(most.to_integral_value(ROUND_DOWN)), HIGHEST))


def step_at(ladder: tuple[Rung, ...], bid: Decimal) -> Decimal:
    """By how much the next bid after `bid` is higher."""
    for rung in ladder:
        if rung.below is None or bid < rung.below:
            return rung.step
    return ladder[-1].step if ladder else NOTHING


def on_ladder(ladder: tuple[Rung, ...], bid: Decimal) -> Decimal:
    """The highest legal bid that is not above `bid`; without a ladder, the bid itself.

    Within a rung legal bids are counted from the rung's start.
    """
    start = NOTHING
    for place, rung in enumerate(ladder):
        last = place == len(ladder) - 1
        if last or rung.below is None or bid < rung.below:
            return start + ((bid - start) // rung.step) * rung.step
        start = rung.below
    return bid


def next_above(ladder: tuple[Rung, ...], bid: Decimal) -> Decimal:
    """The lowest legal bid above a legal one; the bid itself without a ladder."""
    step = step_at(ladder, bid)
    edges = [rung.below for rung in ladder[:-1] if rung.below is not None and rung.below > bid]
    return min([bid + step, *edges])


def walk_away(venue: Venue, ceiling: Money) -> Money | None:
    """The maximum bid: every legal bid up to it has its whole bill within `ceiling`.

    A bid wins at any price up to itself, so where a rate on the whole price makes a lower bid
    cost more than a higher one, the maximum stays below the dear stretch. A bid of nothing is no
    bid: None when there is no other. Errors as in `highest_hammer`.
    """
    best = 0
    for low, high in _stretches(venue, _top(venue, ceiling)):
        within = _highest(venue, low, high, ceiling.amount)
        last = _legal(venue, high)
        if within is None:
            if last >= max(low, 1):
                break
            continue
        legal = _legal(venue, within)
        best = legal if legal >= low else best
        if last > within:
            break
    return Money.of_minor(best, venue.currency) if best > 0 else None


def _legal(venue: Venue, minor: int) -> int:
    """The highest legal bid of so many minor units or fewer."""
    bid = on_ladder(venue.ladder, Money.of_minor(minor, venue.currency).amount)
    return int(bid.scaleb(EXPONENTS[venue.currency]).to_integral_value(ROUND_DOWN))
