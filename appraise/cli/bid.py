"""`appraise bid`: the bill and the one bid that a ceiling leaves at a venue."""

from __future__ import annotations

import argparse
from dataclasses import replace
from decimal import Decimal, InvalidOperation
from typing import TYPE_CHECKING, Any

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.base.moneytext import typed
from appraise.base.settings import Settings
from appraise.cli.context import Context
from appraise.commands.rows_pieces import SETTINGS

if TYPE_CHECKING:
    from appraise.documents.bid import Maximum
    from appraise.records.lot import Lot
    from appraise.records.stored import Stored
    from appraise.records.venue import Venue


def run_bid(args: argparse.Namespace, context: Context) -> None:
    from appraise.documents.bid import bid_document, bid_json

    given = [name for name in ("piece", "worth", "ceiling") if getattr(args, name)]
    if len(given) != 1:
        raise InputError(
            "name a piece or lot file, or give --worth or --ceiling",
            mend="Example: appraise bid --worth 40 --venue 'quay rooms'.",
        )
    settings = _settings(args, context.settings())
    if args.piece:
        from appraise.cli.lotbid import run_lot_bid

        held = _lot_or_worth(args, context)
        if held is not None:
            run_lot_bid(args, context, held, settings)
            return
    told = _for_piece(args, context, settings) if args.piece else _for_sum(args, context, settings)
    context.show(bid_json(told, context.as_of), bid_document(told, context.as_of))


def _lot_or_worth(args: argparse.Namespace, context: Context) -> Stored[Lot] | None:
    """The lot that is named, if any; an amount that names no file and no lot is a worth."""
    from appraise.cli.lotbid import lot_named

    try:
        return lot_named(args, context)
    except InputError as error:
        text = str(args.piece)
        if not typed(text):
            mend = f"{error.mend} Or give a value: appraise bid --worth 40.".strip()
            raise InputError(error.what, error.where, mend) from None
        args.piece, args.worth = None, text
        return None


def _settings(args: argparse.Namespace, settings: Settings) -> Settings:
    """The settings with what the command line says otherwise."""
    told: dict[str, Any] = {
        name: _amount(f"--{name}", getattr(args, name), settings.currency).amount
        for name in SETTINGS
        if getattr(args, name)
    }
    if args.bidders is not None:
        if not 1 <= args.bidders <= 50:
            raise InputError(f"{args.bidders} bidders", "--bidders", "Give 1 to 50.")
        told["bidders"] = args.bidders
    return replace(settings, **told)


def _amount(option: str, text: str, currency: str) -> Money:
    money = Money.parse(text, currency)
    if money.currency != currency:
        raise InputError(f"'{text}' is not in {currency}", option, "Write it in your own currency.")
    return money


def _house(args: argparse.Namespace, context: Context) -> Venue | None:
    return context.book().named(args.venue) if args.venue else None


def _for_sum(args: argparse.Namespace, context: Context, settings: Settings) -> Maximum:
    """The maximum for a ceiling, or for a worth that the user gives."""
    from appraise.documents.bid import of_sum, of_worth
    from appraise.pricing.bill import walk_away
    from appraise.pricing.money import terms_of
    from appraise.records.venuebook import SalePlace

    house, code = _house(args, context), settings.currency
    venue = context.terms_for(SalePlace(), code, args.venue)
    if args.ceiling:
        most = _amount("--ceiling", args.ceiling, code)
        return of_sum(house, venue, most, walk_away(venue, most))
    worth = _amount("--worth", args.worth, code)
    terms = terms_of(settings, house.channel if house else "")
    if args.bidders is not None:
        terms = replace(terms, bidders=args.bidders)
    return of_worth(worth, _doubt(args.doubt), terms, house, venue)


def _doubt(text: str) -> float:
    try:
        value = Decimal(text)
    except InvalidOperation:
        value = Decimal(-1)
    if not 0 <= value < 5:
        raise InputError(f"'{text}' is not an uncertainty", "--doubt", "Give a share such as 0.2.")
    return float(value)


def _for_piece(args: argparse.Namespace, context: Context, settings: Settings) -> Maximum:
    """The maximum for a piece, by the log."""
    from appraise.cli.pieces import found
    from appraise.documents.bid import of_verdict
    from appraise.pricing.money import terms_of
    from appraise.records.piece_file import read_piece
    from appraise.records.venuebook import sale_of
    from appraise.verdict import at_venue, judge
    from appraise.verdict.pay import no_estimate

    knowledge, code = context.knowledge(), settings.currency
    piece = read_piece(found(args.piece), knowledge)
    prices = context.prices(knowledge, code, args.log, context.own(piece, args.log))
    verdict = judge(piece, knowledge, prices, context.as_of, settings)
    if verdict.worth is None:
        raise InputError(no_estimate(verdict), mend="Or give --worth or --ceiling.")
    sale = sale_of(piece)
    house = _house(args, context) or context.book().for_sale(sale.venue, sale.channel)
    venue = context.terms_for(sale, code, args.venue)
    channel = (house.channel if house else "") or piece.channel
    verdict = at_venue(verdict, settings, venue, channel)
    return of_verdict(verdict, house, terms_of(settings, channel).bidders)
