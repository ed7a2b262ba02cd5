"""A lot that is meant on the command line: found, and shown, from when and where one looks."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING, Any

from appraise.base.errors import InputError
from appraise.cli.context import Context, now

if TYPE_CHECKING:
    from appraise.log.records import Stored
    from appraise.log.store import Log
    from appraise.records.lot import Lot
    from appraise.report.lots import Now


def now_of(args: argparse.Namespace, context: Context) -> Now:
    """From when and where one looks."""
    from appraise.base.moments import on_day, zone_named
    from appraise.report.lots import Now

    return Now(on_day(now(), context.as_of), zone_named(args.tz), context.as_of)


def lots_of(log: Log) -> tuple[Stored[Lot], ...]:
    """The lots of a log."""
    from appraise.log.records import held
    from appraise.records.lot import Lot

    return held(log, Lot)


def one_of(log: Log, ref: str) -> Stored[Lot]:
    """The lot of that id or title."""
    from appraise.log.records import one
    from appraise.records.lot import Lot

    try:
        return one(log, Lot, ref)
    except InputError as error:
        mend = "'appraise lots list --all' shows all." if "no lot" in error.what else error.mend
        raise InputError(error.what, mend=mend) from None


def show(context: Context, held: Stored[Lot], when: Now, head: str, **more: Any) -> None:
    """Show a lot, with what more a document says."""
    from appraise.report.lots import lot_document, lot_line

    context.show(lot_document(held, when, **more), f"{head}{lot_line(held, when).strip()}")


def talk(words: str) -> None:
    """A line of talk."""
    print(f"  {words}", file=sys.stderr)
