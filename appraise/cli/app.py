"""`appraise` and `appraise demo`: the terminal app, on the user's log or on the invented demo.

Without a terminal the demo is told as text.
"""

import argparse
import os
import sys
import tempfile
from pathlib import Path

from appraise.base.errors import InputError
from appraise.base.places import Home
from appraise.cli.context import Context, talk
from appraise.cli.exits import Exit
from appraise.commands.workspace import now
from appraise.store.machines import machine_at


def run_app(args: argparse.Namespace, context: Context) -> Exit:
    if not _terminal():
        if _on_terminal():
            mend = "Use 'appraise ask', 'appraise log list' or any command of 'appraise --help'."
            raise InputError("this terminal cannot draw the app (TERM=dumb)", mend=mend)
        mend = "In a pipe use a command, such as 'appraise verdict'."
        raise InputError("the app needs a terminal", mend=mend)
    from appraise.app.main import run  # 140 ms with textual

    home, settings, name = context.home, context.settings(), machine_at(context.home.root)
    return Exit(run(home, settings, as_of=context.as_of, clock=now, machine=name, mouse=args.mouse))


def run_demo(args: argparse.Namespace, context: Context) -> Exit:
    """The app on a copy of the demo that is thrown away at the end; text without a terminal."""
    from appraise.cli.demo import DEMO_DAY, furnish

    with tempfile.TemporaryDirectory(prefix="appraise-demo-") as place:
        home = Home(Path(place))
        settings = furnish(home)
        as_of = context.as_of if args.as_of else DEMO_DAY
        if not _terminal():
            from appraise.cli.demotext import tell

            tell(Context(home, as_of, say=talk))
            return Exit.DONE
        from appraise.app.main import run  # 140 ms with textual

        return Exit(
            run(home, settings, demo=True, as_of=as_of, clock=now, machine="demo", mouse=args.mouse)
        )


def _terminal() -> bool:
    """Whether the app can be drawn: on a terminal that moves its cursor, with keys from it."""
    return _on_terminal() and os.environ.get("TERM", "") != "dumb"


def _on_terminal() -> bool:
    return sys.stdin.isatty() and sys.stdout.isatty()
