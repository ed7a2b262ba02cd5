"""The terms of a place to buy: what comes on top of the hammer price, and the bids it takes.

All figures are the user's own or a plain invention; none is legal or tax advice.
"""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from enum import Flag, auto

from appraise.base.errors import InputError
from appraise.base.money import EXPONENTS

NOTHING = Decimal(0)
AUCTIONS = ("online", "auction")
"""Channels where one bids against others."""


class TaxForm(Flag):
    """The lines that a sales tax or value added tax is charged on, in any combination."""

    NONE = 0
    HAMMER = auto()
    PREMIUM = auto()
    SURCHARGE = auto()
    FEE = auto()
    INSURANCE = auto()
    SHIPPING = auto()
    ALL = HAMMER | PREMIUM | SURCHARGE
    HAMMER_AND_PREMIUM = HAMMER | PREMIUM


@dataclass(frozen=True, slots=True)
class Tax:
    """A tax: its rate as a fraction, and the lines it is charged on."""

    rate: Decimal
    on: TaxForm


@dataclass(frozen=True, slots=True)
class Bounds:
    """The least and the most that a fee comes to, in the currency of its line; None: no end."""

    least: Decimal = NOTHING
    most: Decimal | None = None

    def held(self, amount: Decimal) -> Decimal:
        """An amount brought within the bounds."""
        amount = max(amount, self.least)
        return amount if self.most is None else min(amount, self.most)


@dataclass(frozen=True, slots=True)
class Band:
    """A premium rate for the part of the hammer price up to `upto`; None: without end."""

    upto: Decimal | None
    rate: Decimal


@dataclass(frozen=True, slots=True)
class Rung:
    """Bids rise by `step` while they stand below `below`; None: without end."""

    below: Decimal | None
    step: Decimal


PLAIN_LADDER: tuple[Rung, ...] = tuple(
    Rung(None if below is None else Decimal(below), Decimal(step))
    for below, step in (
        ("10", "0.50"),
        ("20", "1"),
        ("50", "2"),
        ("100", "5"),
        ("200", "10"),
        ("500", "20"),
        ("1000", "50"),
        ("2000", "100"),
        (None, "200"),
    )
)
"""A plain ladder in steps of 1, 2 and 5: an invention, to be replaced by the venue's own."""


@dataclass(frozen=True, slots=True)
class Venue:
    """The terms of one venue; every rate is a fraction (0.25 for 25 per cent), 0 to `HIGHEST`.

    Attributes:
        name: As the user calls it.
        currency: ISO 4217 code of its prices.
        bands: Premium bands by rising `upto`; none: no premium.
        whole: The rate of the band that the hammer price falls in is charged on all of it.
        surcharge: Of the hammer price, for bidding over a platform.
        fee: A flat sum for every lot.
        tax_form: What the tax is charged on.
        tax: The rate of the tax.
        taxes: Further taxes, where lines are taxed at rates of their own.
        insurance: Of the hammer price.
        carriage: Packing and shipping, a fixed sum.
        listed: Whether the shipping is what a listing asks, not the venue's usual.
        import_tax: Of hammer, premium, carriage and insurance together, when it crosses a border.
        payment: Of the whole invoice, for paying by card and the like.
        exchange: Units of the base currency for one of `currency`; None: the same currency.
        exchange_on: The day of that rate, as the user entered it; None: not said.
        base: ISO 4217 code of the base currency; empty: `currency`.
        exchange_fee: Of the invoice in the base currency.
        travel: Share of the journey, in the base currency.
        ladder: The bids that are taken, by rising `below`.
        bounds: The least and the most of a fee, by the names in `BOUNDED`.
    """

    name: str
    currency: str
    bands: tuple[Band, ...] = ()
    whole: bool = False
    surcharge: Decimal = NOTHING
    fee: Decimal = NOTHING
    tax_form: TaxForm = TaxForm.NONE
    tax: Decimal = NOTHING
    taxes: tuple[Tax, ...] = ()
    insurance: Decimal = NOTHING
    carriage: Decimal = NOTHING
    listed: bool = False
    import_tax: Decimal = NOTHING
    payment: Decimal = NOTHING
    exchange: Decimal | None = None
    exchange_on: dt.date | None = None
    base: str = ""
    exchange_fee: Decimal = NOTHING
    travel: Decimal = NOTHING
    ladder: tuple[Rung, ...] = PLAIN_LADDER
    bounds: Mapping[str, Bounds] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for code in (self.currency, self.home):
            if code not in EXPONENTS:
                raise InputError(f"currency '{code}' is not known", f"venue {self.name}")
        if self.exchange is None and self.home != self.currency:
            raise InputError(
                f"no rate from {self.currency} to {self.home}", f"venue {self.name}", "Give one."
            )
        if self.exchange is not None and not (self.exchange.is_finite() and self.exchange > 0):
            raise InputError(f"rate {self.exchange} is not above 0", f"venue {self.name}")
        for key in SUMS:
            _within(self.name, key, getattr(self, key), MOST)
        for key in RATES:
            _within(self.name, key, getattr(self, key), HIGHEST)
        for band in self.bands:
            _within(self.name, "premium", band.rate, PREMIUM)
        for tax in self.taxes:
            _within(self.name, "tax", tax.rate, HIGHEST)
        _in_order(self.name, self.bounds)
        _rising(self.name, "band", [(band.upto, band.rate) for band in self.bands])
        _rising(self.name, "ladder", [(rung.below, rung.step) for rung in self.ladder])
        if any(rung.step <= 0 for rung in self.ladder):
            raise InputError("a step of the ladder is not above 0", f"venue {self.name}")

    @property
    def home(self) -> str:
        """The currency that the bill ends in."""
        return self.base or self.currency

    @property
    def all_taxes(self) -> tuple[Tax, ...]:
        """Every tax, the first one first; none where nothing is taxed."""
        every = (Tax(self.tax, self.tax_form), *self.taxes)
        return tuple(one for one in every if one.rate and one.on)

    def held(self, fee: str, amount: Decimal) -> Decimal:
        """A fee within its bounds, if it has any."""
        return self.bounds[fee].held(amount) if fee in self.bounds else amount


HIGHEST = Decimal(1)
"""No rate is above the whole of what it is charged on."""
PREMIUM = Decimal(10)
"""A premium above this multiple of the price is none."""
MOST = Decimal(10) ** 9
BOUNDED = ("premium", "surcharge", "insurance", "payment", "exchange_fee")
"""The fees that may have a least and a most."""
RATES = ("surcharge", "tax", "insurance", "import_tax", "payment", "exchange_fee")
SUMS = ("fee", "carriage", "travel")
SAID = {"carriage": "shipping", "import_tax": "import", "exchange_fee": "exchange-fee"}


def _within(venue: str, key: str, value: Decimal, most: Decimal) -> None:
    """Refuse a charge that is no number, below 0, or out of all measure."""
    name = SAID.get(key, key)
    if not value.is_finite() or value < 0:
        raise InputError(f"{name} {value} is below 0", f"venue {venue}")
    if value > most:
        says, top = (
            f"{one:f}" if most == MOST else f"{(one * 100).normalize():f}%" for one in (value, most)
        )
        raise InputError(f"{name} {says} is above {top}", f"venue {venue}")


def _in_order(venue: str, bounds: Mapping[str, Bounds]) -> None:
    """Refuse bounds of a fee that has none, or of which the most is below the least."""
    for key, one in bounds.items():
        name = SAID.get(key, key)
        if key not in BOUNDED:
            raise InputError(f"{name} has no least and no most", f"venue {venue}")
        for value in (one.least, *([one.most] if one.most is not None else [])):
            _within(venue, key, value, MOST)
        if one.most is not None and one.most < one.least:
            raise InputError(
                f"{name}: at most {one.most} is below at least {one.least}", f"venue {venue}"
            )


def _rising(venue: str, what: str, pairs: list[tuple[Decimal | None, Decimal]]) -> None:
    """Refuse bands or rungs out of order, or with figures below 0."""
    last = NOTHING
    for place, (edge, figure) in enumerate(pairs):
        if not figure.is_finite() or figure < 0:
            raise InputError(f"{what} {place + 1}: {figure} is below 0", f"venue {venue}")
        if edge is None and place < len(pairs) - 1:
            raise InputError(f"{what} {place + 1} has no end but is not the last", f"venue {venue}")
        if edge is not None and (not edge.is_finite() or edge <= last):
            raise InputError(
                f"{what} {place + 1} does not end above the one before", f"venue {venue}"
            )
        last = edge if edge is not None else last
