"""What tests of the app share: a session on a home of their own, and screens as text."""

import asyncio
from contextlib import suppress
from datetime import UTC, date, datetime, timedelta
from time import monotonic

from textual.worker import WorkerCancelled

from appraise.app.app import AppraiseApp
from appraise.app.session import Session
from appraise.base.places import Home
from appraise.base.settings import Settings

DAY = date(2026, 11, 7)
NOON, BEGUN = datetime(2026, 11, 7, 12, tzinfo=UTC), monotonic()
LIMIT = 60  # seconds in which any machine should have done what a test waits for
TURNS = 3  # of the loop without anything to do, while what threads hand over may come in
OPEN: list[Session] = []  # closed after each test, whatever became of it


def clock():
    """Noon of the tests' day, and as much later as they have run: no midnight falls among them."""
    return NOON + timedelta(seconds=monotonic() - BEGUN)


def session(place, demo=False, asked=True, machine="test", **settings):
    """A session on a home in a directory; `demo` fills its log, `asked` has a currency chosen."""
    home = Home(place)
    if demo and not home.log.exists():
        from appraise.cli.demo import furnish  # loads what a first paint must not

        furnish(home)
    made = Session(home, Settings(**settings), DAY, clock, machine, demo)
    OPEN.append(made)
    if asked and not made.log.currency_chosen:
        made.log.set_base_currency(made.settings.currency)
    return made


def shown(app):
    """The screen as lines of text, with all that was to be painted."""
    app.screen._on_timer_update()
    strips = app.screen._compositor.render_strips()
    return "\n".join("".join(segment.text for segment in strip).rstrip() for strip in strips)


def pane(app, name="ask"):
    """All the lines of a pane of the Examine screen: ask, panel or more."""
    return app.screen.query_one(f"#{name}").text


async def idle(*_):
    """Wait until the loop has nothing to do at once: no clock is asked.

    All that followed from a key has been done then, but for what is to be painted, and for what a
    thread, a file or a timer is still to bring; what a test needs of these it waits for.
    """
    loop, calm = asyncio.get_running_loop(), 0
    while calm < TURNS:
        await asyncio.sleep(0)
        calm = 0 if loop._ready else calm + 1


def _still(app):
    """Whether no worker works, and the screen has nothing to paint or to do when it is painted."""
    screen = app.screen
    waits = screen._layout_required, screen._scroll_required, screen._repaint_required
    waits += screen._recompose_required, screen._dirty_widgets, screen._callbacks
    return not any(waits) and all(one.is_finished for one in app.workers)


async def settled(pilot):
    """Wait for every worker and for what they set off, till a question asked can be answered."""
    from appraise.app.examine.view import Examine  # loads what a first paint must not

    async with asyncio.timeout(LIMIT):
        while True:
            with suppress(WorkerCancelled):  # one that a later one replaced is done
                await pilot.app.workers.wait_for_complete()
            await pilot._wait_for_screen()
            await idle()
            if _still(pilot.app):
                break
            pilot.app.screen._on_timer_update()
    screen = pilot.app.screen
    if isinstance(screen, Examine):
        await until(pilot, lambda: screen._seen == screen._question)


async def until(pilot, holds):
    """Wait until something holds, on however slow a machine."""
    async with asyncio.timeout(LIMIT):
        while not holds():
            await pilot.pause(0.01)


async def resized(pilot, size):
    """Give the terminal another size, and wait until the screen has it."""
    await pilot.resize_terminal(*size)
    await until(pilot, lambda: pilot.app.screen._compositor.size == size)
    await settled(pilot)


async def walk(pilot, paths, look):
    """Every screen on every path of keys from the desk, each looked at once.

    Paths share the keys with which they begin: from a screen that was laid over another, one goes
    back to that; where a key changed a screen in its place, the way begins at the desk again.
    """
    app, tree = pilot.app, {}
    for path in paths:
        here = tree
        for key in path.split():
            here = here.setdefault(key, {})

    async def press(key):
        await pilot.press(key)
        await settled(pilot)

    async def back(depth):
        while len(app.screen_stack) > depth:
            app.pop_screen()
            await pilot.pause()
        await settled(pilot)

    async def visit(keys, below):
        look(" ".join(keys))
        stands, depth = True, len(app.screen_stack)
        for key, further in below.items():
            if not stands:
                await back(1)
                for each in keys:
                    await press(each)
            screen = app.screen
            await press(key)
            stands = len(app.screen_stack) > depth and app.screen_stack[depth - 1] is screen
            await visit((*keys, key), further)
            await back(depth)

    await settled(pilot)
    await visit((), tree)


async def ask(pilot, check):
    """Go to a check, and wait until it stands on the screen."""
    pilot.app.screen.exam.go(check)
    pilot.app.screen.redraw()
    await settled(pilot)


async def begin(pilot, line):
    """Start a piece from one line."""
    await settled(pilot)
    await pilot.press("n")
    await pilot.pause()
    pilot.app.screen.query_one("Input").value = line
    await pilot.pause()
    await pilot.press("enter")
    await settled(pilot)


def app_on(place, **more):
    """The app on a home in a directory."""
    return AppraiseApp(session(place, **more))
