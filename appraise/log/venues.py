"""Where the user buys: each place's terms and the user's own exchange rates, kept in the log.

Every figure is the user's own; none is shipped. Terms change and are read wrongly, so each place
remembers on which day they were last checked.
"""

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass, replace
from decimal import Decimal

from appraise.base.errors import InputError
from appraise.base.money import EXPONENTS, Money
from appraise.base.spelling import did_you_mean
from appraise.log.entries import CHANNELS
from appraise.log.words import folded
from appraise.piece.records import Piece
from appraise.pricing.venue import Venue

TERMS = "Terms change: see the house's own."
HIGHEST = Decimal(10) ** 5
"""No currency is worth more of another; one of them is worth less than the inverse."""


def no_rate(currency: str, base: str, where: str = "") -> InputError:
    """That an exchange rate is missing, and how to enter it."""
    return InputError(
        f"no rate from {currency} to {base}", where, f"Give it: appraise rates {currency} RATE."
    )


@dataclass(frozen=True, slots=True)
class House:
    """A place to buy, with its terms.

    Attributes:
        venue: The terms, in the house's currency; how that stands to the base currency is left
            to the rates.
        channel: What sort of place it is, one of `CHANNELS`; empty: not said.
        usual: Whether its terms hold for every entry of its channel that names no other house.
        checked: The day on which the terms were last compared with the house's own.
        note: Where they stand, or anything else.
    """

    venue: Venue
    channel: str = ""
    usual: bool = False
    checked: dt.date | None = None
    note: str = ""

    def __post_init__(self) -> None:
        where = f"venue {self.name}"
        if not folded(self.name) or not self.name.isprintable():
            raise InputError("a venue needs a name of one line")
        if self.channel and self.channel not in CHANNELS:
            mend = did_you_mean(self.channel, CHANNELS)
            raise InputError(f"channel '{self.channel}' is not known", where, mend)
        if self.usual and not self.channel:
            raise InputError("cannot be usual without a channel", where, "Say channel=auction.")

    @property
    def name(self) -> str:
        """As the user calls it."""
        return self.venue.name

    def in_base(self, currency: str, rate: Decimal | None, on: dt.date | None = None) -> Venue:
        """The terms with the bill ending in the base currency.

        Args:
            currency: ISO 4217 code of the base currency.
            rate: Units of it for one of the house's; not needed where both are one.
            on: The day of the rate.

        Raises:
            InputError: when a rate is needed and there is none.
        """
        if currency == self.venue.currency:
            kept = {key: one for key, one in self.venue.bounds.items() if key != "exchange_fee"}
            return replace(
                self.venue, base=currency, exchange=None, exchange_fee=Decimal(0), bounds=kept
            )
        if rate is None:
            raise no_rate(self.venue.currency, currency, f"venue {self.name}")
        return replace(self.venue, base=currency, exchange=rate, exchange_on=on)


@dataclass(frozen=True, slots=True)
class Rate:
    """What one unit of a currency cost in another on a day, as the user found it.

    Attributes:
        currency: ISO 4217 code of what is turned into `base`.
        base: ISO 4217 code.
        rate: Units of `base` for one of `currency`, 1 / `HIGHEST` to `HIGHEST`.
        on: The day.
        source: Where the user has it from.
    """

    currency: str
    base: str
    rate: Decimal
    on: dt.date
    source: str = ""

    def __post_init__(self) -> None:
        for code in (self.currency, self.base):
            if code not in EXPONENTS:
                raise InputError(
                    f"currency '{code}' is not known", mend=did_you_mean(code, EXPONENTS)
                )
        if self.currency == self.base:
            raise InputError(f"{self.currency} needs no rate to itself")
        if not (self.rate.is_finite() and self.rate > 0):
            raise InputError(f"'{self.rate}' is not a rate above 0", f"rate of {self.currency}")
        if not 1 / HIGHEST <= self.rate <= HIGHEST:
            raise InputError(
                f"'{self.rate}' is not a rate of {1 / HIGHEST:f} to {HIGHEST}",
                f"rate of {self.currency}",
                f"Write how many {self.base} one {self.currency} costs.",
            )


@dataclass(frozen=True, slots=True)
class Sale:
    """Where a piece is met.

    Attributes:
        venue: The house's name; empty: not said.
        channel: One of `CHANNELS`, or empty.
        currency: Of what is asked; empty: not said.
        shipping: What the seller asks to send it; None: not said, so the venue's usual counts.
    """

    venue: str = ""
    channel: str = ""
    currency: str = ""
    shipping: Money | None = None


@dataclass(frozen=True, slots=True)
class Book:
    """All houses and rates of a log; an empty book leaves every price as it was noted."""

    houses: tuple[House, ...] = ()
    rates: tuple[Rate, ...] = ()

    def house(self, name: str) -> House | None:
        """The house of that name; case and accents do not matter."""
        wanted = folded(name)
        return next((one for one in self.houses if folded(one.name) == wanted), None)

    def sells(self, name: str) -> str:
        """The currency in which the house of that name sells; '' where there is none."""
        found = self.house(name)
        return found.venue.currency if found else ""

    def named(self, name: str) -> House:
        """The house of that name.

        Raises:
            InputError: when there is none.
        """
        found = self.house(name)
        if found is None:
            mend = did_you_mean(name, [one.name for one in self.houses])
            raise InputError(f"no venue '{name}'", mend=mend or "See 'appraise venues edit -h'.")
        return found

    def for_sale(self, venue: str, channel: str) -> House | None:
        """The house whose terms hold for a sale: the one named, or the usual one of its channel."""
        found = self.house(venue) if venue.strip() else None
        usual = (one for one in self.houses if one.usual and one.channel == channel)
        return found or next(usual, None)

    def rate(self, currency: str, base: str, on: dt.date) -> Rate | None:
        """The rate nearest to a day, of two equally near the earlier one; None without any."""
        known = [one for one in self.rates if (one.currency, one.base) == (currency, base)]
        return min(known, key=lambda one: (abs((one.on - on).days), one.on), default=None)

    def terms(self, house: House, base: str, on: dt.date) -> Venue | None:
        """A house's terms with the bill in the base currency; None where a rate is missing."""
        try:
            return self.terms_at(house, base, on)
        except InputError:
            return None

    def terms_at(self, house: House, base: str, on: dt.date) -> Venue:
        """A house's terms with the bill in the base currency.

        Raises:
            InputError: where a rate is missing, with the way to enter it.
        """
        known = self.rate(house.venue.currency, base, on)
        return house.in_base(base, known.rate, known.on) if known else house.in_base(base, None)

    def venue_for(self, at: Sale, base: str, on: dt.date) -> Venue:
        """The terms of a sale: those of its house, or shipping alone on top of the price.

        Args:
            at: Where it is, the currency of what is asked, and the shipping.
            base: ISO 4217 code of the base currency.
            on: The day whose rate is wanted.

        Raises:
            InputError: where the house sells in a currency without a rate, or the shipping is in
                one.
        """
        house = self.for_sale(at.venue, at.channel)
        if house is not None:
            return self.sent(self.terms_at(house, base, on), at.shipping, on)
        return self.sent(self.without_terms(at, base, on), at.shipping, on)

    def terms_or_why(self, at: Sale, base: str, on: dt.date) -> tuple[Venue | None, str]:
        """The terms of a sale, or None with the one line that says why they are not known."""
        try:
            return self.venue_for(at, base, on), ""
        except InputError as error:
            return None, str(error)

    def without_terms(self, at: Sale, base: str, on: dt.date) -> Venue:
        """A sale without a house: in the currency of what is asked if that has a rate."""
        name = at.venue or at.channel or "no venue"
        rate = self.rate(at.currency, base, on)
        if rate is None:
            return Venue(name, base)
        return Venue(name, at.currency, exchange=rate.rate, exchange_on=rate.on, base=base)

    def sent(self, venue: Venue, shipping: Money | None, on: dt.date) -> Venue:
        """The terms with the shipping that a listing asks, in place of the usual.

        Raises:
            InputError: where the shipping is in a currency without a rate.
        """
        if shipping is None:
            return venue
        amount = shipping.amount
        if amount and shipping.currency != venue.currency:
            home = self.turned(shipping, venue.home, on)
            if home is None:
                raise no_rate(shipping.currency, venue.home, f"shipping {shipping}")
            amount = home.amount / (venue.exchange or Decimal(1))
        return replace(venue, carriage=amount, listed=True)

    def turned(self, money: Money, base: str, on: dt.date) -> Money | None:
        """An amount in the base currency, rounded half up; None where a rate is missing."""
        if money.currency == base:
            return money
        known = self.rate(money.currency, base, on)
        return Money(money.amount * known.rate, base).rounded() if known else None

    def with_house(self, house: House) -> "Book":
        """The book with a house, in place of one of the same name; one house is usual."""
        others = [one for one in self.houses if folded(one.name) != folded(house.name)]
        if house.usual:
            others = [
                replace(one, usual=False) if one.channel == house.channel else one for one in others
            ]
        return replace(self, houses=_by_name([*others, house]))

    def without_house(self, name: str) -> "Book":
        """The book without a house; errors as in `named`."""
        gone = self.named(name)
        return replace(self, houses=tuple(one for one in self.houses if one != gone))

    def with_rate(self, rate: Rate) -> "Book":
        """The book with a rate, in place of one of the same day."""
        key = (rate.currency, rate.base, rate.on)
        others = [one for one in self.rates if (one.currency, one.base, one.on) != key]
        ordered = sorted([*others, rate], key=lambda one: (one.currency, one.base, one.on))
        return replace(self, rates=tuple(ordered))


def sale_of(piece: Piece) -> Sale:
    """Where a piece under examination is met: `from.where` names the house."""
    where = piece.origin.where if piece.origin else ""
    asked = piece.asking.currency if piece.asking else ""
    return Sale(where, piece.channel, asked, piece.shipping)


def _by_name(houses: Iterable[House]) -> tuple[House, ...]:
    return tuple(sorted(houses, key=lambda one: folded(one.name)))
