"""A place to buy, with its terms: what comes on top of the hammer price, and the bids it takes.

All figures are the user's own or a plain invention; none is legal or tax advice. Terms change and
are read wrongly, so each place remembers on which day they were last checked.
"""

import datetime as dt
from collections.abc import Mapping
from dataclasses import field, replace
from decimal import Decimal
from typing import ClassVar, Self

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.money import EXPONENTS
from appraise.base.oneline import folded
from appraise.knowledge.basics import CHANNELS
from appraise.records.fields import Field, Record
from appraise.records.quantities import DAY
from appraise.records.terms import (
    MOST,
    NOTHING,
    PLAIN_LADDER,
    Band,
    BandsKind,
    Bounds,
    FeeField,
    LadderKind,
    Rung,
    ShareKind,
    SumKind,
    Tax,
    TaxForm,
    TaxKind,
    within,
)
from appraise.records.values import FLAG, CodeKind, WordKind

AUCTIONS = ("online", "auction")
"""Channels where one bids against others."""
TERMS = "Terms change: check the auction house's current conditions."
USUAL = {
    "premium": 50,
    "surcharge": 20,
    "tax": 50,
    "insurance": 20,
    "payment": 20,
    "exchange_fee": 20,
}
"""Per cent above which a rate that is typed is taken for a slip."""


@dataclass(frozen=True, slots=True)
class Venue(Record):
    """A venue; every rate is a fraction (0.25 for 25 per cent), 0 to 1.

    `exchange` is units of the base currency for one of `currency`, None where both are one, as the
    rate of the day `exchange_on` has it; `base` is the currency that a bill ends in, empty:
    `currency`; `listed` tells that the shipping is what a listing asks. None of these is kept.
    """

    AS_TYPED: ClassVar[bool] = True

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
    bounds: Mapping[str, Bounds] = field(default_factory=dict, hash=False)
    channel: str = ""
    usual: bool = False
    checked: dt.date | None = None
    note: str = ""

    FIELDS: ClassVar[tuple[Field, ...]] = (
        Field("currency", "currency of its prices, e.g. EUR", CodeKind()),
        Field("channel", "what sort of place it is, e.g. auction", WordKind(CHANNELS)),
        Field(
            "usual",
            "yes: its terms hold for every entry of its channel that names no other venue",
            FLAG,
        ),
        FeeField(
            "premium",
            "% of the hammer price, or of bands of it: 25 to 1000, 20 to 5000, 12; it and the "
            "other fees may end in 'at least 10' or 'at most 900'",
            BandsKind(),
            ("bands",),
        ),
        Field(
            "whole", "yes: the rate of the band the price falls in applies to the whole price", FLAG
        ),
        FeeField("surcharge", "% of the hammer price, for bidding on a platform", ShareKind()),
        Field("fee", "a flat sum for every lot, in the venue's currency", SumKind()),
        Field(
            "tax",
            "20 on premium, 8.25 on all, 20 on premium and shipping; or 5 on hammer, 20 on premium",
            TaxKind(),
            ("tax", "tax_form", "taxes"),
        ),
        FeeField("insurance", "% of the hammer price", ShareKind()),
        Field(
            "carriage",
            "packing and shipping, in the venue's currency",
            SumKind(),
            label="shipping",
        ),
        Field(
            "import",
            "% of hammer, premium, shipping and insurance, at a border",
            ShareKind(),
            ("import_tax",),
        ),
        FeeField("payment", "% of the whole invoice, for paying by card", ShareKind()),
        FeeField("exchange-fee", "% of the invoice in your currency", ShareKind()),
        Field("travel", "travel cost to count for this purchase, in your currency", SumKind()),
        Field(
            "ladder",
            "bid increments: 1 up to 50, 5 up to 100, then 10; plain: invented ones; none: any bid",
            LadderKind(),
            label="bid increments",
        ),
        Field("checked", "the day on which you compared all this with the venue's own terms", DAY),
        Field("note", "where those terms stand, or anything else"),
        Field("name", "as you call it", typed=False),
    )

    def check_whole(self) -> None:
        """No charge is out of all measure, and bands and steps rise."""
        where = f"venue {self.name}"
        if not folded(self.name) or not self.name.isprintable():
            raise InputError("a venue needs a name of one line")
        if self.usual and not self.channel:
            raise InputError("cannot be usual without a channel", where, "Write channel=auction.")
        if self.home not in EXPONENTS:
            raise InputError(f"currency '{self.home}' is not known", where)
        if self.exchange is None and self.home != self.currency:
            raise InputError(f"no rate from {self.currency} to {self.home}", where, "Give one.")
        if self.exchange is not None and not (self.exchange.is_finite() and self.exchange > 0):
            raise InputError(f"rate {self.exchange} is not above 0", where)
        for key, bounds in self.bounds.items():
            _in_order(key, bounds)

    @property
    def title(self) -> str:
        """The line to know it by."""
        return self.name

    @property
    def key(self) -> str:
        """What makes two records one: case and accents do not matter."""
        return folded(self.name)

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

    def in_base(self, currency: str, rate: Decimal | None, on: dt.date | None = None) -> Self:
        """The terms with the bill ending in the base currency.

        Args:
            currency: ISO 4217 code of the base currency.
            rate: Units of it for one of the venue's; not needed where both are one.
            on: The day of the rate.

        Raises:
            InputError: when a rate is needed and there is none.
        """
        if currency == self.currency:
            kept = {key: one for key, one in self.bounds.items() if key != "exchange_fee"}
            return replace(self, base=currency, exchange=None, exchange_fee=Decimal(0), bounds=kept)
        if rate is None:
            raise no_rate(self.currency, currency, f"venue {self.name}")
        return replace(self, base=currency, exchange=rate, exchange_on=on)


def no_rate(currency: str, base: str, where: str = "") -> InputError:
    """That an exchange rate is missing, and how to enter it."""
    return InputError(
        f"no rate from {currency} to {base}", where, f"Enter it: appraise rates {currency} RATE."
    )


def check_usual(venue: Venue) -> None:
    """Refuse a rate that is most likely a slip of the hand.

    Raises:
        InputError: its `where` is the field.
    """
    told = [("premium", band.rate) for band in venue.bands]
    told += [("tax", tax.rate) for tax in venue.all_taxes]
    told += [(key, getattr(venue, key)) for key in USUAL if key not in ("premium", "tax")]
    for key, rate in told:
        if rate * 100 > USUAL[key]:
            name = key.replace("_", "-")
            raise InputError(
                f"{ShareKind().write(rate)}% is not a usual rate", name, f"Write 0 to {USUAL[key]}."
            )


def _in_order(key: str, bounds: Bounds) -> None:
    """Refuse bounds of a fee that has none, or of which the most is below the least."""
    name = next((each.name for each in FEES if each.key == key), "")
    if not name:
        raise InputError("has no least and no most", key)
    for value in (bounds.least, bounds.most):
        if value is not None:
            within(name, value, MOST)
    if bounds.most is not None and bounds.most < bounds.least:
        raise InputError(f"at most {bounds.most} is below at least {bounds.least}", name)


FEES = tuple(each for each in Venue.FIELDS if isinstance(each, FeeField))
"""The fees that may have a least and a most."""
