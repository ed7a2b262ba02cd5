"""The currency of all prices: asked once, kept in the log, `appraise log currency`."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING

from appraise.base.errors import InputError
from appraise.cli.asking import ask, can_ask
from appraise.cli.context import Context

if TYPE_CHECKING:
    from appraise.store.log import Log


def base_currency(context: Context, log: Log) -> str:
    """The currency of amounts that name none: the log's; while none was chosen, it is asked for.

    Where nobody can be asked it is the one of the settings, which is said.
    """
    if log.currency_chosen:
        return log.base_currency
    usual = context.settings().currency
    if not can_ask(context):
        print(
            f"  amounts without a currency are {usual}; 'appraise log currency CODE' changes this",
            file=sys.stderr,
        )
        return usual
    while True:
        code = ask(f"Which currency are your prices in? [{usual}]").upper() or usual
        try:
            log.set_base_currency(code)
            return code
        except InputError as error:
            print(f"  {error}", file=sys.stderr)


def run_currency(args: argparse.Namespace, context: Context) -> None:
    with context.log() as log:
        if args.code:
            log.set_base_currency(args.code.upper())
        chosen = log.currency_chosen
        code = log.base_currency if chosen else context.settings().currency
    document = {"schema": "appraise.currency/1", "currency": code, "chosen": chosen}
    context.show(document, code if chosen else f"{code}, until you choose one")
