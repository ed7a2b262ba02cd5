"""`appraise budget`: what may be spent in a month or year, and what is left of it."""

import argparse

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.cli.context import Context
from appraise.commands.rows_lots import PERIODS


def run_budget(args: argparse.Namespace, context: Context) -> None:
    from appraise.cli.currency import base_currency
    from appraise.documents.budget import budget_document, purse_json
    from appraise.records.budget import Budget
    from appraise.store.venue_book import keep_budget, read_budget_status

    if (args.none and args.amount) or (args.per and not args.amount):
        raise InputError(
            "a budget is AMOUNT --per month or year, or --none",
            mend="Example: appraise budget 150 --per month.",
        )
    with context.log() as log:
        code = base_currency(context, log) if args.amount else context.settings().currency
        if args.none:
            keep_budget(log, None)
        elif args.amount:
            amount = Money.parse(args.amount, code)
            keep_budget(log, Budget(amount, args.per or PERIODS[0], context.as_of))
        purse = read_budget_status(log, code, context.as_of)
    context.show(purse_json(purse, context.as_of), budget_document(purse))
