"""Furnishes a throw-away home with the invented demo: its price log and its settings."""

import csv
from datetime import date
from typing import Any

from appraise.base.errors import InputError
from appraise.base.places import Home, shipped_demo
from appraise.base.settings import Settings, load_settings
from appraise.cli.context import open_at
from appraise.log.codec import from_json
from appraise.log.entries import Entry

DEMO_DAY = date(2026, 11, 7)
CURRENCY = "USD"
WHOLE = ("appeal",)
DECIMAL = ("condition_factor",)
YES_NO = ("identified", "maker_known")
AMOUNTS = ("asked", "offered", "paid", "hammer", "postage")


def furnish(home: Home) -> Settings:
    """Fill an empty home with the demo's log.

    Returns:
        The settings under which the demo is shown.
    """
    home.root.mkdir(parents=True, exist_ok=True)
    with open_at(home.log) as log:
        log.set_base_currency(CURRENCY)
        log.add_all(demo_entries())
    return load_settings(home.settings)


def demo_entries() -> list[Entry]:
    """The entries of the demo's price log."""
    path = shipped_demo() / "prices.csv"
    try:
        with path.open(encoding="utf-8", newline="") as lines:
            rows = list(csv.DictReader(lines))
    except OSError as error:
        raise InputError(f"the demo cannot be read: {error.strerror}", str(path)) from None
    return [
        from_json({key: _typed(key, text) for key, text in row.items() if text}) for row in rows
    ]


def _typed(key: str, text: str) -> Any:
    if key in WHOLE:
        return int(text)
    if key in DECIMAL:
        return float(text)
    if key in YES_NO:
        return text == "yes"
    if key in AMOUNTS:
        amount, currency = text.split()
        return {"amount": amount, "currency": currency}
    return text
