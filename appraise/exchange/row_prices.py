"""What the amounts of a row make: a price, less its discount, out of a total, with its premium."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from decimal import Decimal
from typing import Any

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.exchange import sheet_cells
from appraise.records.entry import BESIDE

PRICES = ("price", "paid", "hammer", "asked", "offered")
_PRICE_OF = {"asking": "asked", "refused": "asked", "hammer": "hammer", "unsold": "hammer"}
_LONGEST = 120  # characters of a cell that tells a price
_PERCENT = re.compile(r"(.*\d[^+]*?)\s*\+\s*(\d{1,2}(?:[.,]\d+)?)\s?%[^\d]*")  # '85 € + 20 %'


def priced(values: dict[str, Any], commission: bool) -> bool:
    """Put price and total where the record wants them; whether the total was needed.

    Args:
        values: The row's values.
        commission: Whether its premium is called as that is which a seller pays.
    """
    if values["record"] == "sold" and "fees" not in values and commission:
        values["fees"] = values.pop("premium", None)
    price, total = values.pop("price", None), values.pop("total", None)
    less = values.pop("discount", None)
    used = total is not None and price is None and not any(values.get(n) for n in PRICES)
    if used:
        price = _less(total, [values[name] for name in BESIDE if values.get(name)])
    if price is not None and less and not _adds_up(price, total, values):
        price = _less(price, [less])
    if price is not None:
        usual = "hammer" if values.get("premium") else "paid"
        values.setdefault(_PRICE_OF.get(values["record"], usual), price)
    return used or total is None


def with_percent(name: str, cell: str, point: str, usual: str) -> dict[str, Money]:
    """A price that tells its premium in hundredths of it; empty where it does not."""
    match = _PERCENT.fullmatch(cell) if name in PRICES and len(cell) <= _LONGEST else None
    if match is None:
        return {}
    try:
        price = sheet_cells.amount(match[1], point, usual)
    except InputError:
        return {}
    share = Decimal(match[2].replace(",", ".")) / 100
    return {name: price, "premium": replace(price, amount=round(price.amount * share, 2))}


def billed(values: dict[str, Any], price: Money, bill: Mapping[str, str], point: str) -> str:
    """Take the parts of a bill for the amount that was booked; why they are none."""
    sold = values["record"] == "sold"
    if "fees" in bill and not sold:
        bill = {**{n: a for n, a in bill.items() if n != "fees"}, "premium": bill["fees"]}
    try:
        told = {name: sheet_cells.amount(one, point, price.currency) for name, one in bill.items()}
    except InputError:
        return "its text tells other amounts"
    first = [name for name in told if name not in BESIDE]
    kept = -1 if sold else 1  # what a seller pays is off the price
    booked = sum(one.amount * (kept if name == "fees" else 1) for name, one in told.items())
    if len(first) != 1 or booked != price.amount:
        return "its text tells other amounts"
    values |= {name: one for name, one in told.items() if name in BESIDE}
    values["price"] = told[first[0]]
    return ""


def _less(total: Money, beside: Sequence[Money]) -> Money:
    """A total without what came on top, where that is in its currency and leaves anything."""
    price = total
    for one in beside:
        if one.currency != total.currency:
            return total
        price = replace(price, amount=price.amount - one.amount)
    return price if price.amount > Decimal(0) else total


def _adds_up(price: Money, total: Money | None, values: Mapping[str, Any]) -> bool:
    """Whether a total is the price and what came on top, so that a discount is off it already."""
    beside = [values[name] for name in BESIDE if values.get(name)]
    return total is not None and total.amount == price.amount + sum(one.amount for one in beside)
