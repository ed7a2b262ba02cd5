"""All venues and exchange rates of a log: which terms hold for a sale, and what an amount is worth.

Every figure is the user's own; none is shipped.
"""

import datetime as dt
from bisect import bisect_left
from collections.abc import Mapping, Sequence
from dataclasses import replace
from decimal import Decimal
from functools import cached_property

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.base.oneline import folded
from appraise.base.spelling import did_you_mean
from appraise.records.piece import Piece
from appraise.records.rate import Rate
from appraise.records.venue import Venue, no_rate


@dataclass(frozen=True, slots=True)
class SalePlace:
    """Where a piece is met.

    Attributes:
        venue: The venue's name; empty: not said.
        channel: One of `CHANNELS`, or empty.
        currency: Of what is asked; empty: not said.
        shipping: What the seller asks to send it; None: not said, so the venue's usual counts.
    """

    venue: str = ""
    channel: str = ""
    currency: str = ""
    shipping: Money | None = None


@dataclass(frozen=True)
class VenueBook:
    """All venues and rates of a log; an empty book leaves every price as it was noted."""

    venues: tuple[Venue, ...] = ()
    rates: tuple[Rate, ...] = ()

    def venue(self, name: str) -> Venue | None:
        """The venue of that name; case and accents do not matter."""
        return self._by_name.get(folded(name))

    @cached_property
    def _by_name(self) -> Mapping[str, Venue]:
        """The venues by their folded names; of one name the first."""
        return {folded(one.name): one for one in reversed(self.venues)}

    @cached_property
    def _by_pair(self) -> Mapping[tuple[str, str], Sequence[Rate]]:
        """The rates from one currency to another, the oldest first."""
        found: dict[tuple[str, str], list[Rate]] = {}
        for one in sorted(self.rates, key=lambda each: each.on):
            found.setdefault((one.currency, one.base), []).append(one)
        return found

    def sells(self, name: str) -> str:
        """The currency in which the venue of that name sells; '' where there is none."""
        found = self.venue(name)
        return found.currency if found else ""

    def named(self, name: str) -> Venue:
        """The venue of that name.

        Raises:
            InputError: when there is none.
        """
        found = self.venue(name)
        if found is None:
            mend = did_you_mean(name, [one.name for one in self.venues])
            raise InputError(f"no venue '{name}'", mend=mend or "See 'appraise venues edit -h'.")
        return found

    def for_sale(self, venue: str, channel: str) -> Venue | None:
        """The venue whose terms hold for a sale: the one named, or the usual one of its channel."""
        found = self.venue(venue) if venue.strip() else None
        usual = (one for one in self.venues if one.usual and one.channel == channel)
        return found or next(usual, None)

    def rate(self, currency: str, base: str, on: dt.date) -> Rate | None:
        """The rate nearest to a day, of two equally near the earlier one; None without any."""
        known = self._by_pair.get((currency, base), ())
        place = bisect_left(known, on, key=lambda one: one.on)
        near = known[max(place - 1, 0) : place + 1]
        return min(near, key=lambda one: (abs((one.on - on).days), one.on), default=None)

    def terms(self, venue: Venue, base: str, on: dt.date) -> Venue | None:
        """A venue's terms with the bill in the base currency; None where a rate is missing."""
        try:
            return self.terms_at(venue, base, on)
        except InputError:
            return None

    def terms_at(self, venue: Venue, base: str, on: dt.date) -> Venue:
        """A venue's terms with the bill in the base currency.

        Raises:
            InputError: where a rate is missing, with the way to enter it.
        """
        known = self.rate(venue.currency, base, on)
        return venue.in_base(base, known.rate, known.on) if known else venue.in_base(base, None)

    def venue_for(self, at: SalePlace, base: str, on: dt.date) -> Venue:
        """The terms of a sale: those of its venue, or shipping alone on top of the price.

        Args:
            at: Where it is, the currency of what is asked, and the shipping.
            base: ISO 4217 code of the base currency.
            on: The day whose rate is wanted.

        Raises:
            InputError: where the venue sells in a currency without a rate, or the shipping is in
                one.
        """
        venue = self.for_sale(at.venue, at.channel)
        if venue is not None:
            return self.sent(self.terms_at(venue, base, on), at.shipping, on)
        return self.sent(self.without_terms(at, base, on), at.shipping, on)

    def terms_or_why(self, at: SalePlace, base: str, on: dt.date) -> tuple[Venue | None, str]:
        """The terms of a sale, or None with the one line that says why they are not known."""
        try:
            return self.venue_for(at, base, on), ""
        except InputError as error:
            return None, str(error)

    def without_terms(self, at: SalePlace, base: str, on: dt.date) -> Venue:
        """A sale without a venue: in the currency of what is asked if that has a rate."""
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

    def with_venue(self, venue: Venue) -> "VenueBook":
        """The book with a venue, in place of one of the same name; one of a channel is usual."""
        others = [one for one in self.venues if one.key != venue.key]
        if venue.usual:
            others = [
                replace(one, usual=False) if one.channel == venue.channel else one for one in others
            ]
        return replace(self, venues=tuple(sorted([*others, venue], key=lambda one: one.key)))


def sale_of(piece: Piece) -> SalePlace:
    """Where a piece under examination is met: `from.where` names the venue."""
    where = piece.origin.where if piece.origin else ""
    asked = piece.asking.currency if piece.asking else ""
    return SalePlace(where, piece.channel, asked, piece.shipping)
