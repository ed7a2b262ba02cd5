"""The currency that all prices are in, and where one is at home: chosen once from a list."""

from __future__ import annotations

import locale
import os
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from appraise.app.picker import Choice, Picker
from appraise.app.sheet import Sheet
from appraise.base.money import EXPONENTS
from appraise.base.moneytext import TITLES
from appraise.base.settings import save_setting

TITLE = "Which currency are your prices in?"
HERE = "this computer"
PLACES = {
    "us": "United States",
    "gb": "United Kingdom",
    "eu": "Europe",
    "au": "Australia",
    "unknown": "somewhere else",
}
EURO = frozenset((
    "AT", "BE", "CY", "DE", "EE", "ES", "FI", "FR", "GR", "HR", "IE", "IT", "LT", "LU",
    "LV", "MT", "NL", "PT", "SI", "SK",
))  # fmt: skip
"""Countries of the euro (ECB, list of euro area members, 2023)."""
CURRENCIES = {"US": "USD", "GB": "GBP", "AU": "AUD", "CA": "CAD", "CH": "CHF", "SE": "SEK"}


def country() -> str:
    """The country of the system's locale, two capital letters; empty where it names none."""
    named = os.environ.get("LC_ALL") or os.environ.get("LC_MONETARY") or os.environ.get("LANG")
    text = named or locale.getlocale()[0] or ""
    place = text.partition(".")[0].partition("_")[2]
    return place.upper() if len(place) == 2 else ""


def currency_of(place: str) -> str:
    """The currency of a country; empty where it is not known."""
    return "EUR" if place in EURO else CURRENCIES.get(place, "")


def region_of(place: str) -> str:
    """The region of a country."""
    region = place.lower()
    return region if region in PLACES else "eu" if place in EURO else "unknown"


def _choose(
    sheet: Sheet[Any],
    title: str,
    names: Mapping[str, str],
    local: str,
    taken: Callable[[str | None], None],
    at: str,
) -> None:
    """A list to choose from, what the system's locale says marked."""
    choices = [
        Choice(code, name, "*" if code == local else " ", HERE if code == local else "")
        for code, name in names.items()
    ]
    sheet.app.push_screen(Picker(title, choices, at), taken)


def choose_currency(sheet: Sheet[Any], then: Callable[[], object]) -> None:
    """A list of currencies, the one of the system's locale on top; esc changes none."""
    session = sheet.session
    usual, local = session.settings.currency, currency_of(country())
    codes = sorted(EXPONENTS, key=lambda code: (code != local, code != usual, code))

    def taken(code: str | None) -> None:
        chosen = code or usual
        if sheet.attempt(lambda: session.log.set_base_currency(chosen)):
            session.settings = replace(session.settings, currency=chosen)
            session.changes += 1
            then()

    at = usual if session.log.currency_chosen or not local else local
    _choose(sheet, TITLE, {code: f"{code}  {TITLES[code]}" for code in codes}, local, taken, at)


def with_currency(sheet: Sheet[Any], then: Callable[[], object]) -> None:
    """Go on, after asking once and for all which currency prices are in."""
    session = sheet.session
    if session.demo or session.log.currency_chosen:
        then()
    else:
        choose_currency(sheet, then)


def first_start(sheet: Sheet[Any], then: Callable[[], object]) -> None:
    """Ask for the currency, then for the region where the settings name none."""
    session = sheet.session

    def region() -> None:
        if session.settings.region == "unknown" and not session.home.settings.exists():
            _choose_region(sheet, then)
        else:
            then()

    with_currency(sheet, region)


def _choose_region(sheet: Sheet[Any], then: Callable[[], object]) -> None:
    session, local = sheet.session, region_of(country())

    def taken(code: str | None) -> None:
        if code and sheet.attempt(lambda: save_setting(session.home.settings, "region", code)):
            session.settings = replace(session.settings, region=code)
        then()

    title = "Where do you collect? Dates such as 5/6 are read that way."
    _choose(sheet, title, PLACES, local, taken, local)
