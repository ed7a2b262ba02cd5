"""`appraise` and `appraise demo`: the terminal app, on the user's log or on the invented demo.

Without a terminal the demo is told as text.
"""

import argparse
import os
import sys
import tempfile
from datetime import date
from pathlib import Path

from appraise.base.collecting import collect_as_usual
from appraise.base.errors import InputError
from appraise.base.places import Home
from appraise.base.settings import Settings
from appraise.cli.context import Context, talk
from appraise.cli.exits import Exit
from appraise.commands.workspace import now
from appraise.store.machines import Machine, machine_at


def run_app(args: argparse.Namespace, context: Context) -> Exit:
    if not _terminal():
        if _on_terminal():
            mend = "Use 'appraise ask', 'appraise log list' or any command of 'appraise --help'."
            raise InputError("this terminal cannot draw the app (TERM=dumb)", mend=mend)
        mend = "In a pipe use a command, such as 'appraise verdict'."
        raise InputError("the app needs a terminal", mend=mend)
    name = machine_at(context.home.root)
    return _started(context.home, context.settings(), context.as_of, name, args.mouse)


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
        return _started(home, settings, as_of, "demo", args.mouse, demo=True)


def _started(
    home: Home,
    settings: Settings,
    as_of: date,
    machine: str | Machine,
    mouse: bool,
    demo: bool = False,
) -> Exit:
    """The app: it goes on for hours, so that garbage is searched for as usual from here on."""
    from appraise.app.main import run  # 140 ms with textual

    collect_as_usual()
    return Exit(
        run(home, settings, demo=demo, as_of=as_of, clock=now, machine=machine, mouse=mouse)
    )


def _terminal() -> bool:
    """Whether the app can be drawn: on a terminal that moves its cursor, with keys from it."""
    return _on_terminal() and os.environ.get("TERM", "") != "dumb"


def _on_terminal() -> bool:
    return sys.stdin.isatty() and sys.stdout.isatty()
