"""Parts of a venue's terms, and how each is typed: 'premium=25 to 1000, 20 to 5000, 12'."""

import re
from collections.abc import Mapping
from decimal import Decimal, InvalidOperation
from enum import Flag, auto
from typing import Any

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError, placed
from appraise.records.fields import Field, Typed
from appraise.records.quantities import HUNDRED
from appraise.records.values import Author, Kind

NOTHING = Decimal(0)
HIGHEST = Decimal(1)
"""No rate is above the whole of what it is charged on."""
PREMIUM = Decimal(10)
"""A premium above this multiple of the price is none."""
MOST = Decimal(10) ** 9
PLAIN, NONE = "plain", "none"
_BOUND = re.compile(r"\s+at (?P<end>least|most)\s+(?P<sum>\S+)$")


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


TAXES = {
    "all": TaxForm.ALL,
    "hammer": TaxForm.HAMMER,
    "premium": TaxForm.PREMIUM,
    "surcharge": TaxForm.SURCHARGE,
    "fee": TaxForm.FEE,
    "fees": TaxForm.SURCHARGE | TaxForm.FEE,
    "insurance": TaxForm.INSURANCE,
    "shipping": TaxForm.SHIPPING,
}
"""What a tax can be on; 'all' is hammer, premium and surcharge."""


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


class SumKind(Kind):
    """A sum in a currency that goes without saying."""

    def read(self, text: str, by: Author) -> Decimal:
        return number(text)

    def write(self, value: Any) -> str:
        return f"{value.normalize():f}"

    def check(self, name: str, value: Any) -> None:
        within(name, value, MOST)


class ShareKind(Kind):
    """A fraction, typed in per cent."""

    def read(self, text: str, by: Author) -> Decimal:
        return number(text.removesuffix("%").strip()) / HUNDRED

    def write(self, value: Any) -> str:
        return f"{(value * HUNDRED).normalize():f}"

    def check(self, name: str, value: Any) -> None:
        within(name, value, HIGHEST)


class BandsKind(Kind):
    """Rates of slices of the hammer price: '25 to 1000, 20 to 5000, 12'."""

    def read(self, text: str, by: Author) -> tuple[Band, ...]:
        bands = tuple(Band(edge, rate / HUNDRED) for edge, rate in read_steps(text))
        return () if bands == (Band(None, NOTHING),) else bands

    def write(self, value: Any) -> str:
        return _steps([(band.upto, band.rate * HUNDRED) for band in value])

    def check(self, name: str, value: Any) -> None:
        for band in value:
            within(name, band.rate, PREMIUM)
        _rising(name, [band.upto for band in value])


class LadderKind(Kind):
    """Steps of bids: '1 to 50, 5 to 100, 10', 'plain' or 'none'."""

    def read(self, text: str, by: Author) -> tuple[Rung, ...]:
        return PLAIN_LADDER if text == PLAIN else tuple(Rung(*each) for each in read_steps(text))

    def write(self, value: Any) -> str:
        if value == PLAIN_LADDER:
            return PLAIN
        return _steps([(rung.below, rung.step) for rung in value]) or NONE

    def check(self, name: str, value: Any) -> None:
        for rung in value:
            within(name, rung.step, MOST)
            if not rung.step:
                raise InputError("a bid increment is not above 0", name)
        _rising(name, [rung.below for rung in value])


class TaxKind(Kind):
    """The first tax and further ones: '5 on hammer, 20 on premium'."""

    def read(self, text: str, by: Author) -> tuple[Decimal, TaxForm, tuple[Tax, ...]]:
        taxes = [_one_tax(part.strip()) for part in text.split(",") if text != NONE]
        first = taxes[0] if taxes else Tax(NOTHING, TaxForm.NONE)
        return first.rate, first.on, tuple(taxes[1:])

    def write(self, value: Any) -> str:
        rate, form, more = value
        return ", ".join(
            f"{ShareKind().write(one.rate)} on {_taxed(one.on)}"
            for one in (Tax(rate, form), *more)
            if one.rate and one.on
        )

    def check(self, name: str, value: Any) -> None:
        rate, _, more = value
        for each in (rate, *(one.rate for one in more)):
            within(name, each, HIGHEST)


@dataclass(frozen=True, slots=True)
class FeeField(Field):
    """A fee that may have a least and a most: '25 at least 10 at most 900'."""

    @property
    def key(self) -> str:
        """Its name among the bounds."""
        return self.name.replace("-", "_")

    def told(self, thing: Typed) -> bool:
        """Whether there is such a fee, or a bound of it."""
        return bool(self.value(thing)) or self.key in bounds_of(thing)

    def text(self, thing: Typed) -> str:
        """The fee, and its bounds."""
        bounds = bounds_of(thing).get(self.key)
        fee = self.kind.write(self.value(thing)) if self.value(thing) else ""
        return f"{fee or 0}{_bounds_text(bounds)}" if bounds else fee

    def read(
        self, text: str, thing: Typed, by: Author, so_far: Mapping[str, Any]
    ) -> dict[str, Any]:
        """The fee without its bounds, and all bounds with these."""
        bounds = {**so_far.get("bounds", bounds_of(thing))}
        bounds.pop(self.key, None)
        found: dict[str, Decimal] = {}
        with placed(self.name):
            while match := _BOUND.search(text):
                found.setdefault(match["end"], number(match["sum"]))
                text = text[: match.start()]
        if found:
            bounds[self.key] = Bounds(found.get("least", NOTHING), found.get("most"))
        return {**Field.read(self, text, thing, by, so_far), "bounds": bounds}


def within(name: str, value: Decimal, most: Decimal) -> None:
    """Refuse a charge that is not finite, below 0, or out of all measure."""
    if not value.is_finite():
        raise InputError(f"{value} is not a number", name)
    if value < 0:
        raise InputError(f"{value} is below 0", name)
    if value > most:
        says, top = (
            f"{one:f}" if most == MOST else f"{(one * HUNDRED).normalize():f}%"
            for one in (value, most)
        )
        raise InputError(f"{says} is above {top}", name)


def _rising(name: str, edges: list[Decimal | None]) -> None:
    """Refuse steps that are not in order, or do not end but before others."""
    last = NOTHING
    for place, edge in enumerate(edges, start=1):
        if edge is None and place < len(edges):
            raise InputError(f"step {place} has no end but is not the last", name)
        if edge is not None and (not edge.is_finite() or edge <= last):
            raise InputError(f"step {place} does not end above the one before", name)
        last = edge if edge is not None else last


def bounds_of(thing: Typed) -> Mapping[str, Bounds]:
    """The bounds of a venue's fees."""
    bounds: Mapping[str, Bounds] = getattr(thing, "bounds", {})
    return bounds


def _bounds_text(bounds: Bounds) -> str:
    least = f" at least {bounds.least.normalize():f}" if bounds.least else ""
    return least + ("" if bounds.most is None else f" at most {bounds.most.normalize():f}")


def number(text: str) -> Decimal:
    """A number of 0 or more, below 10^9.

    Raises:
        InputError: when it is none.
    """
    try:
        value = Decimal(text)
    except InvalidOperation:
        value = Decimal("NaN")
    if not (value.is_finite() and 0 <= value < 10**9):
        raise InputError(f"'{text}' is not a number of 0 or more")
    return value


def read_steps(text: str) -> list[tuple[Decimal | None, Decimal]]:
    """Figures, each up to a sum; the last one may go on without end."""
    out: list[tuple[Decimal | None, Decimal]] = []
    for part in text.split(",") if text != NONE else ():
        figure, to, edge = part.partition(" to ")
        value = number(figure.replace("%", "").strip())
        out.append((number(edge.strip()) if to else None, value))
    return out


def _one_tax(text: str) -> Tax:
    rate, _, what = text.partition(" on ")
    lines = TaxForm.NONE
    for word in re.split(r"\s+and\s+|\s*\+\s*", what.strip()):
        if word not in TAXES:
            known = ", ".join(f"'{rate} on {one}'" for one in TAXES)
            raise InputError(f"'{text}' does not say what is taxed", mend=f"Write {known}.")
        lines |= TAXES[word]
    return Tax(number(rate.strip().removesuffix("%").strip()) / HUNDRED, lines)


def _taxed(lines: TaxForm) -> str:
    single = {form: name for name, form in reversed(TAXES.items())}
    return single.get(lines) or " and ".join(single[one] for one in lines)


def _steps(pairs: list[tuple[Decimal | None, Decimal]]) -> str:
    return ", ".join(
        f"{figure.normalize():f}" + ("" if edge is None else f" to {edge.normalize():f}")
        for edge, figure in pairs
    )
