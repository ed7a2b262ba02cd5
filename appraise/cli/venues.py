"""`appraise venues` and `appraise rates`: the user's own record of what comes on top of a price."""

import argparse
from decimal import Decimal, InvalidOperation
from typing import Any

from appraise.base.errors import InputError
from appraise.base.jsonvalues import picked
from appraise.cli.context import Context
from appraise.commands.workspace import day
from appraise.records.fields import changed, filled, pair
from appraise.records.rate import Rate
from appraise.records.venue import TERMS, Venue

NONE = "No venues yet. 'appraise venues edit NAME premium=25' adds one."
NO_RATES = "No rates yet. 'appraise rates EUR 1.08 --source \"my bank\"' adds one."


def run_list(args: argparse.Namespace, context: Context) -> None:
    book, bare = context.book(), _without_terms(context)
    document = {
        "schema": "appraise.venues/1",
        "venues": [_json(one) for one in book.venues],
        "without_terms": bare,
        "terms": TERMS,
    }
    lines = [_line(one) for one in book.venues] or [NONE]
    if bare:
        told = ", ".join(f"{name or 'no venue named'} ({count})" for name, count in bare.items())
        lines += ["", "Hammer prices without venue terms, used as logged: " + told]
    context.show(document, "\n".join([*lines, *([TERMS] if book.venues else [])]))


def _without_terms(context: Context) -> dict[str, int]:
    """Hammer and asking prices of the log that no venue's bill completes, by venue."""
    from appraise.pricing.cost_basis import unbilled

    if not context.home.log.exists():
        return {}
    with context.log() as log:
        entries = log.entries()
    return unbilled(entries, context.settings().currency, context.book())


def _line(house: Venue) -> str:
    told = filled(house)
    shown = ("channel", "premium", "tax", "surcharge", "fee", "carriage")
    parts = [f"{name} {told[name]}" for name in shown if name in told]
    usual = " (usual)" if house.usual else ""
    checked = f"checked {house.checked}" if house.checked else "never checked"
    return f"{house.name}{usual}: {'; '.join(parts) or 'no fees'}; {checked}"


def _json(house: Venue) -> dict[str, Any]:
    return {"name": house.name, **filled(house)}


def _show(context: Context, house: Venue, head: str = "") -> None:
    from appraise.documents.bid import terms_said

    told = filled(house)
    lines = [head or house.name, *(f"  {key:<13} {text}" for key, text in told.items())]
    lines.append(terms_said(house, context.as_of))
    document = {"schema": "appraise.venue/1", "venue": _json(house), "terms": TERMS}
    context.show(document, "\n".join(lines))


def run_show(args: argparse.Namespace, context: Context) -> None:
    _show(context, context.book().named(args.name))


def run_remove(args: argparse.Namespace, context: Context) -> None:
    from appraise.store.venue_book import drop_venue

    with context.log() as log:
        gone = drop_venue(log, args.name).thing
    _show(context, gone, f"forgotten: {gone.name}")


def run_edit(args: argparse.Namespace, context: Context) -> None:
    """Note or change a venue's terms; what is noted today counts as checked today."""
    from appraise.records.venue import check_usual
    from appraise.store.venue_book import keep_venue, read_book

    texts, by = dict(map(pair, args.changes)), context.author()
    with context.log() as log:
        was = read_book(log).venue(args.name)
        texts.setdefault("checked", context.as_of.isoformat())
        name, code = " ".join(args.name.split()), texts.get("currency", by.currency).upper()
        venue = changed(was or Venue(name, code), texts, by)
        check_usual(venue)
        keep_venue(log, venue)
    _show(context, venue, f"{'changed' if was else 'noted'}: {venue.name}")


def run_rates(args: argparse.Namespace, context: Context) -> None:
    from appraise.store.records import keep

    if args.code and args.rate:
        base = context.settings().currency
        on = day(args.on) if args.on else context.as_of
        rate = Rate(args.code.upper(), base, _number(args.rate), on, args.source)
        with context.log() as log:
            keep(log, rate)
    elif args.code or args.on or args.source:
        raise InputError("a rate is written as CODE RATE", mend="Write: appraise rates EUR 1.08.")
    rates = context.book().rates
    lines = [
        f"{one.on}  1 {one.currency} = {one.rate} {one.base}"
        + (f"  ({one.source})" if one.source else "")
        for one in rates
    ]
    told = [picked(one, "currency base rate on source") for one in rates]
    context.show({"schema": "appraise.rates/1", "rates": told}, "\n".join(lines or [NO_RATES]))


def _number(text: str) -> Decimal:
    try:
        return Decimal(text)
    except InvalidOperation:
        raise InputError(f"'{text}' is not a number", "RATE") from None
