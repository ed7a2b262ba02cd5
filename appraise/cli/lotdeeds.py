"""What is done to a lot from the command line: bid, won, lost, passed over."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

from appraise.base.errors import InputError
from appraise.base.money import Money, as_json
from appraise.cli.context import Context, day
from appraise.cli.exits import Exit

if TYPE_CHECKING:
    from appraise.log.records import ChangeSet, Stored
    from appraise.log.store import Log
    from appraise.records.entry import Entry
    from appraise.records.lot import Lot
    from appraise.report.lots import Now
    from appraise.verdict import Verdict

SHARE = "share of each piece, e.g. '3 2 1', or 'equal' (default: by their worths)"


def add(of_one: Callable[..., argparse.ArgumentParser], actions: Any) -> None:
    """Add the actions."""
    bid = of_one(actions, "bid", "record your bid; --none withdraws it", run_bid)
    bid.add_argument("amount", nargs="?", metavar="AMOUNT", help="the hammer price you bid up to")
    bid.add_argument("--chance", type=int, metavar="N", help="chance that it wins, in %")
    bid.add_argument("--none", action="store_true", help="withdraw the bid")
    bid.add_argument("--yes", action="store_true", help="record a bid above the maximum too")

    won = of_one(
        actions,
        "won",
        "record a lot you won; the cost is divided among the pieces and logged",
        run_won,
    )
    won.add_argument("--hammer", metavar="AMOUNT", required=True, help="the hammer price")
    won.add_argument("--total", metavar="AMOUNT", help="what you paid in total, by the invoice")
    won.add_argument("--share", metavar="SHARES", default="", help=SHARE)

    lost = of_one(
        actions, "lost", "record a lot you lost; for a single piece its price is logged", run_lost
    )
    lost.add_argument("--hammer", metavar="AMOUNT", help="the hammer price")
    lost.add_argument(
        "--share",
        metavar="SHARES",
        default="",
        help=("how to divide the price among several pieces"),
    )

    passed = of_one(actions, "pass", "record that you did not bid", run_pass)
    for each in (won, lost, passed):
        each.add_argument("--on", metavar="DATE", help="day (default: today)")


def _amount(option: str, text: str, currency: str) -> Money:
    try:
        return Money.parse(text, currency)
    except InputError as error:
        raise InputError(error.what, option, error.mend) from None


def run_bid(args: argparse.Namespace, context: Context) -> Exit:
    """Note a bid, and what it does to the budget."""
    from appraise.cli.lotlook import now_of, one_of, show, talk
    from appraise.keeping.lotsteps import with_bid, without_bid
    from appraise.log.records import Stored, change

    if bool(args.amount) == args.none:
        raise InputError("a bid is an AMOUNT, or --none", mend="Example: appraise lots bid ID 46.")
    when = now_of(args, context)
    with context.log() as log:
        was = one_of(log, args.id)
    if not args.none and not args.yes:
        _query(context, was, _amount("AMOUNT", args.amount, was.thing.currency))
    with context.log() as log:
        was = one_of(log, args.id)
        if args.none:
            lot = without_bid(was.thing)
        else:
            bid = _amount("AMOUNT", args.amount, was.thing.currency)
            lot = with_bid(was.thing, bid, when.at, args.chance)
        doubts = bid_doubts(log, Stored(was.id, lot), context)
        held = change(log, Stored(was.id, lot), was=was.thing)
    for words in doubts:
        talk(f"! {words}")
    show(context, held, when, "", warnings=doubts)
    return Exit.DONE


def _query(context: Context, held: Stored[Lot], bid: Money) -> None:
    """Ask about a bid above the maximum before it is recorded; a rate that is missing is no doubt.

    Raises:
        InputError: when it is not agreed to.
    """
    from appraise.cli.asking import sure
    from appraise.cli.lotbid import maximum_for
    from appraise.keeping.lotworth import above

    lot = held.thing
    if not lot.open or not (lot.items or lot.ceiling) or bid.currency != lot.currency:
        return
    try:
        doubt = above(maximum_for(context, held, context.settings()).advice, bid)
    except InputError:
        return
    sure(context, doubt)


def bid_doubts(log: Log, held: Stored[Lot], context: Context) -> list[str]:
    """What to think of before a bid stands: one's own ceiling, and the budget."""
    from appraise.log.bookkeeping import read_book
    from appraise.log.outlay import bid_warnings, read_purse

    code = context.settings().currency
    purse = read_purse(log, code, context.as_of)
    return list(bid_warnings(held, read_book(log), purse, context.as_of))


def _weights(
    lot: Lot,
    share: str,
    verdicts: Sequence[Verdict | None],
    turned: Callable[[Money], Money | None],
) -> Sequence[float]:
    """The shares as stated, else by the worths of the pieces."""
    from appraise.keeping.lotworth import all_valued, weights_of, worth_weights

    if len(lot.items) <= 1:
        return (1.0,)
    if share:
        return weights_of(share, len(lot.items))
    return worth_weights(all_valued(lot, verdicts, turned), lot.selling)


def run_won(args: argparse.Namespace, context: Context) -> Exit:
    """Log a lot that was won, the cost shared out over its pieces."""
    from appraise.cli.lotbid import judged_by_log
    from appraise.cli.lotlook import now_of, one_of
    from appraise.log.bookkeeping import read_book
    from appraise.log.lotbuys import whole_cost, won_act

    when, code = now_of(args, context), context.settings().currency
    on = day(args.on) if args.on else context.as_of
    with context.log() as log:
        held, book = one_of(log, args.id), read_book(log)
        lot = held.thing
        hammer = _amount("--hammer", args.hammer, lot.currency)
        total = whole_cost(lot, hammer, book, code, on)
        if args.total:
            total = _amount("--total", args.total, code)
        verdicts = judged_by_log(lot, context, context.settings())
        weights = _weights(lot, args.share, verdicts, lambda one: book.turned(one, code, on))
        act = won_act(held, hammer, on, total, weights, verdicts)
        _write(log, held, act, when, context, total)
    return Exit.DONE


def run_lost(args: argparse.Namespace, context: Context) -> Exit:
    """Note that a lot was lost, and log what it went for where that says something."""
    from appraise.cli.lotbid import judged_by_log
    from appraise.cli.lotlook import now_of, one_of, talk
    from appraise.keeping.lotworth import weights_of
    from appraise.log.bookkeeping import read_book
    from appraise.log.lotbuys import SEVERAL, carriage_of, lost_act

    when = now_of(args, context)
    on = day(args.on) if args.on else context.as_of
    with context.log() as log:
        held = one_of(log, args.id)
        lot = held.thing
        hammer = _amount("--hammer", args.hammer, lot.currency) if args.hammer else None
        several = len(lot.items) > 1
        weights = weights_of(args.share, len(lot.items)) if several and args.share else None
        verdicts: Sequence[Verdict | None] = (None,) * len(lot.items)
        if hammer:
            verdicts = judged_by_log(lot, context, context.settings())
        posted = carriage_of(lot, read_book(log))
        act = lost_act(held, hammer, on, verdicts, weights, posted)
        if several and hammer and weights is None:
            talk(f"{SEVERAL} Use --share to log it anyway.")
        _write(log, held, act, when, context)
    return Exit.DONE


def run_pass(args: argparse.Namespace, context: Context) -> Exit:
    """Note that a lot was passed over."""
    from appraise.cli.lotlook import now_of, one_of
    from appraise.log.lotbuys import passed_act

    when = now_of(args, context)
    on = day(args.on) if args.on else context.as_of
    with context.log() as log:
        held = one_of(log, args.id)
        _write(log, held, passed_act(held, on), when, context)
    return Exit.DONE


def _write(
    log: Log,
    held: Stored[Lot],
    act: ChangeSet,
    when: Now,
    context: Context,
    total: Money | None = None,
) -> None:
    """Write a result as one act, and show the lot with what was logged."""
    from appraise.cli.lotlook import show
    from appraise.log.records import commit
    from appraise.records.entry import Entry
    from appraise.report.entry import entry_json, entry_line

    ids = commit(log, act)
    entries: list[Entry] = [
        one.named(entry) for one, entry in zip(act.add, ids, strict=True) if isinstance(one, Entry)
    ]
    more: dict[str, Any] = {"entries": [entry_json(one) for one in entries]}
    if total is not None:
        more["total"] = as_json(total)
    head = "".join(f"logged: {entry_line(one)}\n" for one in entries)
    if total is not None:
        head += f"in total {total}\n"
    after: Any = act.change[0]
    show(context, after, when, head, **more)
