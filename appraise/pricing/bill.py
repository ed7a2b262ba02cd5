"""What a winning bid costs in all, line by line, and the largest bid that stays within a sum.

Every line is rounded half up at its currency's minor unit, as invoices are (common practice, no
source); the inverse runs on the rounded bill by bisection, never by dividing by 1 + rate.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import ROUND_DOWN, ROUND_HALF_UP, Decimal

from appraise.base.errors import InputError
from appraise.base.money import EXPONENTS, Money
from appraise.pricing.venue import NOTHING, Rung, TaxForm, Venue

HIGHEST = 10**15
"""Minor units beyond which no bid is sought."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a bill."""

    name: str
    amount: Money


@dataclass(frozen=True, slots=True)
class Bill:
    """A bill: its lines in order, the sum at the venue, and the sum in the base currency."""

    lines: tuple[Line, ...]
    invoice: Money
    total: Money


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


def _tax_base(venue: Venue, hammer: Decimal, due: Decimal, surcharge: Decimal) -> Decimal:
    """What the tax is charged on."""
    return {
        TaxForm.NONE: NOTHING,
        TaxForm.ALL: hammer + due + surcharge,
        TaxForm.PREMIUM: due,
        TaxForm.HAMMER_AND_PREMIUM: hammer + due,
    }[venue.tax_form]


def _venue_lines(venue: Venue, hammer: Decimal) -> Iterator[tuple[str, Decimal]]:
    """The lines in the venue's currency, each rounded."""
    unit = _rounder(venue.currency)
    due = _round(premium(venue, hammer), unit)
    surcharge = _round(hammer * venue.surcharge, unit)
    tax = _round(_tax_base(venue, hammer, due, surcharge) * venue.tax, unit)
    insurance = _round(hammer * venue.insurance, unit)
    carriage = _round(venue.carriage, unit)
    crossing = _round((hammer + due + carriage + insurance) * venue.import_tax, unit)
    lines = [
        ("hammer", hammer),
        ("premium", due),
        ("surcharge", surcharge),
        ("tax", tax),
        ("insurance", insurance),
        ("carriage", carriage),
        ("import tax", crossing),
    ]
    yield from lines
    invoice = sum((amount for _, amount in lines), NOTHING)
    yield "payment fee", _round(invoice * venue.payment, unit)


def all_in(venue: Venue, hammer: Money) -> Bill:
    """The bill for a winning bid; lines of nothing are left out, except the hammer price.

    Raises:
        InputError: when the bid is in another currency or below 0.
    """
    if hammer.currency != venue.currency or hammer.amount < 0:
        raise InputError(
            f"a bid of {hammer} at {venue.name}", mend=f"Bid in {venue.currency}, 0 or more."
        )
    lines = list(_venue_lines(venue, hammer.rounded().amount))
    invoice = sum((amount for _, amount in lines), NOTHING)
    rows = [Line(name, Money(amount, venue.currency)) for name, amount in lines]
    unit = _rounder(venue.home)
    total = _round(invoice * (venue.exchange or Decimal(1)), unit)
    for name, amount in (
        ("exchange fee", _round(total * venue.exchange_fee, unit)),
        ("travel", _round(venue.travel, unit)),
    ):
        rows.append(Line(name, Money(amount, venue.home)))
    extra = rows[-1].amount.amount + rows[-2].amount.amount
    kept = tuple(row for row in rows if row.name == "hammer" or row.amount.amount)
    return Bill(kept, Money(invoice, venue.currency), Money(total + extra, venue.home))


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


def _stretches(venue: Venue, top: int) -> Iterator[tuple[int, int]]:
    """Stretches of minor units over which the bill never falls, highest first."""
    start, found = 0, []
    if venue.whole:
        for band in venue.bands[:-1]:
            if band.upto is None:
                break
            end = min(int(band.upto.scaleb(EXPONENTS[venue.currency])), top)
            found.append((start, end))
            start = end + 1
    found.append((start, top))
    yield from reversed(found)


def highest_hammer(venue: Venue, ceiling: Money) -> Money | None:
    """The largest hammer price, to the minor unit, whose whole bill is within `ceiling`.

    None when even a bid of nothing costs more.

    Raises:
        InputError: when the ceiling is not in the venue's base currency.
    """
    if ceiling.currency != venue.home:
        raise InputError(
            f"a ceiling in {ceiling.currency} at {venue.name}", mend=f"Give it in {venue.home}."
        )
    rate = venue.exchange or Decimal(1)
    most = (ceiling.amount / rate + 1).scaleb(EXPONENTS[venue.currency])
    top = max(0, min(int(most.to_integral_value(ROUND_DOWN)), HIGHEST))
    for low, high in _stretches(venue, top):
        minor = _highest(venue, low, high, ceiling.amount)
        if minor is not None:
            return Money.of_minor(minor, venue.currency)
    return None


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


def walk_away(venue: Venue, ceiling: Money) -> Money | None:
    """The largest legal bid whose whole bill is within `ceiling`; None when there is none.

    A bid of nothing is no bid. Errors as in `highest_hammer`.
    """
    hammer = highest_hammer(venue, ceiling)
    while hammer is not None and hammer.amount > 0:
        bid = Money(on_ladder(venue.ladder, hammer.amount), venue.currency)
        if bid.amount <= 0:
            return None
        if all_in(venue, bid).total.amount <= ceiling.amount:
            return bid
        hammer = Money.of_minor(bid.minor - 1, venue.currency)
    return None
