"""The command line: one parser, one place where errors become a line and an exit status."""

import argparse
import os
import sys
from collections.abc import Sequence

from appraise import __version__
from appraise.base.errors import AppraiseError
from appraise.cli import (
    advice,
    app,
    bid,
    budget,
    checks,
    completion,
    kept,
    listing,
    log,
    lots,
    pieces,
    places,
    record,
    report,
    stock,
    track,
    venues,
    want,
    work,
    year,
)
from appraise.cli.context import Context
from appraise.cli.exits import Exit

FAMILIES = (
    app, pieces, bid, lots, budget, listing, checks, year, advice, log, venues, kept, stock, work,
    want, record, report, track, places, completion,
)  # fmt: skip
PURPOSE = "For buying decisions only; not an appraisal for insurance, tax or estate."


def run(argv: Sequence[str]) -> int:
    """Run one command line.

    Returns:
        0 done, 1 the input is wrong, 2 usage, 130 interrupted.
    """
    _one_thread()
    try:
        args = parser().parse_args(argv)
    except SystemExit as stop:
        return int(stop.code or 0)
    try:
        status: Exit = args.run(args, Context.of(args))
        sys.stdout.flush()
        return status
    except AppraiseError as error:
        print(f"appraise: {error}", file=sys.stderr)
        return Exit.WRONG_INPUT
    except KeyboardInterrupt:
        return Exit.INTERRUPTED
    except BrokenPipeError:
        # Whoever read the pipe has seen enough; a flush at exit must not complain again.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return Exit.DONE
    except Exception as error:
        print(f"appraise: {_broken(error, args)}", file=sys.stderr)
        return Exit.WRONG_INPUT


def _broken(error: Exception, args: argparse.Namespace) -> str:
    """One line on a command that broke, and where the rest is written."""
    from appraise.base.faultlog import record_fault
    from appraise.base.places import home, shortened
    from appraise.cli.context import now

    path = home(args.home).faults
    record_fault(path, error, "a command", now())
    says = " ".join(f"{type(error).__name__}: {error}".split())
    return f"that could not be worked out ({says}). More: {shortened(path)}"


def _one_thread() -> None:
    """Compute on one thread, unless the user says otherwise; numpy reads it when it is loaded.

    At matrices of this size several are never quicker, and on a busy machine they wait for one
    another several times as long as they compute; one leaves room for keys as well.
    """
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")


def parser() -> argparse.ArgumentParser:
    """The whole command line."""
    top = argparse.ArgumentParser(
        prog="appraise",
        description="Examine, date and price early photographs, and log them.",
        epilog=PURPOSE,
    )
    top.add_argument("--version", action="version", version=f"appraise {__version__}")
    top.add_argument("--home", metavar="DIR", help="where the log and settings are")
    top.set_defaults(run=app.open_app, parser=top)
    commands = top.add_subparsers(metavar="COMMAND", title="commands")
    for family in FAMILIES:
        family.add(commands)
    return top
