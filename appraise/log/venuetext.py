"""Terms of a house as a person writes them: 'premium=25 to 1000, 20 to 5000, 12'."""

import datetime as dt
import re
from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal, InvalidOperation
from typing import Any

from appraise.base.errors import InputError
from appraise.base.spelling import did_you_mean
from appraise.log.venues import House
from appraise.pricing.venue import (
    NOTHING,
    PLAIN_LADDER,
    Band,
    Bounds,
    Rung,
    Tax,
    TaxForm,
    Venue,
)

PLAIN = "plain"
NONE = "none"
HUNDRED = Decimal(100)
YES_NO = {"yes": True, "no": False}
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
SHARES = {
    "surcharge": "surcharge",
    "insurance": "insurance",
    "import": "import_tax",
    "payment": "payment",
    "exchange-fee": "exchange_fee",
}
SUMS = ("fee", "carriage", "travel")
USUAL = {
    "premium": Decimal(50),
    "surcharge": Decimal(20),
    "tax": Decimal(50),
    "insurance": Decimal(20),
    "payment": Decimal(20),
    "exchange-fee": Decimal(20),
}
"""Per cent above which a rate that is typed is taken for a slip."""
_BOUND = re.compile(r"\s+at (?P<end>least|most)\s+(?P<sum>\S+)$")
MEANING = {
    "currency": "of its prices, as EUR",
    "channel": "what sort of place it is, as auction",
    "usual": "yes: its terms hold for every entry of its channel that names no other venue",
    "premium": "per cent of the hammer price, or of slices of it: 25 to 1000, 20 to 5000, 12; "
    "it and the other fees may end in 'at least 10' or 'at most 900'",
    "whole": "yes: the rate of the slice that the price falls in holds for all of it",
    "surcharge": "per cent of the hammer price, for bidding over a platform",
    "fee": "a flat sum for every lot, in the venue's currency",
    "tax": "20 on premium, 8.25 on all, 20 on premium and shipping; or 5 on hammer, 20 on premium",
    "insurance": "per cent of the hammer price",
    "carriage": "packing and shipping, in the venue's currency",
    "import": "per cent of hammer, premium, shipping and insurance, when it crosses a border",
    "payment": "per cent of the whole invoice, for paying by card",
    "exchange-fee": "per cent of the invoice in your currency",
    "travel": "your share of the journey, in your currency",
    "ladder": "steps of bids: 1 to 50, 5 to 100, 10; plain: an invented ladder; none: any bid",
    "checked": "the day on which you compared all this with the venue's own terms",
    "note": "where those terms stand, or anything else",
}
"""Every field, and what may be written there."""
FIELDS = tuple(MEANING)


def changed(house: House, texts: Mapping[str, str]) -> House:
    """The house with some fields as written; an empty text takes a field back to nothing.

    Raises:
        InputError: for a field that is not known, or a text that does not fit it.
    """
    terms: dict[str, Any] = {}
    beside: dict[str, Any] = {}
    bounds = dict(house.venue.bounds)
    for name, text in texts.items():
        if name not in FIELDS:
            raise InputError(f"field '{name}' is not known", mend=did_you_mean(name, FIELDS))
        plain = " ".join(text.split())
        if name in FEES:
            bounds.pop(FEES[name], None)
            plain, found = _bounded(name, plain)
            bounds |= {FEES[name]: found} if found != Bounds() else {}
        (beside if name in _BESIDE else terms).update(_read(name, plain))
    return replace(house, venue=replace(house.venue, **terms, bounds=bounds), **beside)


def check_usual(house: House) -> None:
    """Refuse a rate that is most likely a slip of the hand.

    Raises:
        InputError: its `where` is the field.
    """
    venue = house.venue
    told = [("premium", band.rate) for band in venue.bands]
    told += [("tax", tax.rate) for tax in venue.all_taxes]
    told += [(name, getattr(venue, key)) for name, key in SHARES.items() if name in USUAL]
    for name, rate in told:
        if rate * HUNDRED > USUAL[name]:
            raise InputError(
                f"{_share(rate)}% is not a usual rate", name, f"Write 0 to {USUAL[name]}."
            )


def new_house(name: str, currency: str) -> House:
    """A house without any charge."""
    return House(Venue(" ".join(name.split()), currency))


def written(house: House) -> dict[str, str]:
    """All fields that say something, as `changed` reads them; the currency always."""
    venue = house.venue
    found = {
        "currency": venue.currency,
        "channel": house.channel,
        "usual": "yes" if house.usual else "",
        "premium": _steps([(band.upto, band.rate * HUNDRED) for band in venue.bands]),
        "whole": "yes" if venue.whole else "",
        "tax": _tax(venue),
        "ladder": _ladder(venue.ladder),
        "checked": house.checked.isoformat() if house.checked else "",
        "note": house.note,
    }
    found |= {name: _share(getattr(venue, key)) for name, key in SHARES.items()}
    found |= {name: _plain(getattr(venue, name)) for name in SUMS}
    for name, key in FEES.items():
        if key in venue.bounds:
            found[name] = f"{found[name] or 0}{_bounds_text(venue.bounds[key])}"
    return {name: found[name] for name in FIELDS if found[name]}


_BESIDE = ("channel", "usual", "checked", "note")
FEES = {
    "premium": "premium",
    "surcharge": "surcharge",
    "insurance": "insurance",
    "payment": "payment",
    "exchange-fee": "exchange_fee",
}
"""The fees that may have a least and a most, by their fields."""


def _bounded(name: str, text: str) -> tuple[str, Bounds]:
    """A fee's text without its bounds, and these."""
    found: dict[str, Decimal] = {}
    while match := _BOUND.search(text):
        found.setdefault(match["end"], _number(name, match["sum"]))
        text = text[: match.start()]
    return text, Bounds(found.get("least", NOTHING), found.get("most"))


def _bounds_text(bounds: Bounds) -> str:
    least = f" at least {_plain(bounds.least)}" if bounds.least else ""
    return least + ("" if bounds.most is None else f" at most {bounds.most.normalize():f}")


def _read(name: str, text: str) -> dict[str, Any]:
    """A field's values by the names of the records' attributes."""
    if name in SHARES:
        return {SHARES[name]: _percent(name, text)}
    if name in SUMS:
        return {name: _number(name, text) if text else NOTHING}
    if name == "currency":
        return {"currency": text.upper(), "base": ""}
    if name == "premium":
        steps = _read_steps(name, text)
        return {"bands": tuple(Band(upto, rate / HUNDRED) for upto, rate in steps)}
    if name == "ladder":
        steps = _read_steps(name, "" if text == PLAIN else text)
        plain = PLAIN_LADDER if text in ("", PLAIN) else ()
        return {"ladder": plain or tuple(Rung(below, step) for below, step in steps)}
    if name == "tax":
        return _read_tax(text)
    if name in ("usual", "whole"):
        return {name: _flag(name, text)}
    return {name: _day(text) if name == "checked" else text}


def _number(name: str, text: str) -> Decimal:
    try:
        value = Decimal(text)
    except InvalidOperation:
        value = Decimal("NaN")
    if not (value.is_finite() and 0 <= value < 10**9):
        raise InputError(f"'{text}' is not a number of 0 or more", name)
    return value


def _percent(name: str, text: str) -> Decimal:
    return _number(name, text.removesuffix("%").strip()) / HUNDRED if text else NOTHING


def _read_steps(name: str, text: str) -> list[tuple[Decimal | None, Decimal]]:
    """Figures, each up to a sum; the last one may go on without end."""
    out: list[tuple[Decimal | None, Decimal]] = []
    for part in text.split(",") if text not in ("", NONE) else ():
        figure, to, edge = part.partition(" to ")
        value = _number(name, figure.replace("%", "").strip())
        out.append((_number(name, edge.strip()) if to else None, value))
    return out


def _read_tax(text: str) -> dict[str, Any]:
    """The first tax and further ones: '5 on hammer, 20 on premium'."""
    taxes = [_one_tax(part.strip()) for part in text.split(",") if text not in ("", NONE)]
    first = taxes[0] if taxes else Tax(NOTHING, TaxForm.NONE)
    return {"tax": first.rate, "tax_form": first.on, "taxes": tuple(taxes[1:])}


def _one_tax(text: str) -> Tax:
    rate, _, what = text.partition(" on ")
    lines = TaxForm.NONE
    for word in re.split(r"\s+and\s+|\s*\+\s*", what.strip()):
        if word not in TAXES:
            known = ", ".join(f"'{rate} on {one}'" for one in TAXES)
            raise InputError(f"'{text}' does not say what is taxed", "tax", f"Write {known}.")
        lines |= TAXES[word]
    return Tax(_percent("tax", rate.strip()), lines)


def _flag(name: str, text: str) -> bool:
    if text and text.lower() not in YES_NO:
        raise InputError(f"'{text}' is neither yes nor no", name)
    return YES_NO.get(text.lower(), False)


def _day(text: str) -> dt.date | None:
    try:
        return dt.date.fromisoformat(text) if text else None
    except ValueError:
        raise InputError(f"'{text}' is not a day", "checked", "Write 2026-11-25.") from None


def _plain(value: Decimal) -> str:
    return f"{value.normalize():f}" if value else ""


def _share(value: Decimal) -> str:
    return _plain(value * HUNDRED)


def _tax(venue: Venue) -> str:
    return ", ".join(f"{_share(one.rate)} on {_taxed(one.on)}" for one in venue.all_taxes)


def _taxed(lines: TaxForm) -> str:
    single = {form: name for name, form in reversed(TAXES.items())}
    return single.get(lines) or " and ".join(single[one] for one in lines)


def _steps(pairs: list[tuple[Decimal | None, Decimal]]) -> str:
    return ", ".join(
        f"{figure.normalize():f}" + ("" if edge is None else f" to {edge.normalize():f}")
        for edge, figure in pairs
    )


def _ladder(ladder: tuple[Rung, ...]) -> str:
    if ladder == PLAIN_LADDER:
        return PLAIN
    return _steps([(rung.below, rung.step) for rung in ladder]) or NONE
