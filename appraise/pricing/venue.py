"""The terms of a place to buy: what comes on top of the hammer price, and the bids it takes.

All figures are the user's own or a plain invention; none is legal or tax advice.
"""

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from appraise.base.errors import InputError
from appraise.base.money import EXPONENTS

NOTHING = Decimal(0)
AUCTIONS = ("online", "auction")
"""Channels where one bids against others."""


class TaxForm(StrEnum):
    """What a sales tax or value added tax is charged on."""

    NONE = "none"
    ALL = "hammer, premium and surcharge"
    PREMIUM = "premium"
    HAMMER_AND_PREMIUM = "hammer and premium"


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
    """The terms of one venue; every rate is a fraction (0.25 for 25 per cent), 0 or more.

    Attributes:
        name: As the user calls it.
        currency: ISO 4217 code of its prices.
        bands: Premium bands by rising `upto`; none: no premium.
        whole: The rate of the band that the hammer price falls in is charged on all of it.
        surcharge: Of the hammer price, for bidding over a platform.
        tax_form: What the tax is charged on.
        tax: The rate of the tax.
        insurance: Of the hammer price.
        carriage: Packing and carriage, a fixed sum.
        import_tax: Of hammer, premium, carriage and insurance together, when it crosses a border.
        payment: Of the whole invoice, for paying by card and the like.
        exchange: Units of the base currency for one of `currency`; None: the same currency.
        base: ISO 4217 code of the base currency; empty: `currency`.
        exchange_fee: Of the invoice in the base currency.
        travel: Share of the journey, in the base currency.
        ladder: The bids that are taken, by rising `below`.
    """

    name: str
    currency: str
    bands: tuple[Band, ...] = ()
    whole: bool = False
    surcharge: Decimal = NOTHING
    tax_form: TaxForm = TaxForm.NONE
    tax: Decimal = NOTHING
    insurance: Decimal = NOTHING
    carriage: Decimal = NOTHING
    import_tax: Decimal = NOTHING
    payment: Decimal = NOTHING
    exchange: Decimal | None = None
    base: str = ""
    exchange_fee: Decimal = NOTHING
    travel: Decimal = NOTHING
    ladder: tuple[Rung, ...] = PLAIN_LADDER

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
        for key in _CHARGES:
            value: Decimal = getattr(self, key)
            if not value.is_finite() or value < 0:
                raise InputError(f"{key} {value} is below 0", f"venue {self.name}")
        _rising(self.name, "band", [(band.upto, band.rate) for band in self.bands])
        _rising(self.name, "ladder", [(rung.below, rung.step) for rung in self.ladder])
        if any(rung.step <= 0 for rung in self.ladder):
            raise InputError("a step of the ladder is not above 0", f"venue {self.name}")

    @property
    def home(self) -> str:
        """The currency that the bill ends in."""
        return self.base or self.currency


_CHARGES = (
    "surcharge",
    "tax",
    "insurance",
    "carriage",
    "import_tax",
    "payment",
    "exchange_fee",
    "travel",
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
