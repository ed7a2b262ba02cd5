"""Terms of a house as a person writes them: 'premium=25 to 1000, 20 to 5000, 12'."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal, InvalidOperation
from typing import Any

from appraise.base.errors import InputError
from appraise.base.spelling import did_you_mean
from appraise.log.venues import House
from appraise.pricing.venue import NOTHING, PLAIN_LADDER, Band, Rung, TaxForm, Venue

PLAIN = "plain"
NONE = "none"
HUNDRED = Decimal(100)
YES_NO = {"yes": True, "no": False}
TAXES = {
    "all": TaxForm.ALL,
    "premium": TaxForm.PREMIUM,
    "hammer and premium": TaxForm.HAMMER_AND_PREMIUM,
}
SHARES = {
    "surcharge": "surcharge",
    "insurance": "insurance",
    "import": "import_tax",
    "payment": "payment",
    "exchange-fee": "exchange_fee",
}
SUMS = ("carriage", "travel")
MEANING = {
    "currency": "of its prices, as EUR",
    "channel": "what sort of place it is, as auction",
    "usual": "yes: its terms hold for every entry of its channel that names no other venue",
    "premium": "per cent of the hammer price, or of slices of it: 25 to 1000, 20 to 5000, 12",
    "whole": "yes: the rate of the slice that the price falls in holds for all of it",
    "surcharge": "per cent of the hammer price, for bidding over a platform",
    "tax": "20 on premium, 8.25 on all, or 20 on hammer and premium",
    "insurance": "per cent of the hammer price",
    "carriage": "packing and carriage, in the venue's currency",
    "import": "per cent of hammer, premium, carriage and insurance, when it crosses a border",
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
    for name, text in texts.items():
        if name not in FIELDS:
            raise InputError(f"field '{name}' is not known", mend=did_you_mean(name, FIELDS))
        (beside if name in _BESIDE else terms).update(_read(name, " ".join(text.split())))
    return replace(house, venue=replace(house.venue, **terms), **beside)


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
    return {name: found[name] for name in FIELDS if found[name]}


_BESIDE = ("channel", "usual", "checked", "note")


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
    if text in ("", NONE):
        return {"tax": NOTHING, "tax_form": TaxForm.NONE}
    rate, on, what = text.partition(" on ")
    if not on or what.strip() not in TAXES:
        known = ", ".join(f"'{rate} on {one}'" for one in TAXES)
        raise InputError(f"'{text}' does not say what is taxed", "tax", f"Write {known}.")
    return {"tax": _percent("tax", rate.strip()), "tax_form": TAXES[what.strip()]}


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
    names = {form: name for name, form in TAXES.items()}
    return f"{_share(venue.tax)} on {names[venue.tax_form]}" if venue.tax_form in names else ""


def _steps(pairs: list[tuple[Decimal | None, Decimal]]) -> str:
    return ", ".join(
        f"{figure.normalize():f}" + ("" if edge is None else f" to {edge.normalize():f}")
        for edge, figure in pairs
    )


def _ladder(ladder: tuple[Rung, ...]) -> str:
    if ladder == PLAIN_LADDER:
        return PLAIN
    return _steps([(rung.below, rung.step) for rung in ladder]) or NONE
