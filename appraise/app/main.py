"""Where the app is begun: `run` opens the log, shows the app, and closes the log again."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime

from appraise.app.session import Session
from appraise.base.places import Home
from appraise.base.settings import Settings
from appraise.store.machines import Machine


def run(
    home: Home,
    settings: Settings,
    *,
    demo: bool = False,
    as_of: date,
    clock: Callable[[], datetime],
    machine: str | Machine,
    mouse: bool = True,
) -> int:
    """Run the app on a home until the user leaves it.

    Args:
        home: The user's data directory; its log is made when there is none.
        settings: The user's settings.
        demo: Whether the home is a throw-away copy of the invented demo.
        as_of: The day for which prices are stated and entries are made.
        clock: Gives the time, with its zone.
        machine: The name under which this machine signs what it writes.
        mouse: Whether the app is worked by the mouse too; else it is left to the terminal.

    Returns:
        The exit status: 0, or 1 when the app itself broke.

    Raises:
        StoreError: when the log cannot be opened.
    """
    from appraise.app.app import AppraiseApp  # 130 ms with textual

    session = Session(home, settings, as_of, clock, machine, demo)
    try:
        app = AppraiseApp(session, alone=True)
        app.run(mouse=mouse)
        return int(app.return_code or 0)
    finally:
        session.close()
