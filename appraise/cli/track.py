"""`appraise track` and `appraise log outcome`: how things turned out, and how good the tool was."""

import argparse

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.cli.context import Context
from appraise.cli.exits import Exit
from appraise.cli.options import Commands, command, with_day, with_json


def add(commands: Commands) -> None:
    """Add `appraise track`."""
    track = command(commands, "track", "how accurate past estimates have been")
    says = "back-test: estimate every price again from those logged before it, and score that"
    track.add_argument("--replay", action="store_true", help=says)
    with_json(track)
    track.set_defaults(run=run_track)


def add_outcome(actions: Commands) -> None:
    """Add `appraise log outcome`."""
    outcome = command(actions, "outcome", "record the outcome of a logged piece")
    outcome.add_argument("id")
    outcome.add_argument("--found", default="", metavar="STATE", help="together, married, ...")
    outcome.add_argument("--sure", default="likely", help="certain, likely or guess")
    outcome.add_argument("--by", default="", help="found by whom")
    outcome.add_argument("--price", metavar="AMOUNT", help="the later price, e.g. '38 USD'")
    with_json(outcome)
    with_day(outcome)
    outcome.set_defaults(run=run_outcome)


def run_track(args: argparse.Namespace, context: Context) -> Exit:
    """Show the track record."""
    from appraise.log.bookkeeping import read_book
    from appraise.report.track import track_json, track_of, track_text

    if not context.home.log.exists():
        raise InputError("there is no log", str(context.home.log), "Log a piece first.")
    with context.log() as log:
        entries, currency, book = log.entries(sort="date"), log.base_currency, read_book(log)
    again = None
    if args.replay:
        from appraise.log.priced import priced_rows
        from appraise.pricing.replay import replay  # 60 ms with numpy, then seconds

        again = replay(priced_rows(entries, context.knowledge(), currency, context.as_of, book))
    track = track_of(entries, currency, book, again)
    context.show(track_json(track), track_text(track))
    return Exit.DONE


def run_outcome(args: argparse.Namespace, context: Context) -> Exit:
    """Keep what became of a piece."""
    from appraise.log.outcomes import Outcome, with_outcome
    from appraise.report.entry import entry_document, entry_line

    with context.log() as log:
        was = log.entry(args.id)
        price = Money.parse(args.price, log.base_currency) if args.price else None
        outcome = Outcome(context.as_of, args.found, args.sure, args.by, price)
        entry = log.edit(with_outcome(was, outcome), was=was)
    context.show(entry_document(entry), entry_line(entry))
    return Exit.DONE
