"""What happens to a kept piece, from the command line: each is a change that `log undo` takes back.

The day of what happened is `--as-of`, today unless said otherwise.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from typing import TYPE_CHECKING

from appraise.base.errors import InputError
from appraise.cli.context import Context
from appraise.cli.exits import Exit
from appraise.cli.options import Commands, command, with_day, with_json

if TYPE_CHECKING:
    from appraise.log.records import Stored
    from appraise.records.owned import OwnedPiece

DONE = ("cleaned", "mended", "shown", "other")
WHICH = "its number, the first letters of its id, or its title"
TO = "to whom or where"
CLOSED = "Opening a package and cleaning a plate are a conservator's work."


def add(actions: Commands) -> None:
    """Add the actions."""
    move = _of_one(actions, "move", "move the piece to another place", run_move)
    move.add_argument("place", nargs="+", metavar="PLACE", help="room, box, drawer")

    lend = _of_one(actions, "lend", "record a loan, exhibition or conservation treatment", run_lend)
    lend.add_argument("--to", required=True, help=TO)
    lend.add_argument("--until", metavar="DATE", help="the day it is due back")
    says = "lent, on-show or with-conservator"
    lend.add_argument("--as", dest="sort", default="lent", metavar="STATUS", help=says)
    lend.add_argument("--note", default="")

    back = _of_one(actions, "back", "returned", run_back)
    back.add_argument("--place", help="present location, if changed")
    back.add_argument("--cost", metavar="AMOUNT", help="the cost, e.g. '20 USD'")
    back.add_argument("--note", default="")

    did = _of_one(actions, "did", "record treatment or another event, and its cost", run_did)
    did.add_argument("what", metavar="WHAT", help=", ".join(DONE))
    did.add_argument("--to", default="", help="by whom, or where")
    did.add_argument("--cost", metavar="AMOUNT", help="as '20 USD'")
    did.add_argument("--note", default="")

    light = _of_one(actions, "light", "record light exposure: hours and lux", run_light)
    light.add_argument("hours", type=int)
    light.add_argument("lux", type=int)
    light.add_argument("--where", default="")

    give = _of_one(actions, "give", "record that it was given away", run_give)
    give.add_argument("--to", required=True, help=TO)

    lost = _of_one(actions, "lost", "record that it is missing, or was found again", run_lost)
    which = lost.add_mutually_exclusive_group()
    which.add_argument("--stolen", action="store_true", help="stolen")
    which.add_argument("--found", action="store_true", help="found again")
    lost.add_argument("--note", default="")

    _of_one(actions, "remove", "remove it from the list ('log undo' restores it)", run_remove)


def _of_one(
    actions: Commands, name: str, says: str, run: Callable[..., Exit]
) -> argparse.ArgumentParser:
    made = command(actions, name, says)
    made.add_argument("ref", metavar="REF", help=WHICH)
    with_json(made)
    with_day(made)
    made.set_defaults(run=run)
    return made


def changed(ref: str, context: Context, job: Callable[[OwnedPiece], OwnedPiece]) -> Exit:
    """Change one kept piece and tell it."""
    from appraise.log.keptbook import find, store
    from appraise.log.records import Stored

    with context.log() as log:
        was = find(log, ref)
        now = store(log, Stored(was.id, job(was.thing)), was.thing)
    return tell(now, context)


def tell(one: Stored[OwnedPiece], context: Context) -> Exit:
    """Print a kept piece as it is now, and what speaks against its place."""
    from appraise.keeping.places import unfit, unfit_words
    from appraise.report.kept import kept_document, kept_line

    told = unfit(one.thing.place, context.knowledge()) if one.thing.place else ()
    document = kept_document(one, context.as_of)
    document["cautions"] = [{"id": row.id, "says": unfit_words(row)} for row in told]
    lines = [kept_line(one), *(f"caution: {unfit_words(row)}" for row in told)]
    context.show(document, "\n".join(lines))
    return Exit.DONE


def _happened(
    args: argparse.Namespace, context: Context, sort: str, *fields: str, place: str | None = None
) -> Exit:
    """Something happened; `fields` are the options that say more of it."""
    from appraise.keeping.keptsteps import happened
    from appraise.records.fields import changed as typed
    from appraise.records.owned import Event

    texts = {name: getattr(args, name) or "" for name in fields}
    event = typed(Event(context.as_of, sort), texts, context.author())
    return changed(args.ref, context, lambda kept: happened(kept, event, place))


def run_move(args: argparse.Namespace, context: Context) -> Exit:
    """Put it elsewhere."""
    from appraise.keeping.keptsteps import moved

    place = " ".join(args.place)
    return changed(args.ref, context, lambda kept: moved(kept, context.as_of, place))


def run_lend(args: argparse.Namespace, context: Context) -> Exit:
    """Send it away for a while."""
    from appraise.records.owned import AWAY
    from appraise.records.values import Word

    Word(AWAY, needed=True).check("--as", args.sort)
    return _happened(args, context, args.sort, "to", "until", "note")


def run_back(args: argparse.Namespace, context: Context) -> Exit:
    """It is back."""
    return _happened(args, context, "back", "cost", "note", place=args.place)


def run_did(args: argparse.Namespace, context: Context) -> Exit:
    """Note what was done to it."""
    from appraise.records.values import Word

    Word(DONE, needed=True).check("what was done", args.what)
    if args.what in ("cleaned", "mended"):
        print(f"  {CLOSED}", file=sys.stderr)
    return _happened(args, context, args.what, "to", "cost", "note")


def run_light(args: argparse.Namespace, context: Context) -> Exit:
    """Note light."""
    from appraise.keeping.keptsteps import shown
    from appraise.records.owned import Showing

    showing = Showing(context.as_of, args.hours, args.lux, args.where)
    return changed(args.ref, context, lambda kept: shown(kept, showing))


def run_give(args: argparse.Namespace, context: Context) -> Exit:
    """It was given away."""
    return _happened(args, context, "given", "to")


def run_lost(args: argparse.Namespace, context: Context) -> Exit:
    """It is missing, or found."""
    sort = "stolen" if args.stolen else "found" if args.found else "lost"
    status = _happened(args, context, sort, "note")
    if sort != "found" and not context.json:
        for row in context.knowledge().care.values():
            if row.topic == "loss":
                print(f"  {row.text}", file=sys.stderr)
    return status


def run_remove(args: argparse.Namespace, context: Context) -> Exit:
    """Remove it from the list."""
    from appraise.log.keptbook import find
    from appraise.log.records import drop
    from appraise.report.kept import kept_document, kept_line

    with context.log() as log:
        one = find(log, args.ref)
        drop(log, [one.id])
    context.show(kept_document(one, context.as_of), f"removed {kept_line(one)}")
    return Exit.DONE


def steps_of(words: list[str]) -> dict[str, str]:
    """Findings on damage written as hinge.tape=2.

    Raises:
        InputError: when one is not written so.
    """
    out = {}
    for word in words:
        name, equals, step = word.partition("=")
        if not (name and equals and step):
            raise InputError(f"'{word}' is not DEFECT=STEP", mend="Write hinge.tape=2.")
        out[name] = step
    return out
