"""`appraise track` and `appraise log outcome`: how things turned out, and how good the tool was."""

import argparse

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.cli.context import Context


def run_track(args: argparse.Namespace, context: Context) -> None:
    from appraise.documents.track import track_document, track_json, track_of
    from appraise.store.venue_book import read_book

    if not context.home.log.exists():
        raise InputError("there is no log", str(context.home.log), "Log a piece first.")
    with context.log() as log:
        entries, currency, book = log.entries(sort="date"), log.base_currency, read_book(log)
    again = None
    if args.replay:
        from appraise.pricing.price_rows import priced_rows
        from appraise.pricing.replay import replay  # 60 ms with numpy, then seconds

        again = replay(priced_rows(entries, context.knowledge(), currency, context.as_of, book))
    track = track_of(entries, currency, book, again)
    context.show(track_json(track), track_document(track))


def run_outcome(args: argparse.Namespace, context: Context) -> None:
    from appraise.documents.entry import entry_document, entry_line
    from appraise.pricing.outcomes import Outcome, with_outcome

    with context.log() as log:
        was = log.entry(args.id)
        price = Money.parse(args.price, log.base_currency) if args.price else None
        outcome = Outcome(context.as_of, args.found, args.sure, args.by, price)
        entry = log.edit(with_outcome(was, outcome), was=was)
    context.show(entry_document(entry), entry_line(entry))
